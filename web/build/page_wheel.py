"""The wheel for `pip install`: the core, the command line, and the built page that it serves."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Final

from build.own_wheel import run_backend
from build.pins import read_pins
from build.places import Places
from build.service import SERVICE_FILE, served_files
from build.wheels import cached_wheels

#: As pycore/serving/site_folder.py looks for it.
_SITE: Final = Path("pycore") / "serving" / "site"


def write_page_wheel(at: Places, *, into: Path) -> Path:
    """Build the wheel that brings the page.

    The page is put into a copy of the package: a checkout that held it would give its own wheel, which the
    page loads, another content with each build.

    Parameters
    ----------
    at : Places
        The checkout; the site is built.
    into : Path
        The folder for the wheel; made when missing.

    Returns
    -------
    Path
        The wheel.

    Raises
    ------
    BuildError
        The backend failed.
    """
    (backend,) = cached_wheels(read_pins(at.web / "pins.json").backend, folder=at.wheels).values()
    with tempfile.TemporaryDirectory(prefix="tuckfold-page-wheel-") as temporary:
        copy = Path(temporary) / "tuckfold"
        copy.mkdir()
        for name in ("pyproject.toml", "README.md"):
            shutil.copyfile(at.root / name, copy / name)
        shutil.copytree(at.root / "pycore", copy / "pycore", ignore=shutil.ignore_patterns("__pycache__"))
        for file in [*served_files(at.dist), at.dist / SERVICE_FILE]:
            target = copy / _SITE / file.relative_to(at.dist)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, target)
        into.mkdir(parents=True, exist_ok=True)
        built = run_backend(copy, backend=backend, into=Path(temporary))
        return Path(shutil.copy2(built, into / built.name))
