"""The smallest face round which a job's canvas can be folded."""

from __future__ import annotations

import math

from pycore.contract.job import Finish, Job, OverPair
from pycore.errors import GeometryError
from pycore.fold.spec import FoldSpec, check_spec

Pair = tuple[float, float]


def smallest_face_mm(job: Job) -> Pair | None:
    """Say how wide and how high a face must be for the corners to fold.

    Parameters
    ----------
    job : Job
        A checked job; its face does not matter.

    Returns
    -------
    tuple of float or None
        Width and height, mm. None where no face helps, because the set-back is too large.

    References
    ----------
    The bounds are those of `pycore.fold.spec.check_spec`, which has the last word here too.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> smallest_face_mm(check_job({"bars": {"depth_mm": 20}, "wrap": {"turnover_mm": 25}}))
    (90.0, 50.0)
    """
    spec = FoldSpec(
        width_mm=math.inf,
        height_mm=math.inf,
        depth_mm=job.bars.depth_mm,
        turnover_mm=job.wrap.turnover_mm,
        finish=job.wrap.finish,
        over=job.wrap.over,
        corners=job.wrap.corners,
        setback_mm=job.wrap.setback_mm,
        tab_mm=job.wrap.tab_mm,
        thickness_mm=job.canvas.thickness_mm,
    )
    try:
        check_spec(spec)
    except GeometryError:
        return None
    over, under = 2 * _over_end_mm(spec), 2 * spec.turnover_mm
    return (over, under) if spec.over is OverPair.TOP_BOTTOM else (under, over)


def _over_end_mm(spec: FoldSpec) -> float:
    """What one corner takes of an over side's length."""
    if spec.finish is Finish.TRIMMED:
        return max(spec.tab_mm, spec.turnover_mm)
    if spec.whole:
        return spec.reach_mm
    return max(spec.depth_mm, spec.turnover_mm, spec.reach_mm * math.tan(spec.setback_rad))
