"""Which side fill suits what the picture holds beside a front edge, and why, in figures."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from pycore.contract.job import Fill
from pycore.conventions import Side
from pycore.edges.judge import EdgeFigures
from pycore.fill.names import FILL_NAMES
from pycore.speech import lowered, mark, say

# Weights and thresholds are our own. They order the fills; they measure nothing beyond that.

#: Harm from which a note is a hint, and from which it is one to watch.
HINT_HARM: Final = 0.5
WATCH_HARM: Final = 0.7

#: How much less harm another fill must do before it is called better.
_LESS: Final = 0.15

#: The first of these that shows no fault is called better. On the photographs that set this the picture that
#: runs on was better by eye than a mirror with a fault on 117 of 124 sides, lines continued on 55 of 67, the
#: edge drawn out on 39 of 66. One colour was better on 15 of 60 and worse on 30, and nothing that is measured
#: parts the two: it shows no fault and loses the picture, so it is not proposed.
_ORDER: Final = (Fill.MIRROR, Fill.RUN_ON, Fill.CONTINUED, Fill.DRAWN_OUT, Fill.FADE)

#: From here on an edge has more than about one colour. Drawn out it was better on 13 of those sides, worse on
#: 12.
_UNEVEN: Final = 0.5

#: What the picture cuts as it runs on is still better than a plain fault of another fill, up to this harm.
_CUT_STILL_BETTER: Final = 0.6

#: Figures from which a fault is hinted at where it is the only one, set on photographs that were rated by
#: eye, some of which the tests name.
_SEEN_FROM: Final = {
    "doubled": 0.52,
    "broken": 0.87,
    "chevrons": 0.5,
    "repeated": 0.6,
    "smeared": 0.31,
    "bent": 0.45,
    "streaked": 0.5,
    "cut": 0.5,
}

#: The same at the top: heads are cut there, while what stands on the ground goes round the bottom freely.
_CUT_SEEN_AT_TOP: Final = 0.34

#: How much less of a fault is seen where the strip is busy all over.
_BUSY_HIDES: Final = {"doubled": 0.2, "repeated": 0.3, "bent": 0.45}

#: A thing that is cut counts with the bend of its outlines; from here on it is what is spoken of. Over calm
#: ground, down to none where the strip is so busy, it counts by itself.
_SEVERED_FROM: Final = 0.4
_CALM: Final = 0.2

#: A plain side goes with every picture and shows nothing of any.
_PLAIN_HARM: Final = 0.45

#: Continued sides are made up: what they show was never seen.
_CONTINUED_HARM: Final = 0.15


@dataclass(frozen=True, kw_only=True)
class Advice:
    """The advice for one side.

    Attributes
    ----------
    harm : float
        What the side's own fill does, 0 to 1.
    fault : str
        Which figure most of it comes from; empty under `HINT_HARM`.
    better : Fill or None
        A fill that would do better; None where its own does well or no other does plainly less harm. Never
        `Fill.PLAIN`.
    reason : str
        What the fault is and why the better fill does better, with the figures; empty where nothing is the
        matter.
    why : str
        The second part alone; empty where no fill is better.
    """

    harm: float
    fault: str
    better: Fill | None
    reason: str
    why: str


def harms(figures: EdgeFigures, fill: Fill) -> dict[str, float]:
    """What a fill does with what is beside the front edge, fault by fault.

    Mirror shows shapes twice and turns slanted lines back. Several such faults give a side away though none
    of them is plain by itself, so the largest counts with the others. Fade is a mirror that grows faint
    towards the wall: twins are fainter, a bend at the edge is not. Run-on cuts distinct things or takes them
    off the face, which is seen soonest at the top. Drawn-out turns narrow things at the edge into streaks,
    and lets a slanted line run straight out, which is half a bend. Continued lines are judged as they are
    laid: by streaks, by bends at the edge, and by stubs of what the edge cuts; where they are a mirror, as a
    mirror. A plain side has no such fault.

    Parameters
    ----------
    figures : EdgeFigures
    fill : Fill

    Returns
    -------
    dict of str to float
        By figure, 0 to 1; `HINT_HARM` where a fault begins to be seen.

    Examples
    --------
    >>> from pycore.conventions import Side
    >>> harms(EdgeFigures(Side.LEFT, busy=0.1, doubled=0.2, broken=0.9, cut=0.3), Fill.RUN_ON)
    {'cut': 0.3}
    """
    if fill in (Fill.MIRROR, Fill.FADE) or (fill is Fill.CONTINUED and figures.mirrored):
        mirrored = {name: _scaled(figures, name) for name in ("doubled", "broken", "chevrons", "repeated")}
        if fill is Fill.FADE:
            return _together({name: _FAINT[name] * mirrored[name] for name in mirrored})
        return _together(mirrored)
    if fill is Fill.RUN_ON:
        seen_from = _CUT_SEEN_AT_TOP if figures.side is Side.TOP else _SEEN_FROM["cut"]
        return {"cut": _on_scale(figures.cut, seen_from)}
    if fill is Fill.DRAWN_OUT:
        return {"streaked": _scaled(figures, "streaked"), "broken": 0.5 * _scaled(figures, "broken")}
    if fill is Fill.CONTINUED:
        bent, stub = _scaled(figures, "bent"), figures.severed * max(0.0, 1 - figures.busy / _CALM)
        found = {"severed": max(bent, stub)} if figures.severed >= _SEVERED_FROM else {"bent": bent}
        found["smeared"] = _scaled(figures, "smeared")
        return {name: max(_CONTINUED_HARM, harm) for name, harm in found.items()}
    return {"": _PLAIN_HARM}


#: How much of a mirror's fault a fade still shows.
_FAINT: Final = {"doubled": 0.7, "broken": 0.9, "chevrons": 0.9, "repeated": 0.7}


def _together(found: dict[str, float]) -> dict[str, float]:
    """Faults with the largest standing for all: they add up as lengths at right angles do.

    Together they are hinted at; only one that is plain by itself is watched.
    """
    largest = max(found, key=lambda name: found[name])
    whole = min(math.hypot(*found.values()), WATCH_HARM - 0.001)
    return {**found, largest: max(found[largest], whole)}


def _scaled(figures: EdgeFigures, name: str) -> float:
    """A figure on the scale of harm: `HINT_HARM` where it begins to be seen, straight below it and above."""
    hidden = _BUSY_HIDES.get(name, 0.0) * figures.busy
    return _on_scale(max(0.0, float(getattr(figures, name)) - hidden), _SEEN_FROM[name])


def _on_scale(value: float, seen_from: float) -> float:
    if value < seen_from:
        return HINT_HARM * value / seen_from
    return HINT_HARM + (1 - HINT_HARM) * (value - seen_from) / (1 - seen_from)


def advise(figures: EdgeFigures, fill: Fill) -> Advice:
    """Judge a side's fill and name a better one where there is one.

    Parameters
    ----------
    figures : EdgeFigures
    fill : Fill
        The side's own.

    Returns
    -------
    Advice

    Examples
    --------
    >>> from pycore.conventions import Side
    >>> broken = EdgeFigures(Side.LEFT, busy=0.1, doubled=0.0, broken=0.9, cut=0.1)
    >>> found = advise(broken, Fill.MIRROR)
    >>> found.better.value, found.fault
    ('run-on', 'broken')
    >>> advise(broken, Fill.RUN_ON).better is None
    True
    """
    own = harms(figures, fill)
    fault = max(own, key=lambda name: own[name])
    harm = own[fault]
    if fault == "chevrons":
        # A shape's own outlines are slanted, at the edge or further in, and so is one line that breaks: that
        # is what is spoken of.
        fault = next((one for one in ("doubled", "broken", "repeated") if own[one] >= HINT_HARM), fault)
    if harm < HINT_HARM:
        return Advice(harm=harm, fault="", better=None, reason="", why="")
    better, shows = _better(figures, harm)
    # What is seen is named: a side that was to be continued may be a mirror.
    seen = Fill.MIRROR if fill is Fill.CONTINUED and figures.mirrored else fill
    fill_name = say("“{fill}”", fill=lowered(say(FILL_NAMES[seen])))
    reason = say(_FAULTS[fault], value=getattr(figures, fault), fill=fill_name)
    why = "" if better is None else say(shows, **_shown_figures(figures))
    return Advice(
        harm=harm, fault=fault, better=better, reason=f"{reason}; {why}" if why else reason, why=why
    )


def _better(figures: EdgeFigures, harm: float) -> tuple[Fill | None, str]:
    """The fill that does plainly less than a harm, and the words that say why."""
    worst = {one: max(harms(figures, one).values()) for one in _ORDER}
    less = {one: found for one, found in worst.items() if found <= harm - _LESS}
    if figures.uneven >= _UNEVEN:
        less.pop(Fill.DRAWN_OUT, None)
    for one, found in less.items():
        if found < HINT_HARM:
            return one, _REASONS[one]
    if less.get(Fill.RUN_ON, 1.0) < _CUT_STILL_BETTER:
        return Fill.RUN_ON, _STILL_CUTS
    return None, ""


def _shown_figures(figures: EdgeFigures) -> dict[str, float]:
    """What the reasons quote."""
    names = ("busy", "doubled", "broken", "cut", "bent", "smeared", "streaked")
    return {name: getattr(figures, name) for name in names}


_FAULTS: Final = {
    "streaked": mark(
        "narrow things lie at the front edge, and {fill} makes streaks of them ({value:.2f} of 1)"
    ),
    "doubled": mark("a shape stands near the front edge ({value:.2f} of 1), and {fill} shows it twice"),
    "broken": mark("a line meets the front edge at a slant ({value:.2f} of 1), and {fill} bends it there"),
    "cut": mark(
        "something distinct stands there ({value:.2f} of 1), and {fill} cuts it or takes it off the face"
    ),
    "chevrons": mark("slanted lines lie at the front edge ({value:.2f} of 1), and {fill} turns them back"),
    "repeated": mark(
        "something stands further in over plain ground ({value:.2f} of 1), and {fill} shows it again"
    ),
    "smeared": mark("{fill} draws detail out into streaks ({value:.2f} of 1)"),
    "bent": mark("{fill} bends a line at the front edge ({value:.2f} of 1)"),
    "severed": mark(
        "the front edge cuts something distinct ({value:.2f} of 1), and {fill} shows a stub of it"
    ),
}

_REASONS: Final = {
    Fill.MIRROR: mark("little there shows twice ({doubled:.2f}) or breaks ({broken:.2f})"),
    Fill.DRAWN_OUT: mark("what lies at the edge makes few streaks (streaked {streaked:.2f})"),
    Fill.RUN_ON: mark("little that is distinct goes round the edge (cut {cut:.2f})"),
    Fill.FADE: mark("fading shows less of it (doubled {doubled:.2f})"),
    Fill.CONTINUED: mark(
        "lines go on as they run (bent {bent:.2f}, smeared {smeared:.2f}), though it is made up"
    ),
}

#: Where what the picture cuts as it runs on is seen.
_STILL_CUTS: Final = mark("what it cuts is seen less (cut {cut:.2f})")
