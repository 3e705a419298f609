"""What a plan of sheets and rolls says, as plain data.

Lengths are mm. Every place is measured from the upper-left corner of its sheet, x to the right, y down; of a
roll, a sheet is one length that is cut from it. Nothing here computes: tickets and pages draw these figures.
"""

from __future__ import annotations

from enum import StrEnum

from pycore.contract.notes import Note
from pycore.contract.record import Pair, Record


class CutWay(StrEnum):
    """Which way a cut runs."""

    ACROSS = "across"
    DOWN = "down"


class PlacedPiece(Record):
    """One canvas on its sheet."""

    name: str
    """Of the piece; no two pieces of a plan share it."""
    job: str
    """Name of its job."""
    panel: int
    """From 1; 1 where the job has no group."""
    copy_number: int
    """From 1."""
    x_mm: float
    """Of its left edge, as it lies."""
    y_mm: float
    """Of its top edge, as it lies."""
    width_mm: float
    """As it lies: of a turned canvas its height."""
    height_mm: float
    """As it lies."""
    turned: bool
    """It lies turned by a quarter."""
    pinned: bool
    """Its place was chosen by hand."""


class PlannedCut(Record):
    """One straight cut, from edge to edge of what the cuts before it left as one."""

    number: int
    """From 1, in the order of cutting."""
    way: CutWay
    start_mm: Pair
    """(x, y) of the middle of the knife's path at its left or upper end."""
    end_mm: Pair
    """The same at its right or lower end."""
    trims: bool
    """It takes waste off a part; otherwise it parts pieces from pieces."""


class PlannedSheet(Record):
    """One sheet, or one length of a roll, with its canvases and cuts."""

    number: int
    """From 1."""
    stock: str
    """Name of the kind of sheet or roll."""
    is_roll: bool
    width_mm: float
    height_mm: float
    """Of the sheet, or what is cut from the roll."""
    margin_mm: tuple[float, float, float, float]
    """Unprintable margins: top, right, bottom, left."""
    pieces: tuple[PlacedPiece, ...]
    """From top to bottom, then from left to right."""
    cuts: tuple[PlannedCut, ...]
    """In order. After the last one every canvas has its size."""
    used_m2: float
    """Area of its canvases."""
    waste_m2: float
    """What is left of it."""
    cost: float | None = None
    """In the money of the price; absent without a price."""


class PlanFigures(Record):
    """A whole plan in figures."""

    pieces: int
    sheets: int
    """Sheets, and lengths cut from rolls."""
    roll_length_mm: float
    """Of all lengths that are cut from rolls; 0 without a roll."""
    stock_m2: float
    """Area of the sheets, and of what is cut from rolls."""
    used_m2: float
    waste_m2: float
    waste_share: float
    """Of the stock, 0 to 1."""
    rows_m2: float
    """Stock that rows and columns take, each job on sheets of its own; without pins a plan takes no more."""
    least_m2: float
    """Stock that no plan can go below: a lower bound, which may be out of reach."""
    cuts: int
    cost: float | None = None
    """In the money of the price; absent where a sheet or roll has no price."""


class Plan(Record):
    """All canvases on sheets and rolls."""

    sheets: tuple[PlannedSheet, ...]
    figures: PlanFigures
    notes: tuple[Note, ...]
