"""What the ticket says of the work from the dry print to the hung piece, and its cautions."""

from __future__ import annotations

import math
from typing import Final

from pycore.bars.report import BarsReport, Length
from pycore.bars.weight import mass_words
from pycore.client.words import inches
from pycore.contract.job import Job
from pycore.layout.flat import flat_sizes
from pycore.ticket.words import PRACTICE, mm_pair, mm_words, plain

_TIMES: Final = "\N{MULTIPLICATION SIGN}"

#: What can hurt someone. The page's section on stretching says the same.
CAUTIONS: Final = (
    (
        "Blades",
        "Cut away from your body along a steel rule, hold the rule behind the blade, and cap the knife when "
        "you put it down.",
    ),
    (
        "Staple gun",
        "Wear eye protection, keep fingers off the far side of the bar, and unload it before you clear a "
        "jam.",
    ),
    (
        "Coating",
        "Solvent coatings need ventilation, a respirator that suits them, and no flame or spark near; read "
        "the maker's safety data sheet first.",
    ),
    ("Hanging", "Fittings, wire and wall plug must each be rated for the weight and for the wall."),
)

#: The word on what comes before all of this.
FIRST: Final = "Local codes, the makers' own sheets and licensed practice come first."


def coat_steps(job: Job) -> list[str]:
    """Drying, coating and trimming.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of str

    Examples
    --------
    >>> len(coat_steps(Job()))
    3
    """
    canvas = flat_sizes(job).canvas_mm
    coat = "Coat it" if job.canvas.coated else "Coat it where it meets moisture or hands"
    return [
        f"Let the print dry for a day before you coat it {PRACTICE}.",
        f"{coat}; let the coat dry as its maker says {PRACTICE}.",
        f"Trim along the trim line: the canvas then measures {mm_pair(*canvas)}.",
    ]


def square_steps(job: Job, bars: BarsReport) -> list[str]:
    """Joining and squaring the bars.

    Parameters
    ----------
    job : Job
        A checked job.
    bars : BarsReport
        The job's.

    Returns
    -------
    list of str
    """
    width, depth = bars.section_mm
    diagonal = math.hypot(job.face.width_mm, job.face.height_mm)
    steps = [
        f"Join the bars, {_lengths(bars.bars)} of {plain(width)} {_TIMES} {plain(depth)} mm, mitred "
        f"{bars.mitre_degrees:g} degrees{_each(bars)}."
    ]
    if bars.braces:
        across, deep = bars.brace_section_mm
        steps.append(
            f"Fit the braces, {_lengths(bars.braces)} of {plain(across)} {_TIMES} {plain(deep)} mm "
            f"{PRACTICE}."
        )
    steps.append(
        f"Square them: both diagonals measure {mm_words(diagonal)} ({inches(diagonal)} in) over the outer "
        "corners."
    )
    return steps


def staple_steps(job: Job, bars: BarsReport) -> list[str]:
    """Stretching and stapling.

    Parameters
    ----------
    job : Job
        A checked job.
    bars : BarsReport
        The job's.

    Returns
    -------
    list of str
    """
    steps = [
        "Lay the canvas face down on a clean table and the bars on it, face to face; the fold lines lie "
        "along the bars' edges.",
        "Pull evenly, until the canvas is taut and its weave runs straight; the picture's edges stay on the "
        f"bars' front edges {PRACTICE}.",
    ]
    if bars.staples == 0:
        return [*steps, "The turn-over has no room for staples: glue it, or hold it by a frame."]
    return [
        *steps,
        "Staple on the back from the middle of each side outwards, opposite sides in turn, as numbered; the "
        f"corners come last {PRACTICE}.",
        f"{bars.staples} staples in all, at most {plain(bars.staples_every_mm)} mm apart {PRACTICE}.",
    ]


def hang_steps(bars: BarsReport) -> list[str]:
    """Fittings and hanging, with what each must carry.

    Parameters
    ----------
    bars : BarsReport

    Returns
    -------
    list of str
    """
    on = bars.hanging
    apart, down = on.rings_mm[1][0] - on.rings_mm[0][0], on.rings_mm[0][1]
    steps = [
        f"Screw on two rings, {mm_words(apart)} apart, {mm_words(down)} below the top edge{_each(bars)}."
    ]
    if on.wire is None:
        steps.append(f"No wire: too heavy for one {PRACTICE}. Each ring hangs on a hook of its own.")
    else:
        steps.append(
            f"Tie the wire: {mm_words(on.wire.length_mm)} from ring to ring, so that it is drawn up "
            f"{mm_words(on.wire.rise_mm)} at the hook; it pulls {on.wire.tension_n:.1f} N (derived)."
        )
    hooks = "1 hook in the middle"
    if on.hooks > 1:
        hooks = f"{on.hooks} hooks, {mm_words(on.hooks_mm[1][0] - on.hooks_mm[0][0])} apart"
    steps.append(f"Hang it on {hooks}, {mm_words(on.hooks_mm[0][1])} below where the top edge comes.")
    return [*steps, _ratings(bars)]


def weight_rows(bars: BarsReport) -> list[tuple[str, str, str]]:
    """What the piece weighs: what, how much, and a remark.

    Parameters
    ----------
    bars : BarsReport

    Returns
    -------
    list of (str, str, str)
    """
    panels = "an estimate" if bars.panels == 1 else f"{bars.panels} panels, an estimate"
    return [
        ("Whole piece", mass_words(bars.whole_g), panels),
        ("Canvas alone", f"{bars.canvas_alone_g:.0f} g", "as trimmed"),
    ]


def _ratings(bars: BarsReport) -> str:
    on = bars.hanging
    loads = [f"ring {on.ring_carries_kg:.1f} kg", f"hook {on.hook_carries_kg:.1f} kg"]
    loads += [] if on.wire is None else [f"wire {on.wire_carries_kg:.1f} kg"]
    rated = f"Each must be rated for {on.safety_factor:g} times the force on it {PRACTICE}"
    return f"{rated}: {', '.join(loads)}."


def _each(bars: BarsReport) -> str:
    return "" if bars.panels == 1 else " (each panel)"


def _lengths(lengths: list[Length]) -> str:
    return " and ".join(f"{one.count} of {plain(one.length_mm)} mm" for one in lengths)
