"""The messages about colour: canvas profile, tables for the screen, clipping, intents, the gamut's solid."""

from __future__ import annotations

from pycore.bridge.message import Buffer, Message
from pycore.colour.link.viewing import Screen, Viewing
from pycore.contract.job import Intent, Job
from pycore.contract.notes import Note
from pycore.contract.record import Triple


class ProfileParams(Message):
    """A canvas profile's file name; its bytes travel as the call's buffer.

    Without a buffer and with the name illustrative-matte, the invented canvas that stands in.
    """

    file: str


class ProfileReply(Message):
    """What the profile is."""

    file: str
    """For `colour.profile`."""
    description: str
    illustration: bool
    """An invented canvas, not a measured one: said wherever it is used."""
    device: str
    version: str
    white_lab: Triple
    black_lab: Triple
    gamut_volume: float
    """Cubic Lab units."""
    notes: list[Note]


class LookParams(Message):
    """Tables for the screen, for a job's intent and bring-in."""

    job: Job
    viewing: Viewing
    screen: Screen
    fine: bool
    """With as many nodes as the print file's table has, which takes longer, where colours are brought in."""


class LookReply(Message):
    """What turns the texture's values into what the screen shows; switching between views needs no call."""

    nodes: int
    printed: Buffer
    """(nodes, nodes, nodes, 4) half floats, blue slowest: the proof on the screen, and how far it clips.
    It is to be interpolated by tetrahedra."""
    curve: Buffer
    """(256, 4) float32: where each 8-bit value of red, green and blue lies, counted in nodes."""
    filed: Buffer | None = None
    """The picture as filed on the screen; absent where the texture's values are the screen's already."""
    clip_full_de: float
    """CIEDE2000 that 1 in the fourth channel stands for."""
    scale: Buffer
    """(steps, 3) uint8, srgb_encoded: the clip map's colours, from nothing lost to scale_full_de."""
    scale_full_de: float


class ClipParams(Message):
    """What clips on a job's face and sides."""

    job: Job


class ClipPart(Message):
    """The face or one side; shares of its own pixels, 0 to 1."""

    name: str
    share: float
    chroma: float
    shadow: float
    highlight: float
    mean_de: float
    worst_de: float
    share_before: float
    """Without bringing anything in."""


class ClipGroup(Message):
    """Clipped colours of about one hue."""

    number: int
    """The label of its pixels."""
    name: str
    share: float
    filed: str
    """#rrggbb, sRGB."""
    printed: str
    mean_de: float
    worst_de: float
    place: tuple[float, float, float, float]
    """x, y, width, height in fractions of the flat canvas from its top-left corner."""


class ClipReply(Message):
    """Where the picture leaves the canvas's gamut."""

    threshold_de: float
    outside_share: float
    """Of all that is seen of the piece, 0 to 1, after bringing in."""
    parts: list[ClipPart]
    """Face, top, right, bottom, left."""
    groups: list[ClipGroup]
    """At most eight, the largest first."""
    labels: Buffer
    """(rows, columns) uint8 over the flat canvas: the group of each pixel, 0 where nothing clips."""


class IntentsParams(Message):
    """The intents compared on a job's face and sides."""

    job: Job


class IntentRow(Message):
    """One intent; shares 0 to 1, differences CIEDE2000."""

    intent: Intent
    black_point_compensation: bool
    label: str
    outside_share: float
    """Outside the gamut by more than the threshold, before bringing in."""
    flattened_share: float
    """Of these the part whose tones and steps are no longer told apart in print."""
    mean_de: float
    p95_de: float
    shadow_loss: float
    highlight_loss: float
    hue_shift_deg: float
    chroma_change: float


class IntentsReply(Message):
    """Every intent's figures and a recommendation, which the user may overrule."""

    rows: list[IntentRow]
    recommended: int
    """A place in rows."""
    reason: str


class SolidParams(Message):
    """The canvas's gamut and a job's colours in it."""

    job: Job


class SolidReply(Message):
    """CIELAB for D50, relative to the canvas's white."""

    lab: Buffer
    """(vertices, 3) float32."""
    colours: Buffer
    """(vertices, 3) uint8, srgb_encoded."""
    triangles: Buffer
    point_lab: Buffer
    """(points, 3) float32: what the canvas is asked for."""
    point_printed_lab: Buffer
    point_colours: Buffer
    point_share: Buffer
    """(points,) float32, of the picture."""
    point_difference: Buffer
    """(points,) float32: CIEDE2000 by which it clips, 0 inside."""
    volume: float
