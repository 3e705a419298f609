"""The messages about showing a canvas: its surroundings, variants side by side, edges, model, client page."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pycore.bridge.colour_messages import Screen
from pycore.bridge.message import Buffer, Message, Triple
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Fill, Job
from pycore.contract.notes import Note
from pycore.conventions import Side


class Wall(StrEnum):
    """The wall's colour."""

    PLASTER = "plaster"
    CHALK = "chalk"
    SAND = "sand"
    SAGE = "sage"
    SLATE = "slate"


class LightFrom(StrEnum):
    """Where the soft light comes from, seen from the front."""

    UPPER_LEFT = "upper-left"
    LEFT = "left"
    ABOVE = "above"
    RIGHT = "right"
    UPPER_RIGHT = "upper-right"


class Beside(StrEnum):
    """What of known size stands beside the piece."""

    NOTHING = "nothing"
    DOOR = "door"
    CHAIR = "chair"
    PERSON = "person"


class Surroundings(Message):
    """The room in which a piece is looked at; it changes nothing of the piece itself."""

    wall: Wall = Wall.PLASTER
    light_from: LightFrom = LightFrom.UPPER_LEFT
    light_kelvin: Annotated[int, Field(ge=2700, le=6500)] = 5000
    """Colour temperature of the light; at 5000 K the face is seen as the proof says."""
    beside: Beside = Beside.NOTHING
    flat_light: bool = False
    """Even light without colour or shade on the piece: a printed patch measures what the proof says."""


class Variant(Message):
    """One way to make the piece."""

    label: Annotated[str, Field(max_length=200)]
    job: Job


class CompareParams(Message):
    """Two to four variants of one picture."""

    variants: Annotated[list[Variant], Field(min_length=2, max_length=4)]
    viewing: Viewing
    screen: Screen
    preview_px: Annotated[int, Field(ge=10_000, le=8_000_000)] = 1_000_000
    """About how many pixels the largest texture has; all have the same resolution."""


class EdgesParams(Message):
    """What the picture holds beside each arris."""

    job: Job


class SideFigures(Message):
    """One side, judged from the picture beside its arris; figures 0 to 1."""

    side: Side
    fill: Fill
    """The fill that it has."""
    busy: float
    """How much fine detail and contrast the strip has."""
    doubled: float
    """How plainly a mirror would show a shape twice."""
    broken: float
    """How plainly a line that runs aslant into the arris would be bent by a mirror."""
    cut: float
    """How plainly something stands out where carrying would take it off the face."""
    better: Fill | None = None
    """A fill that would do better; absent where its own does well."""
    reason: str = ""
    """Why, with the figures."""


class EdgesReply(Message):
    """The four sides, and what to watch on them."""

    sides: list[SideFigures]
    """Top, right, bottom, left."""
    notes: list[Note]


class ModelColours(StrEnum):
    """Which colours a model carries."""

    FILED = "filed"
    PRINTED = "printed"


class ModelParams(Message):
    """A 3D model of the folded canvas, with the fold as an animation."""

    job: Job
    colours: ModelColours = ModelColours.PRINTED
    texture_px: Annotated[int, Field(ge=10_000, le=40_000_000)] = 4_000_000
    """About how many pixels its texture has."""


class ModelReport(Message):
    """What was re-read from a written model."""

    file: str
    bytes: int
    vertices: int
    triangles: int
    size_mm: Triple
    """Width, height and depth of the folded canvas."""
    texture_px: tuple[int, int]
    animation_s: float


class ModelReply(Message):
    """The written model, re-opened and measured."""

    report: ModelReport
    parts: list[Buffer]
    """The file's bytes in order, each (n,), uint8, file."""
    notes: list[Note]


class TurntableKind(StrEnum):
    """Formats of an animated picture."""

    WEBP = "webp"
    GIF = "gif"


class TurntableParams(Message):
    """Frames of the piece being turned; their pixels travel as the call's buffer, RGB, 8 bits, one by one."""

    name: str
    """The job's name, for the file's."""
    kind: TurntableKind
    width_px: Annotated[int, Field(ge=16, le=2048)]
    height_px: Annotated[int, Field(ge=16, le=2048)]
    frames: Annotated[int, Field(ge=2, le=240)]
    frame_ms: Annotated[int, Field(ge=20, le=1000)]


class TurntableReport(Message):
    """What was re-read from a written animation."""

    file: str
    bytes: int
    width_px: int
    height_px: int
    frames: int
    seconds: float


class TurntableReply(Message):
    """The written animation, re-opened and measured."""

    report: TurntableReport
    parts: list[Buffer]


class ClientParams(Message):
    """The page for the client; the viewer's program travels as the call's buffer."""

    variants: Annotated[list[Variant], Field(min_length=1, max_length=4)]
    surroundings: Surroundings = Surroundings()
    message: Annotated[str, Field(max_length=2000)] = ""
    """A few words to the client."""
    date: str
    """Of today, YYYY-MM-DD."""


class ClientReport(Message):
    """What was re-read from a written client page."""

    file: str
    bytes: int
    variants: int


class ClientReply(Message):
    """The written page, re-opened and checked."""

    report: ClientReport
    parts: list[Buffer]
    notes: list[Note]
