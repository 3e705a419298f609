"""The messages about the layout: the flat canvas, the sheet or roll, what becomes of the picture."""

from __future__ import annotations

from pycore.bridge.message import Message, Pair
from pycore.contract.notes import Note


class Box(Message):
    """A rectangle of pixels, right and bottom excluded."""

    left: int
    top: int
    right: int
    bottom: int


class SheetFit(Message):
    """Whether what is loaded in the printer holds the canvas."""

    fits: bool
    turned: bool
    """The canvas lies turned by a quarter on the sheet."""
    slack_mm: Pair
    """Sheet less canvas, along the sheet's width and height; negative = shortfall."""
    ink_slack_mm: Pair
    """The same for the inked area within the unprintable margins."""
    length_mm: float
    """The sheet's height, or what is cut from the roll."""
    position_mm: Pair
    """The canvas's upper-left corner on the sheet, from the sheet's upper-left corner."""
    largest_depth_mm: float | None = None
    """Absent: not even no depth at all would fit."""
    largest_turnover_mm: float | None = None


class FlatLayout(Message):
    """The flat canvas in mm, as printed (before it is stretched)."""

    canvas_mm: Pair
    inked_mm: Pair
    face_zone_mm: Pair
    columns_mm: list[float]
    """From the canvas's left edge: 0, inked, left arris, right arris, inked end, width. Six numbers."""
    rows_mm: list[float]
    """The same from the top edge."""
    back_columns_mm: Pair
    """Where the left and right back arrises fold, from the left edge."""
    back_rows_mm: Pair
    weight_g: float
    """Of the canvas as cut, from its weight per square metre."""


class PictureUse(Message):
    """What becomes of the picture."""

    crop: tuple[float, float, float, float]
    """The window taken, in fractions of the turned picture: x, y, width, height."""
    face_crop: tuple[float, float, float, float]
    """The part of it under the face."""
    effective_ppi: float
    cut_away_share: float
    carried_share: float


class PlannedCanvas(Message):
    """One panel's canvas on its sheet."""

    panel: int
    """From 1."""
    position_mm: Pair
    """Its upper-left corner, from the sheet's upper-left corner."""


class SheetPlan(Message):
    """All canvases of a group on as few sheets, or as little of the roll, as rows and columns allow.

    Exact for canvases that all lie the same way round; both orientations are tried.
    """

    sheets: list[list[PlannedCanvas]]
    """The canvases of each sheet; of a roll, of the one piece that is cut."""
    turned: bool
    """All canvases lie turned by a quarter."""
    length_mm: float
    """The sheet's height, or what is cut from the roll for all of them."""


class LayoutReply(Message):
    """Layout, sheet and picture in figures."""

    flat: FlatLayout
    """Of one panel."""
    sheet: SheetFit
    """For one panel's canvas by itself."""
    plan: SheetPlan | None = None
    """Of a group; absent where not even one canvas fits."""
    wall_mm: Pair | None = None
    """Of a group: what it takes of the wall, gaps and all."""
    use: PictureUse | None = None
    notes: list[Note]
