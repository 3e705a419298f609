"""Whether what is loaded in the printer holds the canvas, and how much more or less would."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pycore.contract.job import LEAST_DEPTH_MM, MOST_DEPTH_MM, MOST_TURNOVER_MM, Job
from pycore.contract.record import Pair, Record
from pycore.conventions import EQUAL_MM
from pycore.layout.flat import FlatSizes, flat_sizes, stretch_factors


class SheetFit(Record):
    """Whether what is loaded in the printer holds the canvas."""

    fits: bool
    turned: bool
    """The canvas lies sideways on the sheet."""
    slack_mm: Pair
    """Sheet less canvas, along the sheet's width and height; negative = shortfall."""
    ink_slack_mm: Pair
    """The same for the inked area within the unprintable margins."""
    length_mm: float
    """The sheet's height, or what is cut from the roll."""
    position_mm: Pair
    """The canvas's upper-left corner on the sheet, from the sheet's upper-left corner."""
    largest_depth_mm: float | None = None
    """The deepest bars that a job may have and the sheet holds, all else as it is; absent where none."""
    largest_turnover_mm: float | None = None
    """The widest turn-over likewise; absent where not even the bleed's width fits."""

    @property
    def short_mm(self) -> Pair:
        """What the sheet's width and height lack for the canvas, and for its ink within the margins; or 0."""
        (across, along), (ink_across, ink_along) = self.slack_mm, self.ink_slack_mm
        return max(0.0, -min(across, ink_across)), max(0.0, -min(along, ink_along))


@dataclass(frozen=True, kw_only=True)
class Axis:
    """One axis of the sheet with the canvas axis that lies along it.

    Attributes
    ----------
    sheet_mm : float or None
        None along a roll.
    first_margin_mm, last_margin_mm : float
        Unprintable.
    canvas_mm, inked_mm : float
    """

    sheet_mm: float | None
    first_margin_mm: float
    last_margin_mm: float
    canvas_mm: float
    inked_mm: float

    @property
    def need_mm(self) -> float:
        """The shortest sheet that takes it: the canvas, and at each end what a margin exceeds the dry strip.

        The dry strip between the canvas's edge and its ink may lie on the unprintable margin; ink may not.
        """
        return self.canvas_mm + self.first_mm + self.last_mm

    @property
    def first_mm(self) -> float:
        """What must stay free before the canvas."""
        return max(0.0, self.first_margin_mm - self._dry_mm)

    @property
    def last_mm(self) -> float:
        """What must stay free behind it."""
        return max(0.0, self.last_margin_mm - self._dry_mm)

    @property
    def _dry_mm(self) -> float:
        """Canvas without ink, at each end."""
        return (self.canvas_mm - self.inked_mm) / 2

    @property
    def length_mm(self) -> float:
        """Of the sheet, or of what is cut from the roll."""
        return self.need_mm if self.sheet_mm is None else self.sheet_mm

    @property
    def spare_mm(self) -> float:
        """What is left; negative is a shortfall."""
        return self.length_mm - self.need_mm

    @property
    def start_mm(self) -> float:
        """Where the canvas begins, as near the middle as may be."""
        first = self.first_mm
        last = self.length_mm - self.canvas_mm - self.last_mm
        middle = (self.length_mm - self.canvas_mm) / 2
        return min(max(middle, first), last) if first <= last + EQUAL_MM else middle


def fit_sheet(
    job: Job, *, most_depth_mm: float = MOST_DEPTH_MM, most_turnover_mm: float = MOST_TURNOVER_MM
) -> SheetFit:
    """Place the canvas on the job's sheet or roll.

    It fits when the canvas lies on the sheet and its inked area within the unprintable margins, both at once,
    in either orientation. A roll has no length: the orientation that takes less of it is chosen.

    Parameters
    ----------
    job : Job
        A checked job.
    most_depth_mm, most_turnover_mm : float
        What the largest depth and turn-over may not exceed for another reason than the sheet.

    Returns
    -------
    SheetFit

    Examples
    --------
    >>> fit = fit_sheet(Job())
    >>> fit.fits, fit.turned, round(fit.slack_mm[0], 2)
    (True, True, 38.1)
    """
    sizes = flat_sizes(job)
    straight, turned = (sheet_axes(job, sizes, turned=way) for way in (False, True))
    ways = (False, straight), (True, turned)
    is_turned = _rank(turned) > _rank(straight)
    across, along = turned if is_turned else straight
    return SheetFit(
        fits=_fits(across) and _fits(along),
        turned=is_turned,
        slack_mm=(_slack(across), _slack(along)),
        ink_slack_mm=(_ink_slack(across), _ink_slack(along)),
        length_mm=along.length_mm,
        position_mm=(across.start_mm, along.start_mm),
        largest_depth_mm=_within(
            (_depth_limits(job, axes, turned=way) for way, axes in ways),
            least=LEAST_DEPTH_MM,
            most=min(most_depth_mm, MOST_DEPTH_MM),
        ),
        largest_turnover_mm=_within(
            (_turnover_limits(job, axes, turned=way) for way, axes in ways),
            least=job.wrap.ink_over_mm,
            most=min(most_turnover_mm, MOST_TURNOVER_MM),
        ),
    )


