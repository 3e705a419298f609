"""The job: everything a canvas needs to be said about it, as frozen, checked models.

A job file is this model as JSON. It holds no pixels. Unknown keys, wrong kinds, NaN, infinities and numbers
out of range are errors that name the field; nothing is repaired in silence.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from pycore.contract.described import DESCRIBED
from pycore.conventions import Side

JOB_VERSION: Final = 1

Text = Annotated[str, StringConstraints(max_length=2000)]
Percent = Annotated[float, Field(ge=-5, le=15)]
MarginMm = Annotated[float, Field(ge=0, le=100)]
Fraction = Annotated[float, Field(ge=0, le=1)]
SizeFraction = Annotated[float, Field(gt=0, le=1)]
FillColour = Annotated[str, StringConstraints(pattern=r"^(arris|#[0-9a-fA-F]{6})$")]
SoftnessMm = Annotated[float, Field(ge=0, le=100)]
BandMm = Annotated[float, Field(ge=0, le=100)]


class Finish(StrEnum):
    """How a corner is folded."""

    TUCKED = "tucked"
    LAPPED = "lapped"
    TRIMMED = "trimmed"


class OverPair(StrEnum):
    """The two opposite sides that are folded over the other two."""

    TOP_BOTTOM = "top-bottom"
    LEFT_RIGHT = "left-right"


class Corners(StrEnum):
    """Whether the turn-over's part of each corner square is kept or cut away."""

    WHOLE = "whole"
    RELIEVED = "relieved"


class Fill(StrEnum):
    """What a side shows."""

    CARRY = "carry"
    MIRROR = "mirror"
    DRAW_OUT = "draw-out"
    PLAIN = "plain"
    FADE = "fade"
    GROWN = "grown"


class Enlarging(StrEnum):
    """How a picture with fewer pixels than the canvas is enlarged."""

    PHOTOGRAPH = "photograph"
    DRAWING = "drawing"


class Hung(StrEnum):
    """How the panels of a group hang: beside one another, or one above the other."""

    ACROSS = "across"
    DOWN = "down"


class AcrossGap(StrEnum):
    """What becomes of the picture between two panels."""

    BEHIND = "behind"
    JOINED = "joined"


class Intent(StrEnum):
    """ICC rendering intents (ISO 15076-1)."""

    PERCEPTUAL = "perceptual"
    RELATIVE = "relative"
    SATURATION = "saturation"
    ABSOLUTE = "absolute"


class Convert(StrEnum):
    """Whether the print file keeps the source's colours or holds the canvas profile's device values."""

    KEEP = "keep"
    CONVERT = "convert"


class _Part(BaseModel):
    """Base of every part of the contract: closed, frozen and finite."""

    # Deferred: a start needs the job's validator, which holds those of its parts, but none of theirs.
    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        allow_inf_nan=False,
        defer_build=True,
        use_attribute_docstrings=DESCRIBED,
    )


class Crop(_Part):
    """A window on the upright picture, in fractions of its width and height, from its top-left corner."""

    x: Fraction
    y: Fraction
    width: SizeFraction
    height: SizeFraction


class Picture(_Part):
    """Which picture, turned how, and which part of it."""

    file: Text = ""
    crop: Crop | None = None
    """Absent: the largest centred window of the needed shape."""
    turn: Literal[0, 90, 180, 270] = 0
    """Clockwise, degrees, after the picture was set upright by its EXIF orientation; the crop comes after."""
    enlarging: Enlarging = Enlarging.PHOTOGRAPH
    """Drawing: edges of line art and lettering stay sharper, and flat areas flat."""


class Face(_Part):
    """The front of the finished piece."""

    width_mm: float = Field(default=400, ge=50, le=5000)
    height_mm: float = Field(default=300, ge=50, le=5000)


class Bars(_Part):
    """The stretcher bars."""

    depth_mm: float = Field(default=38, ge=6, le=100)


class Group(_Part):
    """One picture across several panels, each of the face's size and wrapped by itself."""

    panels: int = Field(default=1, ge=1, le=5)
    gap_mm: float = Field(default=30, ge=0, le=500)
    """Of wall between two neighbours' sides."""
    hung: Hung = Hung.ACROSS
    across_gap: AcrossGap = AcrossGap.BEHIND
    """Behind: the picture runs on behind the gap, as behind a glazing bar; joined: nothing is lost in it."""


