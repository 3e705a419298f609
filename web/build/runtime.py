"""The folder `py/` of the site: Pyodide's runtime, the wheels, a lock file of just these, and a snapshot."""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from build.compiled import compiled
from build.failure import BuildError
from build.own_wheel import build_own_wheel, own_sources
from build.pins import Pins, WheelPin
from build.places import Places
from build.snapshot import LIBRARY_FILE, make_snapshot
from build.source_wheel import source_wheel
from build.stamps import Stamp, digest, sha256_of
from build.wheels import cached_sources, cached_wheels

#: Of Pyodide's npm package.
PROGRAM_FILES: Final = ("pyodide.mjs", "pyodide.asm.js", "pyodide.asm.wasm")
LOCK_FILE: Final = "pyodide-lock.json"

#: The core's name among the packages.
OWN: Final = "tuckfold"


def build_runtime(at: Places, pins: Pins, *, node: str) -> bool:
    """Bring the folder up to date.

    Parameters
    ----------
    at : Places
        The checkout; its npm packages are installed.
    pins : Pins
        The wheels.
    node : str
        The program that compiles.

    Returns
    -------
    bool
        Whether anything had changed.

    Raises
    ------
    BuildError
        A wheel is missing or has the wrong hash, the pins and Pyodide's own lock file disagree, or the memory
        snapshot could not be made.
    """
    wheels = cached_wheels(pins.carried, folder=at.wheels, carrier=pins.carrier)
    wheels |= cached_wheels([*pins.pure, *pins.late], folder=at.wheels)
    sources = cached_sources(pins.source, folder=at.wheels)
    (backend,) = cached_wheels(pins.backend, folder=at.wheels).values()
    source = at.node_modules / "pyodide"
    lock: dict[str, Any] = json.loads((source / LOCK_FILE).read_text(encoding="utf-8"))
    check_against_lock(pins.carried, lock)

    stamp = Stamp(at.stamps, "runtime")
    restoring = at.web / "src" / "worker" / "snapshot"
    ours = [at.web / "pins.json", at.web / "tools", at.web / "build", restoring, source / LOCK_FILE]
    demo = digest([at.demo / "demo_job.json", *at.demo.glob("*.jpg")], base=at.demo)
    inputs = digest(ours, base=at.web, extra=own_sources(at) + demo)
    if stamp.is_fresh(inputs=inputs, outputs=digest([at.python], base=at.web)):
        return False
    if at.python.exists():
        shutil.rmtree(at.python)
    at.python.mkdir(parents=True)
    for name in PROGRAM_FILES:
        shutil.copyfile(source / name, at.python / name)
    with tempfile.TemporaryDirectory(prefix="tuckfold-wheel-") as temporary:
        wheels[OWN] = build_own_wheel(at, backend=backend, into=Path(temporary))
        for pin in pins.source:
            wheels[pin.name] = source_wheel(pin, sources[pin.name], into=Path(temporary))
        library = source / LIBRARY_FILE
        made = compiled([library, *wheels.values()], at=at, node=node)
        shutil.copyfile(made[library], at.python / LIBRARY_FILE)
        placed = {name: place_by_content(made[wheel], at.python) for name, wheel in wheels.items()}
    (at.python / LOCK_FILE).write_text(
        json.dumps(site_lock(lock, pins, placed), indent=1) + "\n", encoding="utf-8"
    )
    late = {pin.name for pin in pins.when_needed}
    make_snapshot(at, wheels=[wheel for name, wheel in placed.items() if name not in late], node=node)
    stamp.write(inputs=inputs, outputs=digest([at.python], base=at.web))
    return True


def check_against_lock(carried: tuple[WheelPin, ...], lock: Mapping[str, Any]) -> None:
    """Hold the pins to Pyodide's own lock file.

    Parameters
    ----------
    carried : tuple of WheelPin
        The wheels that Pyodide's makers built.
    lock : mapping
        Their lock file.

    Raises
    ------
    BuildError
        A version, file or hash differs.
    """
    for pin in carried:
        entry = lock["packages"].get(pin.name, {})
        theirs = (entry.get("version"), entry.get("file_name"), entry.get("sha256"))
        if theirs != (pin.version, pin.file, pin.sha256):
            raise BuildError(
                f"web/pins.json and Pyodide's lock file disagree on {pin.name}",
                "pin the version, file and sha256 that the lock file of the pinned Pyodide gives",
            )


def place_by_content(wheel: Path, folder: Path) -> Path:
    """Copy a wheel under a name that holds its hash, so that no browser takes an old one for it.

    Parameters
    ----------
    wheel : Path
        The wheel, named as the wheel format wants it, without a build tag.
    folder : Path
        Where it goes.

    Returns
    -------
    Path
        The copy; the hash stands as the name's build tag, which starts with a digit (PEP 427).
    """
    name, version, rest = wheel.name.split("-", 2)
    placed = folder / f"{name}-{version}-0{sha256_of(wheel)[:10]}-{rest}"
    shutil.copyfile(wheel, placed)
    return placed


def site_lock(lock: Mapping[str, Any], pins: Pins, placed: Mapping[str, Path]) -> dict[str, Any]:
    """The lock file that the page loads by.

    Parameters
    ----------
    lock : mapping
        Pyodide's lock file.
    pins : Pins
        The wheels.
    placed : mapping
        Each package's file in the site.

    Returns
    -------
    dict
        A lock file of these packages with the hashes of these files. The core depends on all but the late
        ones, so that loading it loads them.
    """
    known = {pin.name: lock["packages"][pin.name] for pin in pins.carried}
    own_version = placed[OWN].name.split("-")[1]
    versions = {pin.name: pin.version for pin in (*pins.pure, *pins.when_needed)} | {OWN: own_version}
    late = {pin.name for pin in pins.when_needed}
    for name, version in versions.items():
        known[name] = {
            "name": name,
            "version": version,
            "install_dir": "site",
            "package_type": "package",
            "imports": ["pycore"] if name == OWN else [name],
            "depends": sorted(placed.keys() - {OWN} - late) if name == OWN else [],
            "unvendored_tests": False,
        }
    packages = {
        name: {**known[name], "file_name": file.name, "sha256": sha256_of(file)}
        for name, file in placed.items()
    }
    return {"info": lock["info"], "packages": packages}
