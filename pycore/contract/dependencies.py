"""What each result depends on: the one table from which Python's keys and the page's are made."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any, Final

from pycore.contract.job import Job
from pycore.conventions import Side


class Result(StrEnum):
    """What is worked out from a job and its picture, and kept until something changes."""

    TEXTURE = "texture"
    """The flat canvas's pixels, also as they are proofed."""
    FOLD = "fold"
    LAYOUT = "layout"
    BARS = "bars"
    """Bars and fittings to order, and what the piece weighs."""
    LOOK = "look"
    """The tables for the screen."""
    CLIP = "clip"
    INTENTS = "intents"
    SOLID = "solid"
    EDGES = "edges"
    CONTINUED_PLAN = "continued_plan"
    """The plans of sides that are continued."""
    COMPARISON = "comparison"
    CLIENT_PAGE = "client_page"
    CHOICES_FILLS = "choices_fills"
    """A corner of the canvas with each side fill."""
    CHOICES_SIDE_FILLS = "choices_side_fills"
    """A corner of the canvas with each fill on one of its sides, whose own fill then does not count."""
    CHOICES_FINISHES = "choices_finishes"
    """A corner of the canvas with each corner finish."""
    CHOICES_INTENTS = "choices_intents"
    """A part of the face through each rendering intent, with its figures."""
    CUTTING = "cutting"
    """Where its canvases lie on the sheet or roll, and how they are cut apart."""
    DETAIL = "detail"
    """A part of the print file at its own pixels, without and with sharpening."""


@dataclass(frozen=True, kw_only=True)
class Dependence:
    """The job fields that a result depends on.

    Attributes
    ----------
    fields : tuple of str
        Dotted names; a part's name stands for all of its fields.
    while_bringing_in : tuple of str
        Those that count only where colours are brought in.
    """

    fields: tuple[str, ...]
    while_bringing_in: tuple[str, ...] = ()


#: The sizes of the flat canvas.
_SIZES: Final = ("face", "bars.depth_mm", "canvas.thickness_mm", "canvas.stretch_percent")

#: Where on the canvas which part of the picture lies, and what the sides show.
_TEXTURE: Final = ("picture.crop", "picture.turn", "picture.enlarging", *_SIZES, "group", "wrap", "sides")

#: How colours come to the canvas.
_WAY_TO_CANVAS: Final = ("colour.profile", "colour.intent", "colour.black_point_compensation")

#: What bringing in is fitted to.
_FITTED_TO: Final = ("colour.bring_in", "colour.clip_threshold_de", *_TEXTURE)

#: What the sides show, without the fill of all sides, which is what is chosen.
_SIDES_BUT_FILL: Final = tuple(
    f"sides.{name}" for name in ("blur_mm", "band_mm", "colour", *(side.value for side in Side))
)

#: How the canvas goes round the bars, without the finish.
_WRAP_BUT_FINISH: Final = tuple(
    f"wrap.{name}" for name in ("turnover_mm", "ink_over_mm", "over", "corners", "setback_mm", "tab_mm")
)

#: Where on the picture a canvas's corners lie, and how large they are.
_CORNERS: Final = ("picture.crop", "picture.turn", *_SIZES, "group")

