"""The messages about a piece on a photographed wall."""

from __future__ import annotations

from pycore.bridge.message import Buffer, Message, Texture
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.contract.record import Pair, Triple
from pycore.model.report import ModelColours
from pycore.wall.reference import Corners, Reference
from pycore.wall.report import PlacedWall, StillReport, WallReport

Four = tuple[float, float, float, float]


class OpenWallParams(Message):
    """The photograph's file name; its bytes travel as the call's buffer."""

    file: str
    focal_px: float | None = None
    """Of a copy that was kept before, as the reply told it then."""


class OpenWallReply(Message):
    """The photograph as it is kept."""

    file: str
    photo_px: tuple[int, int]
    """Width and height of the copy; all places are in its pixels, from its upper-left corner."""
    focal_px: float | None = None
    """By the file of the photograph; absent where that tells none."""
    parts: list[Buffer]
    """The copy's bytes in order, each (n,), uint8, file: a JPEG without metadata."""
    notes: list[Note]


class FindReferenceParams(Message):
    """A reference to look for; with corners, to move them to the edges that lie near."""

    reference: Reference


class FindReferenceReply(Message):
    """Its corners, and which way round it hangs."""

    corners: Corners
    size_mm: Pair
    snapped: bool
    """The corners lie where edges of the photograph meet."""


class MeasureWallParams(PlacedWall, Message):
    """The piece, the marked references and the place."""

    job: Job


class WallLight(Message):
    """How a white surface looks in the photograph: at its middle, and how the light falls off."""

    white: Triple
    """Linear sRGB."""
    middle_mm: Pair
    fall: Pair
    """The logarithm of the light by mm, to the right and up."""
    most_factor: float
    """The light differs from that at the middle by no more."""


class MeasureWallReply(Message):
    """The wall, the camera, the light."""

    report: WallReport
    camera: tuple[Four, Four, Four]
    """From (x, y, z, 1) in mm on the wall, z towards the room, to pixels of the photograph."""
    light: WallLight
    notes: list[Note]


class WallCanvasParams(Message):
    """The canvas that the page draws on the wall."""

    job: Job
    colours: ModelColours = ModelColours.PRINTED


class WallCanvasReply(Message):
    """The flat canvas in sRGB; of a group the panels' canvases, one below the other."""

    texture: Texture


class HangParams(PlacedWall, Message):
    """A still of the piece on the wall, at the photograph's size.

    Where something stands in front of it, a mask of that size travels as the call's buffer, white there.
    """

    job: Job


class HangReply(Message):
    """The written still, opened again."""

    report: StillReport
    parts: list[Buffer]
    """The file's bytes in order, each (n,), uint8, file."""
    notes: list[Note]
