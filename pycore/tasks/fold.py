"""Every facet of a job's canvas, flat, in space, and what of it is seen."""

from __future__ import annotations

from typing import Any

from pycore.contract.job import Job
from pycore.fold.report import fold_report


def describe_fold(job: Job, *, at: float) -> dict[str, Any]:
    """Describe a job's canvas at one moment of the folding.

    Parameters
    ----------
    job : Job
        A checked job.
    at : float
        0 flat to 1 folded.

    Returns
    -------
    dict
        As `fold_report` gives it; lengths in mm.

    Raises
    ------
    FieldError
        `at` is not from 0 to 1.
    GeometryError
        The corners cannot be folded at these sizes.
    """
    return fold_report(job, at=at)
