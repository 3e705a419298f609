"""What the ticket says of the work from the dry print to the hung piece, and its cautions."""

from __future__ import annotations

import math
from typing import Final

from pycore.bars import rules
from pycore.bars.frame import staples_clear_mm
from pycore.bars.hanging import NoWire
from pycore.bars.report import BarsReport, Length
from pycore.bars.weight import mass_words
from pycore.client.words import inches
from pycore.contract.job import Job
from pycore.layout.flat import flat_sizes
from pycore.speech import say
from pycore.ticket.fold_words import from_edges_words
from pycore.ticket.words import PRACTICE, exact, mm_pair, mm_words, plain

_TIMES: Final = "\N{MULTIPLICATION SIGN}"

#: What can hurt someone. The page's section on stretching says the same.
CAUTIONS: Final = (
    (
        say("Blades"),
        say(
            "Cut away from your body along a steel rule, hold the rule behind the blade, and "
            "cap the knife when you put it down."
        ),
    ),
    (
        say("Staple gun"),
        say(
            "Wear eye protection, keep fingers off the far side of the bar, and unload it "
            "before you clear a jam."
        ),
    ),
    (
        say("Coating"),
        say(
            "Solvent coatings need ventilation, a respirator that suits them, and no flame or "
            "spark near; read the maker's safety data sheet first."
        ),
    ),
    (say("Hanging"), say("Fittings, wire and wall plug must each be rated for the weight and for the wall.")),
)

#: The word on what comes before all of this.
FIRST: Final = say("Local codes, the makers' own sheets and licensed practice come first.")


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
    which = say("the canvas") if job.group.panels == 1 else say("each canvas")
    coat = say("Coat it") if job.canvas.coated else say("Coat it where it meets moisture or hands")
    return [
        say("Let the print dry for a day before you coat it {practice}.", practice=PRACTICE),
        say("{coat}; let the coat dry as its maker says {practice}.", coat=coat, practice=PRACTICE),
        say(
            "Trim {canvas} to {mm_pair}, along the trim corners where the print has them.",
            canvas=which,
            mm_pair=mm_pair(*canvas),
        )
        if job.print.marks
        else say(
            "Trim {canvas} to {mm_pair}: the print has no trim corners, so measure from the face outwards.",
            canvas=which,
            mm_pair=mm_pair(*canvas),
        ),
    ]


