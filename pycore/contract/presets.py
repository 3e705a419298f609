"""A user's own sheets, rolls, bars and canvases with their prices: one JSON file that can be shared."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field

from pycore.contract.job import (
    BarDepthMm,
    BarWidthMm,
    DensityKgM3,
    MarginMm,
    Percent,
    SheetHeightMm,
    SheetWidthMm,
    Text,
    ThicknessMm,
    WeightGsm,
    Wood,
)
from pycore.contract.record import Record

PRESETS_VERSION: Final = 1

#: Most entries of one kind.
MOST_PRESETS: Final = 200

#: Characters of a file of presets: far more than the most entries take.
LONGEST_PRESETS: Final = 1_000_000

PresetName = Annotated[str, Field(min_length=1, max_length=100)]
Price = Annotated[float, Field(ge=0, le=1e6)]


class PresetKind(StrEnum):
    """What an entry stands for."""

    SHEET = "sheet"
    ROLL = "roll"
    BARS = "bars"
    CANVAS = "canvas"


class _Preset(Record):
    """Base of every entry: closed, frozen and finite."""

    model_config = ConfigDict(allow_inf_nan=False)

    name: PresetName
    """By it the entry is chosen; no two entries of one kind share it."""


class SheetPreset(_Preset):
    """A sheet."""

    width_mm: SheetWidthMm
    height_mm: SheetHeightMm
    margin_mm: tuple[MarginMm, MarginMm, MarginMm, MarginMm] = (3.0, 3.0, 3.0, 3.0)
    """Unprintable margins: top, right, bottom, left."""
    price_per_m2: Price | None = None
    """Your own price of a square metre, in any money."""


class RollPreset(_Preset):
    """A roll."""

    width_mm: SheetWidthMm
    length_mm: Annotated[float, Field(gt=0, le=100000)] | None = None
    """Of the canvas on it: nothing longer is planned on it. Absent: not known."""
    margin_mm: tuple[MarginMm, MarginMm, MarginMm, MarginMm] = (3.0, 3.0, 3.0, 3.0)
    """Unprintable margins: top, right, bottom, left."""
    price_per_m2: Price | None = None
    """Your own price of a square metre, in any money."""


class BarsPreset(_Preset):
    """Stretcher bars of one section."""

    depth_mm: BarDepthMm
    """How far the bars stand off the wall."""
    width_mm: BarWidthMm | None = None
    """Of a bar, seen from the back. Absent: by the rule that a job without it follows."""
    wood: Wood = Wood.UNKNOWN
    density_kg_m3: DensityKgM3 | None = None
    """Where you know it; then the kind of wood does not count."""
    price_per_m: Price | None = None
    """Your own price of a metre of bar, in any money."""


class CanvasPreset(_Preset):
    """A canvas and its profile."""

    thickness_mm: ThicknessMm
    weight_gsm: WeightGsm
    stretch_percent: tuple[Percent, Percent] = (0.0, 0.0)
    """How much it grows across and down when it is pulled tight."""
    profile: Text | None = None
    """The file name of its profile. Absent: the job keeps its own."""


class Presets(Record):
    """All of a user's own sizes and prices."""

    version: Literal[1] = PRESETS_VERSION
    """Of the file."""
    sheets: Annotated[tuple[SheetPreset, ...], Field(max_length=MOST_PRESETS)] = ()
    rolls: Annotated[tuple[RollPreset, ...], Field(max_length=MOST_PRESETS)] = ()
    bars: Annotated[tuple[BarsPreset, ...], Field(max_length=MOST_PRESETS)] = ()
    canvases: Annotated[tuple[CanvasPreset, ...], Field(max_length=MOST_PRESETS)] = ()


Preset = SheetPreset | RollPreset | BarsPreset | CanvasPreset

#: The field of `Presets` that lists the entries of a kind.
LIST_OF: Final = {
    PresetKind.SHEET: "sheets",
    PresetKind.ROLL: "rolls",
    PresetKind.BARS: "bars",
    PresetKind.CANVAS: "canvases",
}

#: The model of an entry, by kind.
ENTRY_OF: Final[dict[PresetKind, type[Preset]]] = {
    PresetKind.SHEET: SheetPreset,
    PresetKind.ROLL: RollPreset,
    PresetKind.BARS: BarsPreset,
    PresetKind.CANVAS: CanvasPreset,
}


def entries(presets: Presets, kind: PresetKind) -> tuple[Preset, ...]:
    """The entries of one kind.

    Parameters
    ----------
    presets : Presets
    kind : PresetKind

    Returns
    -------
    tuple of Preset

    Examples
    --------
    >>> entries(Presets(), PresetKind.ROLL)
    ()
    """
    found: tuple[Preset, ...] = getattr(presets, LIST_OF[kind])
    return found
