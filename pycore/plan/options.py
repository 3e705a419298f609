"""What a plan may be asked for: sheets and rolls, gaps, the knife, prices, and pieces pinned by hand."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import ConfigDict, Field

from pycore.contract.job import Job, MarginMm, Text
from pycore.contract.record import Record

#: Most copies of one job.
MOST_COPIES = 1000


#: Unprintable margins, where nothing is said of them.
MARGIN_MM = 3.0
#: The longest piece of a roll that is printed at once, where nothing is said of it.
LONGEST_MM = 20000.0


class Turning(StrEnum):
    """Whether a canvas may lie turned by a quarter."""

    WHERE_EQUAL = "where-equal"
    """Where the canvas gives as much across as down."""
    NEVER = "never"
    """The weave differs by direction."""


class _Choice(Record):
    """Base of what is chosen: closed, frozen and finite."""

    model_config = ConfigDict(allow_inf_nan=False)


class Stock(_Choice):
    """One kind of sheet or roll that the shop has."""

    name: Annotated[str, Field(max_length=200)] = ""
    """Empty: its size."""
    width_mm: Annotated[float, Field(gt=0, le=5000)]
    """Of the sheet, or of the roll."""
    height_mm: Annotated[float, Field(gt=0, le=20000)] | None = None
    """Absent: a roll."""
    margin_mm: tuple[MarginMm, MarginMm, MarginMm, MarginMm] = (MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    """Unprintable margins: top, right, bottom, left."""
    longest_mm: Annotated[float, Field(gt=0, le=100000)] | None = None
    """Of a roll: the longest piece that is printed at once. Absent: 20 m."""
    price_per_m2: Annotated[float, Field(ge=0, le=1e6)] | None = None
    """Your own price of a square metre, in any money."""


class Pin(_Choice):
    """A piece that lies where a person has put it."""

    piece: Text
    """The piece's name."""
    sheet: Annotated[int, Field(ge=1, le=10000)] = 1
    """From 1."""
    x_mm: Annotated[float, Field(ge=0, le=5000)]
    """Of its left edge, from the sheet's left edge."""
    y_mm: Annotated[float, Field(ge=0, le=100000)]
    """Of its top edge, from the sheet's top edge."""
    turned: bool = False
    """It lies turned by a quarter."""


class PlanOptions(_Choice):
    """How pieces are laid on sheets and rolls."""

    stocks: tuple[Stock, ...] = ()
    """The sheets and rolls to choose from. None: each job lies on its own sheet or roll."""
    gap_mm: Annotated[float, Field(ge=0, le=500)] = 0.0
    """Canvas left between two pieces."""
    knife_mm: Annotated[float, Field(ge=0, le=20)] = 0.0
    """Width that a cut takes; it passes within the gap."""
    turning: Turning = Turning.WHERE_EQUAL
    """Whether pieces may lie turned by a quarter."""
    price_per_m2: Annotated[float, Field(ge=0, le=1e6)] | None = None
    """For sheets and rolls without a price of their own."""
    pins: tuple[Pin, ...] = ()
    """Pieces that lie where a person has put them."""


class PlanJob(_Choice):
    """One job to be planned."""

    name: Text
    """By it its pieces are named; no two jobs of a plan share it."""
    job: Job
    copies: Annotated[int, Field(ge=1, le=MOST_COPIES)] = 1
    """How many of each of its canvases."""