def square_steps(job: Job, bars: BarsReport) -> list[str]:
    """Joining and squaring the bars, and what lets them be set on the canvas.

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
        say(
            "Join the bars, {lengths} of {exact} {times} {exact2} mm, mitred {mitre_degrees:g} "
            "degrees{each}.",
            lengths=_lengths(bars.bars, bars.panels),
            exact=exact(width),
            times=_TIMES,
            exact2=exact(depth),
            mitre_degrees=bars.mitre_degrees,
            each=_each(bars),
        )
    ]
    if bars.braces:
        steps.append(_brace_step(bars))
    steps.append(
        say(
            "Square them: both diagonals measure {mm_words} ({inches} in) over the outer corners.",
            mm_words=mm_words(diagonal),
            inches=inches(diagonal),
        )
    )
    flat = flat_sizes(job)
    steps.append(
        say(
            "Lay the canvas face down on a clean table, and rule the front edges on its back in "
            "pencil: {from_edges} ({inches} in).",
            from_edges=from_edges_words(flat.columns_mm[2], flat.rows_mm[2]),
            inches=_both_inches(flat.columns_mm[2], flat.rows_mm[2]),
        )
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
        say(
            "Pull evenly, until the canvas is taut and its weave runs straight; the ruled lines "
            "come to lie along the bars' front edges {practice}.",
            practice=PRACTICE,
        ),
    ]
    if bars.staples == 0:
        return [*steps, say("The turn-over has no room for staples: glue it, or hold it by a frame.")]
    return [
        *steps,
        *_order_of_staples(job),
        say(
            "{staples} staples {of}, at most {plain} mm apart between the corners {practice}.",
            staples=bars.staples // bars.panels,
            of=say("in all") if bars.panels == 1 else say("in each panel"),
            plain=plain(bars.staples_every_mm),
            practice=PRACTICE,
        ),
    ]


def _brace_step(bars: BarsReport) -> str:
    across, deep = bars.brace_section_mm
    if sum(one.count for one in bars.braces) == bars.panels:
        return say(
            "Fit the brace, {lengths} of {plain} {times} {plain2} mm{each}, across the middle {practice}.",
            lengths=_lengths(bars.braces, bars.panels),
            each=_each(bars),
            plain=plain(across),
            times=_TIMES,
            plain2=plain(deep),
            practice=PRACTICE,
        )
    return say(
        "Fit the braces, {lengths} of {plain} {times} {plain2} mm{each}, at equal "
        "distances{crossed} {practice}.",
        lengths=_lengths(bars.braces, bars.panels),
        each=_each(bars),
        crossed=say("; where two cross, halve both") if bars.braces_cross else "",
        plain=plain(across),
        times=_TIMES,
        plain2=plain(deep),
        practice=PRACTICE,
    )


def _order_of_staples(job: Job) -> list[str]:
    """Which staples come first: on sides whose folded corners reach the middle, none before these."""
    clear = staples_clear_mm(job)
    sides = (
        (job.face.width_mm, say("top and bottom")),
        (job.face.height_mm, say("left and right")),
    )
    short = [pair for length, pair in sides if length < 2 * clear]
    if len(short) == len(sides):
        return [
            say(
                "The folded corners reach the middle of every side: fold them first, then staple the middle "
                "of each side, opposite sides in turn, as numbered; the corners come last {practice}.",
                practice=PRACTICE,
            )
        ]
    steps = [
        say(
            "Staple each side as it goes on to the back, from its middle outwards, opposite sides in turn, "
            "as numbered. Leave {clear} beside each corner free until it is folded; the corners come "
            "last {practice}.",
            clear=mm_words(clear),
            practice=PRACTICE,
        )
    ]
    if short:
        steps.append(
            say(
                "On {sides} the folded corners reach the middle: staple it after them {practice}.",
                sides=short[0],
                practice=PRACTICE,
            )
        )
    return steps


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
    apart, down = on.rings_apart_mm, on.rings_mm[0][1]
    steps = [
        say(
            "Screw on two rings, {mm_words} apart, {mm_words2} below the top edge{each}.",
            mm_words=_whole_mm(apart),
            mm_words2=_whole_mm(down),
            each=_each(bars),
        )
    ]
    if on.wire is None:
        steps.append(
            say(
                "No wire: too heavy for one {practice}. Each ring hangs on a hook of its own.",
                practice=PRACTICE,
            )
            if on.no_wire is NoWire.HEAVY
            else say(
                "No wire: it would lie so flat that it pulls with over {times:g} times the weight "
                "{practice}. Each ring hangs on a hook of its own.",
                times=rules.WIRE_PULL_MOST,
                practice=PRACTICE,
            )
        )
    else:
        steps.append(
            say(
                "Tie the wire: {mm_words} from ring to ring, and what is wound round them. Drawn up "
                "{mm_words2} at the hook it pulls with {tension_n:.0f} N (derived).",
                mm_words=_whole_mm(on.wire.length_mm),
                mm_words2=_whole_mm(on.wire.rise_mm),
                tension_n=on.wire.tension_n,
            )
        )
    hooks = say("1 hook in the middle")
    if on.hooks > 1:
        hooks = say(
            "{hooks} hooks, {mm_words} apart",
            hooks=on.hooks,
            mm_words=_whole_mm(on.hooks_apart_mm),
        )
    steps.append(
        say(
            "Hang it on {hooks}, {mm_words} below where the top edge comes{each}.",
            hooks=hooks,
            mm_words=_whole_mm(on.hooks_mm[0][1]),
            each=""
            if bars.panels == 1
            else say(
                " (each panel; {mm_words} from one's middle to the next)", mm_words=mm_words(bars.pitch_mm)
            ),
        )
    )
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
    panels = (
        say("an estimate") if bars.panels == 1 else say("{panels} panels, an estimate", panels=bars.panels)
    )
    return [
        (say("Whole piece"), mass_words(bars.whole_g), panels),
        (
            say("Canvas alone"),
            say("{canvas_alone_g:.0f} g", canvas_alone_g=bars.canvas_alone_g),
            say("as trimmed"),
        ),
    ]


def _ratings(bars: BarsReport) -> str:
    on = bars.hanging
    loads = [
        say("ring {ring_carries_kg:.1f} kg", ring_carries_kg=on.ring_carries_kg),
        say("hook {hook_carries_kg:.1f} kg", hook_carries_kg=on.hook_carries_kg),
    ]
    loads += (
        [] if on.wire is None else [say("wire {wire_carries_kg:.1f} kg", wire_carries_kg=on.wire_carries_kg)]
    )
    rated = say(
        "Weigh the piece first. Each must be rated for {safety_factor:g} times the force on it {practice}",
        safety_factor=on.safety_factor,
        practice=PRACTICE,
    )
    return f"{rated}: {', '.join(loads)}."


def _both_inches(across_mm: float, down_mm: float) -> str:
    across, down = inches(across_mm), inches(down_mm)
    return (
        across if plain(across_mm) == plain(down_mm) else say("{across} and {down}", across=across, down=down)
    )


def _whole_mm(length_mm: float) -> str:
    """As exactly as a ring is screwed on, in both units."""
    return say("{length_mm:.0f} mm ({inches} in)", length_mm=length_mm, inches=inches(length_mm))


def _each(bars: BarsReport) -> str:
    return "" if bars.panels == 1 else say(" (each panel)")


def _lengths(lengths: list[Length], panels: int) -> str:
    """Of one panel: the report's lists are for all of them."""
    return say(" and ").join(
        say(
            "{count} of {exact} mm ({inches} in)",
            count=one.count // panels,
            exact=exact(one.length_mm),
            inches=inches(one.length_mm),
        )
        for one in lengths
    )
