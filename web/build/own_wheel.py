"""The core as a wheel, built by its own build backend, the same bytes for the same sources."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import zipfile
from pathlib import Path

from build.commands import run
from build.failure import BuildError
from build.one_date import EPOCH_SECONDS
from build.places import Places
from build.stamps import digest

#: Make the illustrative profile and the letters of PDFs with libraries that the page has not.
MAKERS = (
    "pycore/colour/illustrative/make_profile.py",
    "pycore/colour/illustrative/matte_inversion.py",
    "pycore/printing/pdf/make_letters.py",
)


def own_sources(at: Places) -> str:
    """The digest of all that the wheel is made from."""
    names = ["pyproject.toml", "README.md", "pycore"]
    return digest([at.root / name for name in names], base=at.root)


def build_own_wheel(at: Places, *, backend: Path, into: Path) -> Path:
    """Build the wheel that the page loads.

    It comes without the viewer of the client's page, which the page itself serves and hands over when it is
    needed, and without the makers of the illustrative profile and of the PDFs' letters.

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
        built = run_backend(at.root, backend=backend, into=Path(temporary))
        for name in (at.viewer.relative_to(at.root).as_posix(), *MAKERS):
            leave_out(built, name)
        return Path(shutil.copy2(built, into / built.name))


def run_backend(root: Path, *, backend: Path, into: Path) -> Path:
    """Build the wheel of a project as it lies there.

    Parameters
    ----------
    root : Path
        The folder with pyproject.toml.
    backend : Path
        The wheel of flit_core.
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
    env = {**os.environ, "PYTHONPATH": str(backend), "SOURCE_DATE_EPOCH": str(EPOCH_SECONDS)}
    command = [sys.executable, "-m", "flit_core.wheel", "--outdir", str(into), str(root)]
    run(command, cwd=root, what="building the core's wheel", env=env)
    built = next(into.glob("tuckfold-*.whl"), None)
    if built is None:
        raise BuildError("building the core's wheel brought none", "see what it printed above")
    return built


def leave_out(wheel: Path, name: str) -> None:
    """Take a file out of a wheel, and its line out of the wheel's record.

    Parameters
    ----------
    wheel : Path
        Changed in place.
    name : str
        The file in it.

    Raises
    ------
    BuildError
        It is not in there.
    """
    with zipfile.ZipFile(wheel) as archive:
        parts = [(info, archive.read(info)) for info in archive.infolist()]
    kept = [(info, data) for info, data in parts if info.filename != name]
    if len(kept) == len(parts):
        raise BuildError(f"the core's wheel holds no {name}", "run npm run client in web/")
    with zipfile.ZipFile(wheel, "w", zipfile.ZIP_DEFLATED) as archive:
        for info, data in kept:
            if info.filename.endswith(".dist-info/RECORD"):
                # PEP 376: a line for each file, its name first.
                lines = data.decode().splitlines(keepends=True)
                data = "".join(line for line in lines if not line.startswith(f"{name},")).encode()
            archive.writestr(info, data)
