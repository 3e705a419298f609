"""Bars and fittings to order, what the piece weighs, and what it hangs by, in one record."""

from __future__ import annotations

from typing import Final

from pycore.bars import rules
from pycore.bars.frame import Frame, frame_of, staple_count
from pycore.bars.hanging import Hanging, hanging_of
from pycore.bars.weight import Mass, all_of, panel_masses
from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.layout.group import panel_centres_mm
from pycore.speech import say

#: Local codes and licensed practice come before all of it.
CAUTIONS: Final = (
    say("Weigh the finished piece before you choose what it hangs by; the figures here are an estimate."),
    say(
        "Fittings, wire and wall plugs must each be rated for the load and for the wall; "
        "the maker's rating comes before any figure here."
    ),
    say(
        "Ask somebody licensed where the wall or the load is in doubt, and hang nothing "
        "heavy over a bed or a seat. Local codes and licensed practice come first."
    ),
)


class Length(Record):
    """So many pieces of wood of one length."""

    length_mm: float
    """A bar's outer side, which is its longer one; a brace between the bars."""
    count: int


class BarsReport(Record):
    """What to order and what it comes to; of a group the lists are for all panels, the rest for one."""

    panels: int
    bars: list[Length]
    """All panels' bars, the longest first, mitred at both ends."""
    mitre_degrees: float
    section_mm: Pair
    """A bar's width and depth."""
    section_is_given: bool
    """The width is the job's own; otherwise the rule's."""
    braces: list[Length]
    """All panels', the longest first; cut to the opening, what the joint takes comes on top."""
    braces_cross: bool
    """An upright one crosses a lying one; there both are halved."""
    brace_section_mm: Pair
    brace_rule: str
    staples: int
    """All panels'."""
    staples_every_mm: float
    masses: list[Mass]
    """Of one panel."""
    panel_g: Pair
    """The whole panel: canvas, bars and all; lowest and highest."""
    whole_g: Pair
    """The whole piece, all panels; lowest and highest."""
    canvas_alone_g: float
    """As trimmed, all panels."""
    hanging: Hanging
    """Of one panel."""
    pitch_mm: float
    """From one panel's middle to the next one's, as they hang; 0 for one panel."""
    cautions: list[str]


def bars_report(job: Job) -> BarsReport:
    """Say what to order for a job, what the piece weighs, and what it hangs by.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    BarsReport

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> [(one.count, one.length_mm) for one in bars_report(Job()).bars]
    [(2, 300.0), (2, 200.0)]
    """
    frame, panels, masses = frame_of(job), job.group.panels, panel_masses(job)
    low, high = all_of(masses)
    across, down = frame.opening_mm
    return BarsReport(
        panels=panels,
        bars=_list([(frame.width_mm, 2 * panels), (frame.height_mm, 2 * panels)]),
        mitre_degrees=45.0,
        section_mm=(frame.bar_width_mm, frame.bar_depth_mm),
        section_is_given=job.bars.width_mm is not None,
        braces=_list([(down, frame.upright_braces * panels), (across, frame.lying_braces * panels)]),
        braces_cross=frame.upright_braces > 0 and frame.lying_braces > 0,
        brace_section_mm=(frame.brace_width_mm, frame.brace_depth_mm),
        brace_rule=_rule(frame),
        staples=staple_count(job) * panels,
        staples_every_mm=rules.STAPLES_EVERY_MM,
        masses=masses,
        panel_g=(low, high),
        whole_g=(low * panels, high * panels),
        canvas_alone_g=masses[0].high_g * panels,
        hanging=hanging_of(frame, heaviest_g=high),
        pitch_mm=_pitch_mm(job),
        cautions=[say(one) for one in CAUTIONS],
    )


def _list(wanted: list[tuple[float, int]]) -> list[Length]:
    counts: dict[float, int] = {}
    for length, count in wanted:
        counts[length] = counts.get(length, 0) + count
    return [
        Length(length_mm=length, count=counts[length])
        for length in sorted(counts, reverse=True)
        if counts[length]
    ]


def _pitch_mm(job: Job) -> float:
    if job.group.panels == 1:
        return 0.0
    first, second, *_ = panel_centres_mm(job)
    return abs(second[0] - first[0]) + abs(second[1] - first[1])


def _rule(frame: Frame) -> str:
    longest = max(frame.width_mm, frame.height_mm)
    rule = say(
        "no stretch of a bar over {longest_span_mm:g} mm goes without a brace (common practice)",
        longest_span_mm=rules.LONGEST_SPAN_MM,
    )
    return say("{rule}; the longest bar here is {longest:g} mm", rule=rule, longest=longest)