DEPENDENCIES: Final[Mapping[Result, Dependence]] = MappingProxyType(
    {
        Result.TEXTURE: Dependence(fields=_TEXTURE),
        # More panels, fewer pixels for each: the fold's texture coordinates move with the grid.
        Result.FOLD: Dependence(fields=(*_SIZES, "group.panels", "wrap")),
        Result.LAYOUT: Dependence(
            fields=(
                "picture.crop",
                "picture.turn",
                "face",
                "bars.depth_mm",
                # For the note on a turn-over that is wider.
                "bars.width_mm",
                "group",
                "wrap",
                "sides",
                "sheet",
                "canvas",
                "print.ppi",
            )
        ),
        Result.BARS: Dependence(
            fields=("face", "bars", "group.panels", "group.gap_mm", "group.hung", "wrap", "canvas")
        ),
        Result.LOOK: Dependence(fields=_WAY_TO_CANVAS, while_bringing_in=_FITTED_TO),
        Result.CLIP: Dependence(fields=("colour", *_TEXTURE)),
        # The intents are compared on the picture as it is filed.
        Result.INTENTS: Dependence(fields=("colour.profile", "colour.clip_threshold_de", *_TEXTURE)),
        Result.SOLID: Dependence(fields=(*_WAY_TO_CANVAS, *_TEXTURE), while_bringing_in=_FITTED_TO),
        # The band is what is drawn out; continued sides are planned with their bleed.
        Result.EDGES: Dependence(
            fields=(
                "picture.crop",
                "picture.turn",
                *_SIZES,
                "group",
                "wrap.turnover_mm",
                "wrap.ink_over_mm",
                "sides.fill",
                "sides.band_mm",
                *(f"sides.{side}.{part}" for side in Side for part in ("fill", "band_mm")),
            )
        ),
        Result.CONTINUED_PLAN: Dependence(fields=_TEXTURE),
        # A variant is the job with one thing changed; its figures hold those of the layout.
        Result.COMPARISON: Dependence(
            fields=(
                "picture",
                "face",
                "bars",
                "group",
                "wrap",
                "sides",
                "sheet",
                "canvas",
                "colour",
                "print.ppi",
            )
        ),
        Result.CLIENT_PAGE: Dependence(
            fields=("name", "client", "picture", "face", "bars", "group", "wrap", "sides", "canvas", "colour")
        ),
        Result.CUTTING: Dependence(
            fields=("name", *_SIZES, "group.panels", "wrap.turnover_mm", "wrap.ink_over_mm", "sheet")
        ),
        Result.CHOICES_FILLS: Dependence(fields=(*_CORNERS, "wrap", *_SIDES_BUT_FILL)),
        Result.CHOICES_SIDE_FILLS: Dependence(fields=(*_CORNERS, "wrap", "sides")),
        Result.CHOICES_FINISHES: Dependence(fields=(*_CORNERS, *_WRAP_BUT_FINISH, "sides")),
        Result.CHOICES_INTENTS: Dependence(
            fields=(
                "colour.profile",
                "colour.black_point_compensation",
                "colour.clip_threshold_de",
                *_TEXTURE,
            )
        ),
        Result.DETAIL: Dependence(fields=(*_TEXTURE, "print.ppi", "print.sharpening")),
    }
)


def fields_of(job: Job, result: Result) -> tuple[str, ...]:
    """The fields that a result of this job depends on, in the table's order.

    Parameters
    ----------
    job : Job
    result : Result

    Returns
    -------
    tuple of str

    Examples
    --------
    >>> fields_of(Job(), Result.LOOK)
    ('colour.profile', 'colour.intent', 'colour.black_point_compensation')
    """
    depends = DEPENDENCIES[result]
    return depends.fields + (depends.while_bringing_in if job.colour.bring_in > 0 else ())


def dependence_key(job: Job, result: Result) -> str:
    """The values of those fields as text: as long as it is the same, so is the result for one picture.

    Parameters
    ----------
    job : Job
        A checked job.
    result : Result

    Returns
    -------
    str

    Examples
    --------
    >>> dependence_key(Job(), Result.FOLD) == dependence_key(Job(name="Low tide"), Result.FOLD)
    True
    """
    tree = job.model_dump(mode="json")
    return json.dumps([_value(tree, field) for field in fields_of(job, result)])


def changed_results(old: Job, new: Job, *, among: frozenset[Result]) -> frozenset[Result]:
    """Which results differ between two jobs on one picture.

    Parameters
    ----------
    old, new : Job
    among : frozenset of Result
        Which to look at.

    Returns
    -------
    frozenset of Result

    Examples
    --------
    >>> sorted(changed_results(Job(), Job(name="Low tide"), among=frozenset(Result)))
    [<Result.CLIENT_PAGE: 'client_page'>, <Result.CUTTING: 'cutting'>]
    """
    return frozenset(one for one in among if dependence_key(old, one) != dependence_key(new, one))


def _value(tree: Mapping[str, Any], field: str) -> Any:
    at: Any = tree
    for part in field.split("."):
        # A side without a fill of its own has no fields.
        at = None if at is None else at[part]
    return at
