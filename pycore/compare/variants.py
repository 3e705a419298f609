"""Two to four variants of one job, each another in one thing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Annotated, Any, Final

from pydantic import Field

from pycore.colour.link.viewing import Screen, Viewing
from pycore.contract.check import check_job, job_tree
from pycore.contract.job import Job
from pycore.contract.record import Record
from pycore.conventions import Side
from pycore.errors import FieldError, GeometryError, shown
from pycore.fill.names import FILL_NAMES
from pycore.speech import say

#: Fewer are no comparison, and more cannot be told apart at a glance.
FEWEST: Final = 2
MOST: Final = 4

#: The depths that are compared where the user names none; common practice.
USUAL_DEPTHS_MM: Final = (18.0, 38.0, 50.0)


class Variant(Record):
    """One way to make the piece."""

    label: Annotated[str, Field(max_length=200)]
    job: Job


class CompareOptions(Record):
    """How variants are shown side by side."""

    viewing: Viewing = Viewing.BLACK
    screen: Screen = Screen.SRGB
    preview_px: Annotated[int, Field(ge=10_000, le=8_000_000)] = 1_000_000
    """About how many pixels the largest texture has; all have the same resolution."""


def depth_variants(job: Job, depths_mm: Sequence[float]) -> list[Variant]:
    """The job with bars of each depth.

    Parameters
    ----------
    job : Job
        A checked job.
    depths_mm : sequence of float
        Two to four, mm, 6 to 100.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, one of them twice, out of range, or not foldable with the rest of the job.

    Examples
    --------
    >>> [one.label for one in depth_variants(Job(), USUAL_DEPTHS_MM)]
    ['18 mm', '38 mm', '50 mm']
    """
    return _variants(job, "bars.depth_mm", [(say("{depth:g} mm", depth=depth), depth) for depth in depths_mm])


def fill_variants(job: Job, fills: Sequence[str]) -> list[Variant]:
    """The job with each fill on all four sides; what a side has of its own besides its fill stays.

    Parameters
    ----------
    job : Job
        A checked job.
    fills : sequence of str
        Two to four values of `Fill`.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, one of them twice, or no fill.

    Examples
    --------
    >>> [one.job.sides.fill.value for one in fill_variants(Job(), ["mirror", "run-on"])]
    ['mirror', 'run-on']
    """
    return _variants(job, "sides.fill", [(str(fill), str(fill)) for fill in fills])


def offered_fills(job: Job, fills: Sequence[str]) -> list[Variant]:
    """The same as `fill_variants`, under the names that a client reads.

    Parameters
    ----------
    job : Job
        A checked job.
    fills : sequence of str
        Two to four values of `Fill`.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, one of them twice, or no fill.

    Examples
    --------
    >>> [one.label for one in offered_fills(Job(), ["mirror", "run-on"])]
    ['Mirror', 'Picture runs on']
    """
    return [
        one.model_copy(update={"label": str(say(FILL_NAMES[one.job.sides.fill]))})
        for one in fill_variants(job, fills)
    ]


def finish_variants(job: Job, finishes: Sequence[str]) -> list[Variant]:
    """The job with its corners folded in each way.

    Parameters
    ----------
    job : Job
        A checked job.
    finishes : sequence of str
        Two to four values of `Finish`.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, one of them twice, or no finish.

    Examples
    --------
    >>> [one.label for one in finish_variants(Job(), ["tucked", "lapped"])]
    ['tucked', 'lapped']
    """
    return _variants(job, "wrap.finish", [(str(finish), str(finish)) for finish in finishes])


def profile_variants(job: Job, profiles: Sequence[str]) -> list[Variant]:
    """The job on each canvas, by the names of open profiles.

    Parameters
    ----------
    job : Job
        A checked job.
    profiles : sequence of str
        Two to four names.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, or one of them twice.

    Examples
    --------
    >>> [one.label for one in profile_variants(Job(), ["illustrative-matte", "mine.icc"])]
    ['illustrative-matte', 'mine.icc']
    """
    return _variants(job, "colour.profile", [(profile, profile) for profile in profiles])


def bring_in_variants(job: Job, shares: Sequence[float]) -> list[Variant]:
    """The job with each share of its colours brought in.

    Parameters
    ----------
    job : Job
        A checked job.
    shares : sequence of float
        Two to four, 0 to 1.

    Returns
    -------
    list of Variant

    Raises
    ------
    FieldError
        Too few or too many, one of them twice, or out of range.

    Examples
    --------
    >>> [one.label for one in bring_in_variants(Job(), [0, 0.5, 1])]
    ['nothing brought in', '50 % brought in', 'all brought in']
    """
    words = {0.0: say("nothing brought in"), 1.0: say("all brought in")}
    named = [
        (words.get(float(share), say("{percent} % brought in", percent=f"{share * 100:g}")), share)
        for share in shares
    ]
    return _variants(job, "colour.bring_in", named)


def check_variants(variants: Sequence[Variant], *, field: str) -> None:
    """Check that there are two to four, and none of them twice.

    Parameters
    ----------
    variants : sequence of Variant
    field : str
        What to call them in a message.

    Raises
    ------
    FieldError
        Too few, too many, or two alike.

    Examples
    --------
    >>> check_variants(depth_variants(Job(), [18, 38]), field="variants")
    """
    check_count(len(variants), field=field)
    for number, one in enumerate(variants):
        for other in variants[:number]:
            if other.job == one.job:
                raise FieldError(
                    field=field,
                    expected=say("values that differ"),
                    got=shown(one.label)
                    if one.label == other.label
                    else say("{label} as {label2}", label=one.label, label2=other.label),
                    remedy=say("name each of them once"),
                )


def check_count(count: int, *, field: str) -> None:
    """Check that there are two to four variants, before any of them is looked at.

    Parameters
    ----------
    count : int
        How many variants.
    field : str
        The field that an error names.

    Raises
    ------
    FieldError
        Too few or too many.
    """
    if not FEWEST <= count <= MOST:
        raise FieldError(
            field=field,
            expected=say("{fewest} to {most} values to compare", fewest=FEWEST, most=MOST),
            got=str(count),
            remedy=say("name another") if count < FEWEST else say("leave some out, or compare them in turn"),
        )


@contextmanager
def naming(label: str) -> Iterator[None]:
    """Let an error say in which variant it is.

    Parameters
    ----------
    label : str
        The variant's.

    Yields
    ------
    None
        The block inside runs.

    Raises
    ------
    FieldError, GeometryError
        What was raised inside, with the variant named.

    Examples
    --------
    >>> try:
    ...     with naming("3 mm"):
    ...         check_job({"bars": {"depth_mm": 3}})
    ... except FieldError as wrong:
    ...     print(wrong.got)
    3 in the variant “3 mm”
    """
    try:
        yield
    except (FieldError, GeometryError) as wrong:
        raise type(wrong)(
            field=wrong.field,
            expected=wrong.expected,
            got=say("{got} in the variant “{label}”", got=wrong.got, label=label),
            remedy=wrong.remedy,
            said=say("Variant “{label}”: {said}", label=label, said=wrong.said) if wrong.said else "",
        ) from wrong


def _variants(job: Job, field: str, named: Iterable[tuple[str, object]]) -> list[Variant]:
    chosen = list(named)
    check_count(len(chosen), field=field)
    part, name = field.split(".")
    made = []
    for label, value in chosen:
        tree = job_tree(job)
        tree[part][name] = value
        if field == "sides.fill":
            _follow_all(tree["sides"])
        with naming(label):
            made.append(Variant(label=label, job=check_job(tree)))
    check_variants(made, field=field)
    return made


def _follow_all(sides: dict[str, Any]) -> None:
    """Let every side have the fill of all."""
    for side in Side:
        own = sides.get(side.value, {})
        own.pop("fill", None)
        if not own:
            sides.pop(side.value, None)
