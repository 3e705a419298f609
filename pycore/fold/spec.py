"""What the fold depends on, and the sizes for which it exists."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.contract.job import Corners, Finish, Job, OverPair
from pycore.conventions import EQUAL_MM, Side
from pycore.errors import GeometryError
from pycore.speech import say


@dataclass(frozen=True, kw_only=True)
class FoldSpec:
    """A canvas to be folded; lengths in mm.

    Examples
    --------
    >>> fold_spec(Job()).reach_mm
    45.0
    """

    width_mm: float
    height_mm: float
    depth_mm: float
    turnover_mm: float
    finish: Finish
    over: OverPair
    corners: Corners
    setback_mm: float
    tab_mm: float
    thickness_mm: float

    @property
    def reach_mm(self) -> float:
        """How far the sheet reaches past the face: depth and turn-over."""
        return self.depth_mm + self.turnover_mm

    @property
    def setback_rad(self) -> float:
        """The angle between the fold edge and the side's edge at the corner; only a tucked corner has one."""
        if self.finish is not Finish.TUCKED or self.setback_mm <= EQUAL_MM:
            return 0.0
        return math.atan2(self.setback_mm, self.depth_mm)

    @property
    def whole(self) -> bool:
        """The turn-over's part of the corner square is there and is folded with it."""
        return (
            self.finish is not Finish.TRIMMED
            and self.corners is Corners.WHOLE
            and self.turnover_mm > EQUAL_MM
        )

    @property
    def cut_mm2(self) -> float:
        """The area that is cut off the corner squares, on the bars; what the facets lack of the sheet."""
        if self.finish is Finish.TRIMMED:
            # Of each square a tab stays, a trapezoid whose two ends are cut at 45 degrees.
            return 4 * (self.reach_mm**2 - self.tab_mm * (self.depth_mm - self.tab_mm))
        if self.corners is Corners.WHOLE:
            return 0.0
        # Of each square the part beside the sides stays; a set-back slants the ends of the over pair's back.
        return 4 * (self.reach_mm**2 - self.depth_mm**2) * (1 + math.tan(self.setback_rad) / 2)

    @property
    def over_length_mm(self) -> float:
        """Length of a face edge of the over pair."""
        return self.width_mm if self.over is OverPair.TOP_BOTTOM else self.height_mm

    @property
    def under_length_mm(self) -> float:
        """Length of a face edge of the under pair."""
        return self.height_mm if self.over is OverPair.TOP_BOTTOM else self.width_mm

    @property
    def over_end_mm(self) -> float:
        """What one corner takes of an over side's length; its two ends must not meet."""
        if self.finish is Finish.TRIMMED:
            return max(self.tab_mm, self.turnover_mm)
        if self.whole:
            return self.reach_mm
        # A set-back slants the ends of the over pair; at the sheet's edge something of it must be left.
        return max(self.depth_mm, self.turnover_mm, self.reach_mm * math.tan(self.setback_rad))


def is_over(side: Side, over: OverPair) -> bool:
    """Whether a side is of the pair that is folded over the other.

    Parameters
    ----------
    side : Side
    over : OverPair
        The pair that is.

    Returns
    -------
    bool

    Examples
    --------
    >>> is_over(Side.TOP, OverPair.TOP_BOTTOM), is_over(Side.LEFT, OverPair.TOP_BOTTOM)
    (True, False)
    """
    return (side in (Side.TOP, Side.BOTTOM)) == (over is OverPair.TOP_BOTTOM)


def fold_spec(job: Job) -> FoldSpec:
    """What of a job the fold depends on, checked.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    FoldSpec

    Raises
    ------
    GeometryError
        See `check_spec`.

    Examples
    --------
    >>> fold_spec(Job()).depth_mm
    20.0
    """
    spec = unchecked_spec(job)
    check_spec(spec)
    return spec


