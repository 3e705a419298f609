"""The smallest face round which a job's canvas can be folded."""

from __future__ import annotations

import math
from dataclasses import replace

from pycore.contract.job import Job, OverPair
from pycore.contract.record import Pair
from pycore.errors import GeometryError
from pycore.fold.spec import check_spec, unchecked_spec


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
    The bounds are those of `pycore.fold.spec.check_spec`, whose last word is asked here too.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> smallest_face_mm(check_job({"bars": {"depth_mm": 20}, "wrap": {"turnover_mm": 25}}))
    (90.0, 50.0)
    """
    spec = replace(unchecked_spec(job), width_mm=math.inf, height_mm=math.inf)
    try:
        check_spec(spec)
    except GeometryError:
        return None
    over, under = 2 * spec.over_end_mm, 2 * spec.turnover_mm
    return (over, under) if spec.over is OverPair.TOP_BOTTOM else (under, over)
