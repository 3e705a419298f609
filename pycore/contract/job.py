"""The job: everything that describes a canvas, as frozen, checked models.

A job file is this model as JSON. It holds no pixels. Unknown keys, wrong kinds, NaN, infinities and numbers
out of range are errors that name the field; nothing is repaired in silence.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from pycore.conventions import Side

JOB_VERSION: Final = 2

#: What a job may have, mm.
LEAST_DEPTH_MM: Final = 6.0
MOST_DEPTH_MM: Final = 100.0
MOST_TURNOVER_MM: Final = 150.0
SHORTEST_FACE_MM: Final = 50.0
LONGEST_FACE_MM: Final = 5000.0
#: What the print file may have, pixels per inch.
LEAST_PPI: Final = 36

#: Characters of the client's answer: a name, a client's name and remarks of 2000 each, and the facts.
LONGEST_ANSWER: Final = 8000

Answer = Annotated[str, Field(max_length=LONGEST_ANSWER)]
Text = Annotated[str, Field(max_length=2000)]
Percent = Annotated[float, Field(ge=-5, le=15)]
MarginMm = Annotated[float, Field(ge=0, le=100)]
Fraction = Annotated[float, Field(ge=0, le=1)]
SizeFraction = Annotated[float, Field(gt=0, le=1)]
FillColour = Annotated[str, Field(pattern=r"^(edge|#[0-9a-fA-F]{6})$")]
Sha256 = Annotated[str, Field(pattern=r"^([0-9a-f]{64})?$")]
BlurMm = Annotated[float, Field(ge=0, le=100)]
BandMm = Annotated[float, Field(ge=0, le=100)]
SheetWidthMm = Annotated[float, Field(ge=50, le=5000)]
SheetHeightMm = Annotated[float, Field(ge=50, le=20000)]
FaceMm = Annotated[float, Field(ge=SHORTEST_FACE_MM, le=LONGEST_FACE_MM)]
BarDepthMm = Annotated[float, Field(ge=LEAST_DEPTH_MM, le=MOST_DEPTH_MM)]
BarWidthMm = Annotated[float, Field(ge=10, le=200)]
DensityKgM3 = Annotated[float, Field(ge=100, le=1300)]
ThicknessMm = Annotated[float, Field(ge=0, le=3)]
WeightGsm = Annotated[float, Field(ge=50, le=2000)]


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
    CUT_BACK = "cut-back"


class Fill(StrEnum):
    """What a side shows."""

    RUN_ON = "run-on"
    MIRROR = "mirror"
    DRAWN_OUT = "drawn-out"
    PLAIN = "plain"
    FADE = "fade"
    CONTINUED = "continued"


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


class Wood(StrEnum):
    """What the bars are made of."""

    UNKNOWN = "unknown"
    SOFTWOOD = "softwood"
    HARDWOOD = "hardwood"
    SPRUCE = "spruce"
    PINE = "pine"
    BASSWOOD = "basswood"
    YELLOW_POPLAR = "yellow-poplar"
    BEECH = "beech"


class _Part(BaseModel):
    """Base of every part of the contract: closed, frozen and finite."""

    # Deferred: a start needs the job's validator, which holds those of its parts, but none of theirs.
    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        allow_inf_nan=False,
        defer_build=True,
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
    """The picture's name, for your own record; a job holds no pixels."""
    sha256: Sha256 = ""
    """Of the file's bytes, hexadecimal: by it a picture is known again. Empty: not known."""
    crop: Crop | None = None
    """Absent: the largest centred crop of the needed shape."""
    turn: Literal[0, 90, 180, 270] = 0
    """Clockwise, degrees, after the picture was set upright by its EXIF orientation; the crop comes after."""
    enlarging: Enlarging = Enlarging.PHOTOGRAPH
    """Drawing: edges of line art and lettering stay sharper, and flat areas flat."""


