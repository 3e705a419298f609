"""The wood of one panel: four mitred bars, braces, and the staples in its back."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.bars import rules
from pycore.contract.job import Job
from pycore.conventions import round_half_up


@dataclass(frozen=True, kw_only=True)
class Frame:
    """Bars and braces of one panel, mm.

    Attributes
    ----------
    width_mm, height_mm : float
        Outer side of the bars.
    bar_width_mm, bar_depth_mm : float
        A bar's section.
    upright_braces, lying_braces : int
    brace_width_mm, brace_depth_mm : float
        A brace's section.
    """

    width_mm: float
    height_mm: float
    bar_width_mm: float
    bar_depth_mm: float
    upright_braces: int
    lying_braces: int
    brace_width_mm: float
    brace_depth_mm: float

    @property
    def opening_mm(self) -> tuple[float, float]:
        """Width and height of the opening between the bars."""
        return self.width_mm - 2 * self.bar_width_mm, self.height_mm - 2 * self.bar_width_mm

    @property
    def bars_mm3(self) -> float:
        """Volume of the bars as whole rectangles, mitres closed."""
        across, down = self.opening_mm
        return (self.width_mm * self.height_mm - across * down) * self.bar_depth_mm

    @property
    def braces_mm3(self) -> float:
        """Volume of the braces; where two cross, each is halved."""
        across, down = self.opening_mm
        long_mm = self.upright_braces * down + self.lying_braces * across
        crossings = self.upright_braces * self.lying_braces
        return (long_mm - crossings * self.brace_width_mm) * self.brace_width_mm * self.brace_depth_mm


def bar_width_mm(job: Job) -> float:
    """Width of a bar's section: the job's own, or the rule's.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    float
        In mm.

    Examples
    --------
    >>> from pycore.contract.job import Bars
    >>> bar_width_mm(Job()), bar_width_mm(Job(bars=Bars(width_mm=50)))
    (40.0, 50.0)
    """
    if job.bars.width_mm is not None:
        return job.bars.width_mm
    # A whole mm: no bar is sold by tenths.
    share = round_half_up(rules.BAR_SHARE * min(job.face.width_mm, job.face.height_mm))
    return min(rules.BAR_WIDTH_MM, float(share))


def brace_count(length_mm: float) -> int:
    """How many braces a bar of this length needs, so that no stretch of it is longer than the rule allows.

    Parameters
    ----------
    length_mm : float
        Of the bar's outer side.

    Returns
    -------
    int

    Examples
    --------
    >>> [brace_count(length) for length in (600, 601, 1200, 1201)]
    [0, 1, 1, 2]
    """
    return max(0, math.ceil(length_mm / rules.LONGEST_SPAN_MM) - 1)


def frame_of(job: Job) -> Frame:
    """The wood of one panel of a job.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    Frame

    Examples
    --------
    >>> frame_of(Job()).opening_mm
    (220.0, 120.0)
    """
    width, depth = bar_width_mm(job), job.bars.depth_mm
    return Frame(
        width_mm=job.face.width_mm,
        height_mm=job.face.height_mm,
        bar_width_mm=width,
        bar_depth_mm=depth,
        upright_braces=brace_count(job.face.width_mm),
        lying_braces=brace_count(job.face.height_mm),
        brace_width_mm=min(rules.BRACE_WIDTH_MM, width),
        # A whole mm: nobody planes a brace to less.
        brace_depth_mm=float(math.floor(min(rules.BRACE_DEPTH_MM, depth * rules.BRACE_DEPTH_SHARE) + 1e-9)),
    )


def staple_count(job: Job) -> int:
    """How many staples hold one panel: along every bar, clear of the folded corners, and one in each corner.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    int
        0 where the turn-over has no room for one.

    Examples
    --------
    >>> staple_count(Job())
    20
    """
    if job.wrap.turnover_mm < rules.LEAST_STAPLED_MM:
        return 0
    clear = staples_clear_mm(job)
    return 4 + 2 * sum(_along(length - 2 * clear) for length in (job.face.width_mm, job.face.height_mm))


def staples_clear_mm(job: Job) -> float:
    """How far from a bar's end the staples along it begin, so that the folded corner stays free.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    float
        In mm, to a staple's middle.

    Examples
    --------
    >>> staples_clear_mm(Job())
    53.0
    """
    return job.bars.depth_mm + job.wrap.turnover_mm + rules.STAPLE_CROWN_MM / 2 + rules.STAPLE_CLEAR_MM


def _along(length_mm: float) -> int:
    """Staples on a length, one at each end; one in the middle where there is no room for two."""
    return 1 if length_mm < 0 else 1 + max(1, math.ceil(length_mm / rules.STAPLES_EVERY_MM))
