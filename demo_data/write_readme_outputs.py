"""Write what the commands print into README.md, below each command, from runs on the demo's picture and job.

    python demo_data/write_readme_outputs.py

A block of README.md whose first line is a command of tuckfold holds that command and its output; long output
ends with a line of dots. Run it after a change of what a command prints; a test fails until README.md is
what it writes.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import shlex
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Final
from unittest import mock

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from pycore.cli.main import main as tuckfold

ROOT: Final = Path(__file__).resolve().parents[1]
README: Final = ROOT / "README.md"

#: What the commands find in their folder.
GIVEN: Final = {
    "tide.jpg": ROOT / "demo_data" / "estuary.jpg",
    "room.jpg": ROOT / "demo_data" / "room.jpg",
    "job.json": ROOT / "demo_data" / "demo_job.json",
    "canvas.icc": ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc",
    "strip.cgats.txt": ROOT / "demo_data" / "strip.cgats.txt",
    "measured.txt": ROOT / "demo_data" / "measured.txt",
    "shop.json": ROOT / "demo_data" / "shop.json",
    "answer.txt": ROOT / "demo_data" / "answer.txt",
}
TABLE: Final = """\
name,picture.file,face.width_mm,face.height_mm
Low tide,tide.jpg,240,180
High tide,tide.jpg,300,225
"""
COLOURS: Final = "0.5 0.25 0.75\n1 1 1\n"

#: Lines of output that are shown.
MOST_LINES: Final = 16

_BLOCK: Final = re.compile(r"^```\n(tuckfold [^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def readme_text(text: str, folder: Path) -> str:
    """README.md with the output of every command as it is printed.

    Parameters
    ----------
    text : str
        As it is.
    folder : Path
        An empty one, in which the commands are run.

    Returns
    -------
    str

    Raises
    ------
    RuntimeError
        A command fails.
    """
    for name, source in GIVEN.items():
        shutil.copy(source, folder / name)
    (folder / "colours.txt").write_text(COLOURS, encoding="utf-8")
    (folder / "spring.csv").write_text(TABLE, encoding="utf-8")
    return _BLOCK.sub(lambda block: f"```\n{block[1]}\n{output_of(block[1], folder)}```", text)


def output_of(command: str, folder: Path) -> str:
    """What one command prints, as it is shown.

    Parameters
    ----------
    command : str
        As a person types it; `< FILE` is understood.
    folder : Path
        Where it is run.

    Returns
    -------
    str
        With the newline at its end.

    Raises
    ------
    RuntimeError
        The command fails.
    """
    words = shlex.split(command)[1:]
    given = None
    if "<" in words:
        words, given = words[: words.index("<")], (folder / words[-1]).read_text(encoding="utf-8")
    status, printed, complaints = run_here(words, folder, given)
    if status != 0:
        raise RuntimeError(f"{command}\n{complaints}")
    lines = [line.rstrip() for line in printed.splitlines()]
    if len(lines) > MOST_LINES:
        lines = [*lines[:MOST_LINES], "…"]
    return "".join(f"{line}\n" for line in lines)


def run_here(words: list[str], folder: Path, given: str | None = None) -> tuple[int, str, str]:
    """Run one command in this process, which spares it the start of Python and of the libraries.

    Parameters
    ----------
    words : list of str
        Without the program's name.
    folder : Path
        Where it is run.
    given : str, optional
        What it reads.

    Returns
    -------
    tuple of int, str and str
        The exit status, and what is printed on standard output and on standard error.
    """
    output, errors = io.StringIO(), io.StringIO()
    with (
        contextlib.chdir(folder),
        contextlib.redirect_stdout(output),
        contextlib.redirect_stderr(errors),
        # As wide as into a file.
        mock.patch.dict(os.environ, {"COLUMNS": "80"}),
        mock.patch.object(sys, "stdin", io.StringIO(given or "")),
    ):
        try:
            status = tuckfold(words)
        except SystemExit as end:
            # The help ends so.
            status = end.code if isinstance(end.code, int) else 1
    return status, output.getvalue(), errors.getvalue()


def main() -> None:
    """Write README.md."""
    with tempfile.TemporaryDirectory() as folder:
        text = readme_text(README.read_text(encoding="utf-8"), Path(folder))
    README.write_text(text, encoding="utf-8", newline="\n")
    print(f"wrote {README.name}")


if __name__ == "__main__":
    main()