class Face(_Part):
    """The front of the finished piece."""

    width_mm: FaceMm = 300.0
    """Across, as it hangs."""
    height_mm: FaceMm = 200.0
    """From the bottom front edge to the top one."""


class Bars(_Part):
    """The stretcher bars."""

    depth_mm: BarDepthMm = 20.0
    """How far the bars stand off the wall."""
    width_mm: BarWidthMm | None = None
    """Of a bar, from the back. Absent: 40 mm, on a small face 22 percent of its shorter side, rounded."""
    wood: Wood = Wood.UNKNOWN
    """By it the bars are weighed."""
    density_kg_m3: DensityKgM3 | None = None
    """Of the bars as they are, where you know it; then the kind of wood does not count."""


class Group(_Part):
    """One picture across several panels, each of the face's size and wrapped by itself."""

    panels: int = Field(default=1, ge=1, le=5)
    """How many panels share the picture."""
    gap_mm: float = Field(default=30.0, ge=0, le=500)
    """Of wall between two neighbours' sides."""
    hung: Hung = Hung.ACROSS
    """Across: beside one another, counted from the left; down: one above the other, counted from the top."""
    across_gap: AcrossGap = AcrossGap.BEHIND
    """Behind: the picture runs on behind the gap, as behind a glazing bar; joined: nothing is lost in it."""


class Wrap(_Part):
    """How the canvas goes round the bars."""

    turnover_mm: float = Field(default=25.0, ge=0, le=MOST_TURNOVER_MM)
    """Canvas folded on to the back, for the staples."""
    ink_over_mm: float = Field(default=6.0, ge=0, le=MOST_TURNOVER_MM)
    """How far the ink runs on to the back, so that no white shows at the back edge; at most the turn-over."""
    finish: Finish = Finish.TUCKED
    """How the corners are folded."""
    over: OverPair = OverPair.TOP_BOTTOM
    """The two sides that carry the folded corners."""
    corners: Corners = Corners.WHOLE
    """Cut-back: the back's part of each corner square is cut away, so that the back is flatter."""
    setback_mm: float = Field(default=0.0, ge=0, le=5)
    """Tucked: how far the fold edge stands back from the edge at the wall."""
    tab_mm: float = Field(default=10.0, ge=3, le=50)
    """Trimmed: the tab left under the fold edge; at most half the bar depth."""


class SideFill(_Part):
    """One side's own fill; what is absent follows the fill of all sides."""

    fill: Fill | None = None
    blur_mm: BlurMm | None = None
    band_mm: BandMm | None = None
    colour: FillColour | None = None


class Sides(_Part):
    """What the sides show: one fill for all, and each side's own where it differs."""

    fill: Fill = Fill.MIRROR
    """What the sides show."""
    blur_mm: BlurMm = 0.0
    """Blur at the back edge; none at the front edge, more and more with distance."""
    band_mm: BandMm = 3.0
    """Drawn-out sides and the mean colour: how much of the picture beside the edge is averaged."""
    colour: FillColour = "edge"
    """#rrggbb (sRGB), or edge: the mean colour of the band beside the edge."""
    top: SideFill | None = None
    right: SideFill | None = None
    bottom: SideFill | None = None
    left: SideFill | None = None


class Sheet(_Part):
    """What is loaded in the printer; without a height it is a roll."""

    width_mm: SheetWidthMm = 329.0
    """Of the sheet, or of the roll."""
    height_mm: SheetHeightMm | None = None
    """Absent: a roll."""
    margin_mm: tuple[MarginMm, MarginMm, MarginMm, MarginMm] = (3.0, 3.0, 3.0, 3.0)
    """Unprintable margins: top, right, bottom, left."""


class Canvas(_Part):
    """The canvas itself."""

    thickness_mm: ThicknessMm = 0.45
    """The printed face is wider than the bars by twice this."""
    weight_gsm: WeightGsm = 380.0
    """Mass of a square metre of canvas."""
    stretch_percent: tuple[Percent, Percent] = (0.0, 0.0)
    """How much it grows across and down when it is pulled tight."""
    coated: bool = False
    """Whether the print is coated; only the weight depends on it."""