class Wrap(_Part):
    """How the canvas goes round the bars."""

    turnover_mm: float = Field(default=25, ge=0, le=150)
    ink_over_mm: float = Field(default=6, ge=0, le=150)
    """At most the turn-over."""
    finish: Finish = Finish.TUCKED
    over: OverPair = OverPair.TOP_BOTTOM
    corners: Corners = Corners.WHOLE
    setback_mm: float = Field(default=0, ge=0, le=5)
    """Tucked: how far the fold edge stands back from the arris at the wall."""
    tab_mm: float = Field(default=10, ge=3, le=50)
    """Trimmed: the tab left under the fold edge; at most half the bar depth."""


class SideFill(_Part):
    """One side's own fill; what is absent follows the fill of all sides."""

    fill: Fill | None = None
    softness_mm: SoftnessMm | None = None
    band_mm: BandMm | None = None
    colour: FillColour | None = None


class Sides(_Part):
    """What the sides show: one fill for all, and each side's own where it differs."""

    fill: Fill = Fill.MIRROR
    softness_mm: SoftnessMm = 0
    """Blur at the back arris; none at the arris, more and more with distance."""
    band_mm: BandMm = 3
    """Draw-out and the mean colour: how much of the picture beside the arris is averaged."""
    colour: FillColour = "arris"
    """#rrggbb (sRGB), or arris: the mean colour of the band beside the arris."""
    seed: int = Field(default=1, ge=0, le=9999)
    """Grown: the same number grows the same sides again, another one others."""
    top: SideFill | None = None
    right: SideFill | None = None
    bottom: SideFill | None = None
    left: SideFill | None = None


class Sheet(_Part):
    """What is loaded in the printer; without a height it is a roll."""

    width_mm: float = Field(default=329, ge=50, le=5000)
    height_mm: Annotated[float, Field(ge=50, le=20000)] | None = None
    """Absent: a roll."""
    margin_mm: tuple[MarginMm, MarginMm, MarginMm, MarginMm] = (3, 3, 3, 3)
    """Unprintable margins: top, right, bottom, left."""


class Canvas(_Part):
    """The canvas itself."""

    thickness_mm: float = Field(default=0.45, ge=0, le=3)
    weight_gsm: float = Field(default=380, ge=50, le=2000)
    stretch_percent: tuple[Percent, Percent] = (0, 0)
    """How much it grows across and down when it is pulled tight."""


class Colour(_Part):
    """The canvas's profile and how colours are brought to it."""

    profile: Text = "illustrative-matte"
    intent: Intent = Intent.RELATIVE
    black_point_compensation: bool = True
    clip_threshold_de: float = Field(default=2.0, ge=0, le=50)
    """CIEDE2000."""
    bring_in: float = Field(default=0, ge=0, le=1)
    """How much of what lies outside the canvas's gamut is brought in before printing: 0 nothing, 1 all."""


class Print(_Part):
    """The print file."""

    ppi: float = Field(default=300, ge=36, le=1440)
    convert: Convert = Convert.KEEP
    bits: Literal[8, 16] = 8
    """16: TIFF and PNG only."""
    marks: bool = True
    sharpening: float = Field(default=0, ge=0, le=1)
    """How much of its finest detail is added to the picture on the canvas: 0 nothing, 1 all."""


class Job(_Part):
    """One canvas, from picture to print file."""

    version: Literal[1] = JOB_VERSION
    name: Text = ""
    client: Text = ""
    notes: Text = ""
    picture: Picture = Field(default_factory=Picture)
    face: Face = Field(default_factory=Face)
    bars: Bars = Field(default_factory=Bars)
    group: Group = Field(default_factory=Group)
    wrap: Wrap = Field(default_factory=Wrap)
    sides: Sides = Field(default_factory=Sides)
    sheet: Sheet = Field(default_factory=lambda: Sheet(height_mm=483))
    canvas: Canvas = Field(default_factory=Canvas)
    colour: Colour = Field(default_factory=Colour)
    print: Print = Field(default_factory=Print)


class ResolvedFill(_Part):
    """The fill of one side with nothing left to inherit."""

    fill: Fill
    softness_mm: float
    band_mm: float
    colour: str


def side_fill(sides: Sides, side: Side) -> ResolvedFill:
    """The fill that one side shows, its own where it has one.

    Parameters
    ----------
    sides : Sides
        The job's sides.
    side : Side
        Which side.

    Returns
    -------
    ResolvedFill

    Examples
    --------
    >>> side_fill(Sides(left=SideFill(fill=Fill.PLAIN)), Side.LEFT).fill.value
    'plain'
    """
    own: SideFill = getattr(sides, side.value) or SideFill()
    return ResolvedFill(
        fill=sides.fill if own.fill is None else own.fill,
        softness_mm=sides.softness_mm if own.softness_mm is None else own.softness_mm,
        band_mm=sides.band_mm if own.band_mm is None else own.band_mm,
        colour=sides.colour if own.colour is None else own.colour,
    )
