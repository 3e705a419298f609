"""All steps from a clone to the finished site, each done only where something changed."""

from __future__ import annotations

import time
from collections.abc import Callable

from build.commands import find_node
from build.failure import BuildError
from build.packed import pack_site
from build.page import build_page, install_packages
from build.pins import read_pins
from build.places import Places
from build.publish import publish
from build.runtime import build_runtime


def build_site(at: Places, *, packed: bool = False) -> None:
    """Install and build whatever is missing or changed.

    Parameters
    ----------
    at : Places
        The checkout.
    packed : bool, optional
        Lay packed copies beside the files, for a host; they are not needed on this machine.

    Raises
    ------
    BuildError
        A step failed; what was finished before it stays, and the next run goes on from there.
    """
    pins = read_pins(at.web / "pins.json")
    node, npm = find_node(oldest=pins.node)
    try:
        step("npm packages", lambda: install_packages(at, pins, npm=npm))
        step("Python runtime and wheels", lambda: build_runtime(at, pins, node=node))
        step("page", lambda: build_page(at, node=node))
        step("site", lambda: publish(at))
        if packed:
            step("packed copies", lambda: pack_site(at, node=node))
    except OSError as wrong:
        where = wrong.filename or at.root
        raise BuildError(
            f"{where} could not be read or written ({wrong.strerror or wrong})",
            "give yourself the right to write there, make room on the disk, or use another copy",
        ) from wrong


def step(name: str, work: Callable[[], bool]) -> None:
    """Do one step and say whether anything had changed, and how long it took."""
    print(f"{name} …", flush=True)
    started = time.monotonic()
    changed = work()
    outcome = "done" if changed else "up to date"
    # By its name: another step may run beside it.
    print(f"  {name}: {outcome} ({time.monotonic() - started:.1f} s)", flush=True)
