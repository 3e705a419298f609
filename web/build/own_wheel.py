"""The core as a wheel, built by its own build backend, the same bytes for the same sources."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from pathlib import Path

from build.commands import run
from build.failure import BuildError
from build.places import Places
from build.stamps import digest

#: Files get one date, the earliest that a zip can hold (1980-01-01), or each build would differ.
_ONE_DATE = "315532800"


def own_sources(at: Places) -> str:
    """The digest of all that the wheel is made from."""
    names = ["pyproject.toml", "README.md", "pycore"]
    return digest([at.root / name for name in names], base=at.root)


def build_own_wheel(at: Places, *, backend: Path, into: Path) -> Path:
    """Build the wheel.

    Parameters
    ----------
    at : Places
        The checkout.
    backend : Path
        The wheel of flit_core, which runs from where it lies; nothing is installed.
    into : Path
        The folder for the result.

    Returns
    -------
    Path
        The wheel.

    Raises
    ------
    BuildError
        The backend failed.
    """
    with tempfile.TemporaryDirectory(prefix="tuckfold-wheel-") as temporary:
        env = {**os.environ, "PYTHONPATH": str(backend), "SOURCE_DATE_EPOCH": _ONE_DATE}
        command = [sys.executable, "-m", "flit_core.wheel", "--outdir", temporary, str(at.root)]
        run(command, cwd=at.root, what="building the core's wheel", env=env)
        built = next(Path(temporary).glob("tuckfold-*.whl"), None)
        if built is None:
            raise BuildError("building the core's wheel brought none", "see what it printed above")
        return Path(shutil.copy2(built, into / built.name))