def foldable_mm(job: Job) -> tuple[float, float]:
    """The deepest bars and the widest turn-over whose corners can be folded, each with the other as it is.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    tuple of float
        Depth and turn-over, mm; infinite where no corner sets a limit, under 0 where nothing can be folded.

    References
    ----------
    The inequalities of `check_spec`, solved for the depth d and for the turn-over r.

    Examples
    --------
    >>> foldable_mm(Job())
    (125.0, 100.0)
    """
    spec = unchecked_spec(job)
    half_over, half_under = spec.over_length_mm / 2, spec.under_length_mm / 2
    if spec.finish is Finish.TRIMMED:
        return math.inf, min(half_over, half_under)
    if spec.corners is Corners.WHOLE:
        depth = half_over if spec.turnover_mm <= EQUAL_MM else half_over - spec.turnover_mm
        return depth, min(half_over - spec.depth_mm, half_under)
    slope = math.tan(spec.setback_rad)
    slanted = half_over / slope - spec.depth_mm if slope > 0 else math.inf
    return half_over, min(half_over, half_under, slanted)


def unchecked_spec(job: Job) -> FoldSpec:
    """What of a job the fold depends on, whether its corners can be folded or not.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    FoldSpec

    Examples
    --------
    >>> unchecked_spec(Job()).turnover_mm
    25.0
    """
    return FoldSpec(
        width_mm=job.face.width_mm,
        height_mm=job.face.height_mm,
        depth_mm=job.bars.depth_mm,
        turnover_mm=job.wrap.turnover_mm,
        finish=job.wrap.finish,
        over=job.wrap.over,
        corners=job.wrap.corners,
        setback_mm=job.wrap.setback_mm,
        tab_mm=job.wrap.tab_mm,
        thickness_mm=job.canvas.thickness_mm,
    )


def check_spec(spec: FoldSpec) -> None:
    """Refuse sizes whose corners would run into one another.

    Parameters
    ----------
    spec : FoldSpec
        Any sizes.

    Raises
    ------
    GeometryError
        On an over side the corners of its two ends meet, on the back the turn-overs of two opposite sides
        meet, or the set-back is too large for the turn-over.

    References
    ----------
    Validity, derived: with over length Lo and under length Lu, depth d, turn-over r, tab t and set-back of
    angle e: whole Lo >= 2 (d + r); cut back Lo >= 2 max(d, r, (d + r) tan e); trimmed Lo >= 2 max(t, r);
    always Lu >= 2 r; whole corners with a set-back need d tan(45 deg + e) < d + r.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> from pycore.fold.spec import fold_spec
    >>> fold_spec(check_job({"face": {"width_mm": 100}, "bars": {"depth_mm": 38}}))  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    pycore.errors.GeometryError: Face width must be at least 126 mm for these corners to fold; ...
    """
    over_edge, under_edge = (
        ("face.width_mm", "face.height_mm")
        if spec.over is OverPair.TOP_BOTTOM
        else ("face.height_mm", "face.width_mm")
    )
    need = 2 * spec.over_end_mm
    if spec.over_length_mm < need - EQUAL_MM:
        if spec.finish is Finish.TRIMMED:
            why = say("a narrower turn-over")
        elif spec.whole:
            why = say("shallower bars, a narrower turn-over, or corners cut back or trimmed")
        else:
            why = say("shallower bars, a narrower turn-over or trimmed corners")
        raise _too_short(over_edge, spec.over_length_mm, need, why)
    if spec.under_length_mm < 2 * spec.turnover_mm - EQUAL_MM:
        raise _too_short(under_edge, spec.under_length_mm, 2 * spec.turnover_mm, say("a narrower turn-over"))
    swing = spec.depth_mm * math.tan(math.pi / 4 + spec.setback_rad)
    if spec.setback_rad > 0 and spec.whole and swing >= spec.reach_mm:
        largest = spec.depth_mm * math.tan(math.atan2(spec.reach_mm, spec.depth_mm) - math.pi / 4)
        raise GeometryError(
            field="wrap.setback_mm",
            expected=say(
                "under {largest:.2f} mm with a turn-over of {turnover_mm:g} mm",
                largest=largest,
                turnover_mm=spec.turnover_mm,
            ),
            got=say("{setback_mm:g} mm", setback_mm=spec.setback_mm),
            remedy=say("set the fold edge back less, widen the turn-over, or cut the corners back"),
        )


def _too_short(field: str, length: float, need: float, why: str) -> GeometryError:
    return GeometryError(
        field=field,
        expected=say("at least {need:g} mm for these corners to fold", need=need),
        got=say("{length:g} mm", length=length),
        remedy=say("choose a larger face, {why}", why=why),
    )