class Colour(_Part):
    """The canvas's profile and how colours are brought to it."""

    profile: Text = "illustrative-matte"
    """The canvas's profile: its file's name; the default is the illustrative canvas."""
    intent: Intent = Intent.RELATIVE
    """Rendering intent (ISO 15076-1)."""
    black_point_compensation: bool = True
    """Whether the picture's black is carried to the canvas's black (ISO 18619)."""
    clip_threshold_de: float = Field(default=2.0, ge=0, le=50)
    """From which difference (CIEDE2000) on a colour counts as outside the gamut."""
    bring_in: float = Field(default=0.0, ge=0, le=1)
    """How much of what lies outside the canvas's gamut is brought in before printing: 0 nothing, 1 all."""


class Print(_Part):
    """The print file."""

    ppi: float = Field(default=300.0, ge=LEAST_PPI, le=1440)
    """Pixels per inch of canvas in the print file."""
    convert: Convert = Convert.KEEP
    """Keep: the picture's own colours, with its profile; convert: the canvas's."""
    bits: Literal[8, 16] = 8
    """Bits a channel; 16 in a TIFF, a PNG or a PDF only."""
    marks: bool = True
    """Fold ticks, trim corners and a line of text, where nobody will see them."""
    sharpening: float = Field(default=0.0, ge=0, le=1)
    """How much of its finest detail is added to the picture on the canvas: 0 nothing, 1 all."""


class Job(_Part):
    """One canvas, from picture to print file."""

    version: Literal[2] = JOB_VERSION
    """Of the job file."""
    name: Text = ""
    """Of the piece."""
    client: Text = ""
    """For whom it is made."""
    notes: Text = ""
    """Your own remarks."""
    answer: Answer = ""
    """What the client answered to the client page, in their words."""
    # Defaults need no checking: so a start builds the validator of the whole job alone.
    picture: Picture = Field(default_factory=Picture.model_construct)
    face: Face = Field(default_factory=Face.model_construct)
    bars: Bars = Field(default_factory=Bars.model_construct)
    group: Group = Field(default_factory=Group.model_construct)
    wrap: Wrap = Field(default_factory=Wrap.model_construct)
    sides: Sides = Field(default_factory=Sides.model_construct)
    sheet: Sheet = Field(default_factory=lambda: Sheet.model_construct(height_mm=483.0))
    canvas: Canvas = Field(default_factory=Canvas.model_construct)
    colour: Colour = Field(default_factory=Colour.model_construct)
    print: Print = Field(default_factory=Print.model_construct)


class ResolvedFill(_Part):
    """The fill of one side with nothing left to inherit."""

    fill: Fill
    blur_mm: float
    band_mm: float
    colour: str


def fill_of(sides: Sides, side: Side) -> Fill:
    """What one side shows, without its settings; see `side_fill`.

    Parameters
    ----------
    sides : Sides
        The job's sides.
    side : Side
        Which side.

    Returns
    -------
    Fill

    Examples
    --------
    >>> fill_of(Sides(left=SideFill(fill=Fill.PLAIN)), Side.LEFT).value
    'plain'
    """
    own: SideFill | None = getattr(sides, side.value)
    return sides.fill if own is None or own.fill is None else own.fill


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
    own: SideFill | None = getattr(sides, side.value)
    if own is None:
        return ResolvedFill(
            fill=sides.fill, blur_mm=sides.blur_mm, band_mm=sides.band_mm, colour=sides.colour
        )
    return ResolvedFill(
        fill=fill_of(sides, side),
        blur_mm=sides.blur_mm if own.blur_mm is None else own.blur_mm,
        band_mm=sides.band_mm if own.band_mm is None else own.band_mm,
        colour=sides.colour if own.colour is None else own.colour,
    )
