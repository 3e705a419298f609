"""Imports run one way: a room of the core imports only from rooms below it, and each can be used alone."""

from __future__ import annotations

import ast
import subprocess
import sys
from functools import cache
from itertools import chain
from pathlib import Path

import pytest

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]
CORE = ROOT / "pycore"

#: The rooms from the ground up. Rooms of one line stand side by side: they may import one another as long as
#: no circle comes of it.
FLOORS: tuple[tuple[str, ...], ...] = (
    ("speech",),
    ("errors", "conventions", "progress", "field_names", "workers"),
    ("contract", "serving"),
    ("colour.spaces",),
    ("colour.icc", "colour.cgats"),
    ("colour.gamut",),
    ("colour.link",),
    ("colour.mapping", "colour.illustrative"),
    ("layout", "picture"),
    ("fold",),
    ("bars",),
    ("fill", "edges"),
    ("render",),
    ("proofing", "printing"),
    ("compare", "model", "client", "ticket", "plan", "strip", "bundle", "wall"),
    ("tasks",),
    ("batch",),
    ("bridge", "cli"),
)

FLOOR_OF = {room: floor for floor, rooms in enumerate(FLOORS) for room in rooms}

#: What a room may load when it is used alone: its own floor's neighbours are none of it.
ALONE = {
    "picture": ("pycore.picture.read", {"layout", "fold", "fill", "edges", "render"}),
    "colour": ("pycore.colour.mapping.clip_report", {"layout", "fold", "fill", "picture", "render"}),
    "layout": ("pycore.layout.report", {"colour", "fold", "fill", "picture", "render"}),
    "fold": ("pycore.fold.animation", {"colour", "fill", "picture", "render"}),
}
UPPER = set(chain.from_iterable(FLOORS[FLOORS.index(("proofing", "printing")) :]))


def room_of(module: str) -> str:
    """The room of a dotted module name below `pycore`."""
    parts = module.split(".")[1:]
    return ".".join(parts[:2]) if parts[0] == "colour" else parts[0]


def imports_of(path: Path) -> set[str]:
    """The rooms that a file imports from, anywhere in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module]
        found |= {room_of(name) for name in names if name.startswith("pycore.")}
    return found


@cache
def arrows() -> dict[tuple[str, str], list[str]]:
    """Each pair of importing and imported room, with the files that make it."""
    found: dict[tuple[str, str], list[str]] = {}
    for path in sorted(CORE.rglob("*.py")):
        if path.parent == CORE and path.stem == "__init__":
            continue
        dotted = ".".join(("pycore", *path.relative_to(CORE).with_suffix("").parts))
        room = room_of(dotted)
        for other in imports_of(path) - {room}:
            found.setdefault((room, other), []).append(path.relative_to(ROOT).as_posix())
    return found


def test_every_room_has_its_floor() -> None:
    rooms = {room for pair in arrows() for room in pair}
    assert rooms == set(FLOOR_OF)


def test_no_import_points_upwards() -> None:
    upwards = {pair: files for pair, files in arrows().items() if FLOOR_OF[pair[0]] < FLOOR_OF[pair[1]]}
    assert upwards == {}


def test_there_is_no_circle_of_rooms() -> None:
    onwards: dict[str, set[str]] = {}
    for room, other in arrows():
        onwards.setdefault(room, set()).add(other)
    waiting = {room: set(onwards.get(room, set())) for room in FLOOR_OF}
    while free := [room for room, others in waiting.items() if not others]:
        for room in free:
            del waiting[room]
        for others in waiting.values():
            others.difference_update(free)
    assert waiting == {}


@pytest.mark.parametrize("room", ALONE)
def test_a_science_can_be_used_alone(room: str) -> None:
    module, unwanted = ALONE[room]
    code = f"import sys, {module}; print(*(name for name in sys.modules if name.startswith('pycore.')))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    loaded = {name.split(".")[1] for name in ran.stdout.split()}
    assert room in loaded
    assert loaded & (unwanted | UPPER) == set()
