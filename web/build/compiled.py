"""Zips and wheels with bytecode in the place of sources, made once and kept in the user's cache folder."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Sequence
from pathlib import Path

from build.commands import run
from build.failure import BuildError
from build.places import Places
from build.stamps import digest, sha256_of


def compiled(files: Sequence[Path], *, at: Places, node: str) -> dict[Path, Path]:
    """Compile what was not compiled before.

    Parameters
    ----------
    files : sequence of Path
        Zips and wheels whose bytes have been checked.
    at : Places
        The checkout; its npm packages are installed.
    node : str
        The program.

    Returns
    -------
    dict
        The compiled file by the given one; both have the same name.

    Raises
    ------
    BuildError
        Compiling failed.
    """
    tools = [at.web / "tools" / "compile.mjs", at.web / "tools" / "bytecode.py"]
    runtime = [at.node_modules / "pyodide" / "pyodide.asm.wasm"]
    by = digest([*tools, *runtime], base=at.web)
    kept = {file: at.cache / "compiled" / by[:16] / sha256_of(file)[:16] / file.name for file in files}
    missing = [file for file in files if not kept[file].is_file()]
    if missing:
        at.cache.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=at.cache, prefix="compile-") as temporary:
            run([node, tools[0], temporary, *missing], cwd=at.web, what="compiling the Python modules")
            for file in missing:
                made = Path(temporary) / file.name
                if not made.is_file():
                    raise BuildError(f"compiling {file.name} brought nothing", "see what it printed above")
                kept[file].parent.mkdir(parents=True, exist_ok=True)
                os.replace(made, kept[file])
    return kept
