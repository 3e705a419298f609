"""Bars and fittings to order, the weight of the whole piece, and what it hangs by."""

from __future__ import annotations

from pycore.bars.report import BarsReport, bars_report
from pycore.contract.job import Job


def order_bars(job: Job) -> BarsReport:
    """Say what wood and fittings a job needs.

    Parameters
    ----------
    job : Job
        A checked job. No picture is needed.

    Returns
    -------
    BarsReport

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> order_bars(Job()).staples
    20
    """
    return bars_report(job)
