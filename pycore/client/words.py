"""What the client reads: sizes in mm and inches, how the piece is made, what to expect of matte canvas."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Final

from pycore.bars.weight import mass_words, whole_g
from pycore.client.offer import OfferedVariant
from pycore.contract.job import Fill, Finish, Job, OverPair, Wrap, side_fill
from pycore.conventions import MM_PER_INCH, Side
from pycore.errors import FieldError
from pycore.layout.group import group_size_mm
from pycore.speech import mark, say
from pycore.speech.rounding import written

#: Common practice, no source; our own words.
EXPECT: Final = (
    say(
        "Canvas has a weave. Close by you see its threads in the picture; from across the room, the picture."
    ),
    say("It is matte: lamps and windows do not glare in it, and it looks alike from every side."),
    say(
        "Its black is a deep charcoal and its strongest colours are quieter than those of "
        "a lit screen. What you see here allows for that."
    ),
    say(
        "It hangs in the light of your room. By warm lamps it looks warmer, in a dark "
        "corner darker than here."
    ),
    say(
        "It is stretched and folded by hand on wooden bars. A millimetre or two either "
        "way, and a slight thickness where the canvas is folded at the corners, belong to "
        "it."
    ),
    say(
        "Wood and cloth move a little with the seasons; a canvas that has become slack can "
        "be made taut again."
    ),
    say(
        "Keep it out of lasting sun, away from damp and heat; dust it with a soft dry "
        "brush, never with water."
    ),
)

SCREEN: Final = say(
    "This page is a proof, worked out for the canvas. A screen that has not been "
    "calibrated shows other colours; if one colour matters to you, ask for a printed "
    "sample."
)

ILLUSTRATION: Final = say(
    "The colours are shown as on a matte canvas in general; they were not measured on "
    "the one that will be printed."
)

#: What a client is told of each side fill.
FILL_WORDS: Final = {
    Fill.RUN_ON: say("the picture itself runs on round the edge"),
    Fill.MIRROR: say("the strip of picture beside the edge, mirrored"),
    Fill.DRAWN_OUT: say("the colours along the edge, drawn straight out"),
    Fill.PLAIN: say("one plain colour"),
    Fill.FADE: say("the picture mirrored at the edge, fading into one colour"),
    Fill.CONTINUED: say("the picture continued: made up, or mirrored where that looks better"),
}

_FINISHES: Final = {
    Finish.TUCKED: mark("folded in, out of sight, closed at the {over}"),
    Finish.LAPPED: mark("folded over, a slanting fold seen at the {over}"),
    Finish.TRIMMED: say("cut to a single layer, a fine seam along the edge"),
}

_OVER: Final = {OverPair.TOP_BOTTOM: say("top and bottom"), OverPair.LEFT_RIGHT: say("left and right")}

#: What each side is called.
SIDE_WORDS: Final = {
    Side.TOP: say("top"),
    Side.RIGHT: say("right"),
    Side.BOTTOM: say("bottom"),
    Side.LEFT: say("left"),
}

#: How an answer begins where there is nothing to choose from.
YES: Final = say("I say yes to this canvas.")

#: Of a job's facts the first ones are about the piece's name and owner.
_ABOUT_FACTS: Final = 2

_TIMES: Final = "\N{MULTIPLICATION SIGN}"

_MONTHS: Final = (
    *(say("January"), say("February"), say("March"), say("April"), say("May"), say("June")),
    *(say("July"), say("August"), say("September"), say("October"), say("November"), say("December")),
)

#: Less than this share of the picture is not worth a word.
_NOTHING_SHARE = 0.005


#: The words of every corner; a trimmed one is called alike, whichever pair it folds on to.
CORNER_WORDS: Final[Mapping[tuple[Finish, OverPair], str]] = {
    (finish, over): say(words, over=_OVER[over]) for finish, words in _FINISHES.items() for over in OverPair
}


def inches(length_mm: float) -> str:
    """A length in inches, to a hundredth, without its unit.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    str

    Examples
    --------
    >>> inches(38), inches(25.4)
    ('1.5', '1')
    """
    return written(length_mm / MM_PER_INCH, ".2f").rstrip("0").rstrip(".")


def length_words(length_mm: float) -> str:
    """A length in mm and inches.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    str
        mm to four digits.

    Examples
    --------
    >>> length_words(38)
    '38 mm (1.5 in)'
    """
    return say("{length_mm:.4g} mm ({inches} in)", length_mm=length_mm, inches=inches(length_mm))


def size_words(width_mm: float, height_mm: float) -> str:
    """A size in mm and inches, width first.

    Parameters
    ----------
    width_mm, height_mm : float

    Returns
    -------
    str
        mm to five digits.

    Examples
    --------
    >>> size_words(400, 300).endswith("11.81 in)")
    True
    """
    millimetres = say(
        "{width_mm:.5g} {times} {height_mm:.5g} mm", width_mm=width_mm, times=_TIMES, height_mm=height_mm
    )
    return say(
        "{millimetres} ({inches} {times} {inches2} in)",
        millimetres=millimetres,
        inches=inches(width_mm),
        times=_TIMES,
        inches2=inches(height_mm),
    )


def date_words(date: str) -> str:
    """A day in words.

    Parameters
    ----------
    date : str
        YYYY-MM-DD.

    Returns
    -------
    str

    Raises
    ------
    FieldError
        It is no day.

    Examples
    --------
    >>> date_words("2031-04-30")
    '30 April 2031'
    """
    try:
        day = datetime.date.fromisoformat(date)
    except ValueError as wrong:
        raise FieldError(
            field="date",
            expected=say("a day as YYYY-MM-DD"),
            got=repr(date),
            remedy=say("write for example 2031-04-30"),
        ) from wrong
    return say("{day} {month} {year:d}", day=day.day, month=_MONTHS[day.month - 1], year=day.year)


def piece_facts(variant: OfferedVariant) -> list[tuple[str, str]]:
    """The facts about a variant for the client.

    Parameters
    ----------
    variant : OfferedVariant

    Returns
    -------
    list of (str, str)
        What each fact is about, and the fact.
    """
    job, use = variant.job, variant.use
    parts = []
    if use.cut_away_share >= _NOTHING_SHARE:
        why = say("to fit the shape") if job.group.panels == 1 else say("by the shape and the gaps")
        parts.append(
            say("{percent:.0f} % of it is cropped away {why}", percent=100 * use.cut_away_share, why=why)
        )
    if use.run_on_share >= _NOTHING_SHARE:
        parts.append(say("{percent:.0f} % of it runs on round the sides", percent=100 * use.run_on_share))
    return [
        *job_facts(job)[_ABOUT_FACTS:],
        (say("Picture"), "; ".join(parts) or say("all of it is on the front")),
    ]


def job_facts(job: Job) -> list[tuple[str, str]]:
    """What a job alone tells a client: the piece, whose it is, and how it is made.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of (str, str)
        What each fact is about, and the fact; empty where the job does not say.

    Examples
    --------
    >>> [term for term, _ in job_facts(Job())]
    ['Piece', 'For', 'Size', 'Depth', 'Weight', 'Sides', 'Corners']
    """
    face = size_words(job.face.width_mm, job.face.height_mm)
    facts = [(say("Piece"), " ".join(job.name.split())), (say("For"), " ".join(job.client.split()))]
    if job.group.panels > 1:
        facts += [
            (
                say("Panels"),
                say(
                    "{panels}, each {face}, {length_words} apart",
                    panels=job.group.panels,
                    face=face,
                    length_words=length_words(job.group.gap_mm),
                ),
            ),
            (say("Together"), size_words(*group_size_mm(job))),
        ]
    else:
        facts.append((say("Size"), face))
    return [
        *facts,
        (say("Depth"), say("{length_words} off the wall", length_words=length_words(job.bars.depth_mm))),
        (
            say("Weight"),
            say("about {mass_words}, the whole piece with its bars", mass_words=mass_words(whole_g(job))),
        ),
        (say("Sides"), sides_words(job)),
        (say("Corners"), corners_words(job.wrap)),
    ]


def corners_words(wrap: Wrap) -> str:
    """Describe how the corners are folded.

    Parameters
    ----------
    wrap : Wrap
        Of a job.

    Returns
    -------
    str

    Examples
    --------
    >>> corners_words(Wrap())
    'folded in, out of sight, closed at the top and bottom'
    """
    return say(_FINISHES[wrap.finish], over=_OVER[wrap.over])


def sides_words(job: Job) -> str:
    """Describe what the sides show; side by side only where they differ.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    str

    Examples
    --------
    >>> sides_words(Job())
    'the strip of picture beside the edge, mirrored'
    """
    words = {side: say(FILL_WORDS[side_fill(job.sides, side).fill]) for side in Side}
    if len(set(words.values())) == 1:
        return words[Side.TOP]
    return "; ".join(
        say("{side}: {said}", side=say(SIDE_WORDS[side]), said=said) for side, said in words.items()
    )


def answer_lines(variant: OfferedVariant, *, letter: str, alone: bool) -> list[str]:
    """The beginning of the client's answer for a variant.

    Parameters
    ----------
    variant : OfferedVariant
    letter : str
        Its name among several.
    alone : bool
        There is no other.

    Returns
    -------
    list of str
    """
    label = " ".join(variant.label.split())
    chosen = (
        say(YES)
        if alone
        else say("I choose {letter}{label}.", letter=letter, label=f": {label}" if label else "")
    )
    return [chosen, *(f"{term}: {said}" for term, said in job_facts(variant.job) if said)]
