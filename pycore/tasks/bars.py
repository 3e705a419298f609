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


def bars_cost(report: BarsReport, *, price_per_m: float) -> float:
    """What the bars of a job cost.

    Parameters
    ----------
    report : BarsReport
        What to order; braces are not counted.
    price_per_m : float
        Of a metre of bar, in any money, at least 0.

    Returns
    -------
    float
        In the same money.

    Examples
    --------
    >>> bars_cost(order_bars(Job()), price_per_m=3.0)
    3.0
    """
    return sum(one.count * one.length_mm for one in report.bars) / 1000 * price_per_m