def sheet_axes(job: Job, sizes: FlatSizes, *, turned: bool) -> tuple[Axis, Axis]:
    """The canvas on the sheet in one orientation: across it, and along it.

    Parameters
    ----------
    job : Job
        A checked job.
    sizes : FlatSizes
        The job's.
    turned : bool
        Whether the canvas lies sideways.

    Returns
    -------
    tuple of Axis
        Along the sheet's width, and along its height.

    Examples
    --------
    >>> across, along = sheet_axes(Job(), flat_sizes(Job()), turned=True)
    >>> round(across.spare_mm, 2)
    38.1
    """
    top, right, bottom, left = job.sheet.margin_mm
    first, second = (1, 0) if turned else (0, 1)
    return (
        Axis(
            sheet_mm=job.sheet.width_mm,
            first_margin_mm=left,
            last_margin_mm=right,
            canvas_mm=sizes.canvas_mm[first],
            inked_mm=sizes.inked_mm[first],
        ),
        Axis(
            sheet_mm=job.sheet.height_mm,
            first_margin_mm=top,
            last_margin_mm=bottom,
            canvas_mm=sizes.canvas_mm[second],
            inked_mm=sizes.inked_mm[second],
        ),
    )


def _fits(axis: Axis) -> bool:
    return axis.spare_mm >= -EQUAL_MM


def _slack(axis: Axis) -> float:
    return _settled(axis.length_mm - axis.canvas_mm)


def _ink_slack(axis: Axis) -> float:
    return _settled(axis.length_mm - axis.first_margin_mm - axis.last_margin_mm - axis.inked_mm)


def _settled(length_mm: float) -> float:
    """Nothing is left where sums of doubles leave next to nothing, of either sign."""
    return 0.0 if abs(length_mm) < EQUAL_MM else length_mm


def _rank(axes: tuple[Axis, Axis]) -> tuple[bool, float, float]:
    """What to prefer: one that fits; then the smaller shortfall; then the shorter piece of a roll.

    Equal ranks leave the canvas unturned.
    """
    across, along = axes
    fits = _fits(across) and _fits(along)
    shortfall = 0.0 if fits else round(min(across.spare_mm, along.spare_mm, 0.0), 9)
    roll = 0.0 if along.sheet_mm is not None else -round(along.need_mm, 9)
    return fits, shortfall, roll


def _depth_limits(job: Job, axes: tuple[Axis, Axis], *, turned: bool) -> float | None:
    """The largest depth in one orientation: need_mm is linear in the depth, by 2 / (1 + stretch) an axis."""
    limit = float("inf")
    for axis, stretched in zip(axes, _stretch_factors(job, turned), strict=True):
        if axis.sheet_mm is not None:
            limit = min(limit, job.bars.depth_mm + axis.spare_mm * stretched / 2)
    return _at_least(limit, 0.0)


def _turnover_limits(job: Job, axes: tuple[Axis, Axis], *, turned: bool) -> float | None:
    """The largest turn-over in one orientation, no less than the ink-over.

    With dry strip g = (r - p) / (1 + e), canvas C = (b + 2r) / (1 + e) and margins m, n, the need is the
    largest of C, C + m - g, C + n - g and the constant C + m + n - 2g; each is linear in r.
    """
    inked = job.wrap.ink_over_mm
    limit = float("inf")
    for axis, stretched in zip(axes, _stretch_factors(job, turned), strict=True):
        if axis.sheet_mm is None:
            continue
        base = axis.canvas_mm * stretched - 2 * job.wrap.turnover_mm
        if _ink_slack(axis) < -EQUAL_MM:
            return None
        limit = min(limit, (axis.sheet_mm * stretched - base) / 2)
        for margin in (axis.first_margin_mm, axis.last_margin_mm):
            limit = min(limit, (axis.sheet_mm - margin) * stretched - base - inked)
    return _at_least(limit, inked)


def _stretch_factors(job: Job, turned: bool) -> Pair:
    wide, high = stretch_factors(job)
    return (high, wide) if turned else (wide, high)


def _at_least(limit: float, smallest: float) -> float | None:
    return max(limit, smallest) if limit >= smallest - EQUAL_MM else None


def _within(limits: Iterable[float | None], *, least: float, most: float) -> float | None:
    """The largest of some limits, at most `most`; None where that is less than `least`."""
    found = [limit for limit in limits if limit is not None]
    largest = min(max(found), most) if found else -1.0
    return _at_least(largest, least)
