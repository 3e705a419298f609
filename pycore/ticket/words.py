"""What the ticket says of sizes, of what to load, of printing and of colours."""

from __future__ import annotations

from typing import Final

from pycore.client.words import inches, size_words
from pycore.colour.mapping.clip_report import ClipGroup, ClipReport
from pycore.colour.mapping.intent_advice import INTENT_NAMES
from pycore.contract.job import Convert, Job
from pycore.conventions import EQUAL_MM
from pycore.layout.flat import flat_sizes
from pycore.layout.group import group_size_mm
from pycore.layout.plan import SheetPlan
from pycore.layout.sheet import SheetFit
from pycore.printing.pdf.letters import lettered
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.speech import say
from pycore.speech.rounding import written

#: What would be rounded to nothing; a group that is listed has some.
_LEAST_SHARE: Final = 0.0005

PRACTICE: Final = say("(common practice)")
DELTA_E: Final = "\N{GREEK CAPITAL LETTER DELTA}E00"

_TIMES: Final = "\N{MULTIPLICATION SIGN}"


def mm_words(length_mm: float) -> str:
    """A length in mm, as exactly as a rule is read.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    str

    Examples
    --------
    >>> mm_words(38), mm_words(345.949)
    ('38 mm', '345.9 mm')
    """
    return say("{plain} mm", plain=plain(length_mm))


def plain(length_mm: float) -> str:
    """A length in mm to a tenth, without its unit.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    str

    Examples
    --------
    >>> plain(38), plain(345.949)
    ('38', '345.9')
    """
    text = written(length_mm, ".1f")
    return text.removesuffix(".0")


def exact(length_mm: float) -> str:
    """A length that the job gives, in mm, with all its digits.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    str

    Examples
    --------
    >>> exact(300.0), exact(25.37)
    ('300', '25.37')
    """
    return f"{length_mm:.10g}"


def size_rows(job: Job) -> list[tuple[str, str, str]]:
    """The sizes: what, in mm, in inches.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of (str, str, str)

    Examples
    --------
    >>> [row[0] for row in size_rows(Job())]
    ['Face', 'Bar depth', 'Turn-over on the back', 'Bleed on to the back', 'Inked', 'Canvas, trimmed']
    """
    flat, face = flat_sizes(job), (job.face.width_mm, job.face.height_mm)
    rows = [_pair(say("Face"), *face, given=True)]
    if job.group.panels > 1:
        rows = [_pair(say("Face, each of {panels} panels", panels=job.group.panels), *face, given=True)]
        rows += [_one(say("Gap"), job.group.gap_mm), _pair(say("Together"), *group_size_mm(job))]
    rows += [
        _one(say("Bar depth"), job.bars.depth_mm),
        _one(say("Turn-over on the back"), job.wrap.turnover_mm),
        _one(say("Bleed on to the back"), job.wrap.ink_over_mm),
        _pair(say("Inked"), *flat.inked_mm),
        _pair(say("Canvas, trimmed"), *flat.canvas_mm),
    ]
    if job.canvas.stretch_percent != (0.0, 0.0):
        across, down = job.canvas.stretch_percent
        rows.append(
            (say("Canvas gives"), say("{across:g} % across, {down:g} % down", across=across, down=down), "")
        )
    return rows


def load_words(job: Job, fit: SheetFit, plan: SheetPlan | None) -> list[str]:
    """What to load in the printer, and which way.

    Parameters
    ----------
    job : Job
        A checked job.
    fit : SheetFit
        Of one canvas.
    plan : SheetPlan or None
        Of a group.

    Returns
    -------
    list of str
        Sentences.
    """
    if not fit.fits:
        held = "sheet" if job.sheet.height_mm is not None else "roll"
        return [
            say("Do not print yet: the {held} does not hold this canvas.", held=held),
            _lack_words(fit),
        ]
    sheet, turned = job.sheet, fit.turned if plan is None else plan.turned
    count = 1 if plan is None else len(plan.sheets)
    if sheet.height_mm is None:
        length = fit.length_mm if plan is None else plan.length_mm
        said = [
            say(
                "Load the roll, {exact} mm ({inches} in) wide; {mm_words} ({inches2} in) of it are cut.",
                exact=exact(sheet.width_mm),
                inches=inches(sheet.width_mm),
                mm_words=mm_words(length),
                inches2=inches(length),
            )
        ]
        way = say("sideways") if turned else say("upright")
        said.append(
            say("The canvas lies {turned} on it, as drawn.", turned=way)
            if plan is None
            else say("Each print file is one canvas; all lie {turned} on it, as drawn.", turned=way)
        )
    else:
        size = size_words(sheet.width_mm, sheet.height_mm)
        said = [
            say(
                "Load {words} of {size}.",
                words=say("a sheet") if count == 1 else say("{count} sheets", count=count),
                size=size,
            )
        ]
        said.append(_sheet_words(turned=turned, shared=plan is not None and len(plan.sheets[0]) > 1))
    top, right, bottom, left = (exact(one) for one in sheet.margin_mm)
    said.append(
        say(
            "The printer leaves bare: top {top}, right {right}, bottom {bottom}, left {left} "
            "mm of the {loaded}.",
            top=top,
            right=right,
            bottom=bottom,
            left=left,
            loaded="roll" if sheet.height_mm is None else "sheet",
        )
    )
    return said


def _sheet_words(*, turned: bool, shared: bool) -> str:
    if shared:
        return (
            say("Load the sheet sideways; each print file is one canvas and lies as drawn.")
            if turned
            else say("Load the sheet upright; each print file is one canvas and lies as drawn.")
        )
    return (
        say("Load the sheet sideways: the canvas fits turned sideways.")
        if turned
        else say("Load the sheet upright, as it is drawn here.")
    )


def print_steps(job: Job) -> list[str]:
    """How to print, step by step.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of str

    Examples
    --------
    >>> print_steps(Job())[0]
    'Print at 100 percent (“actual size”), with no scaling and no fitting to the page.'
    """
    converts = job.print.convert is Convert.CONVERT
    files = (
        say("the print file")
        if job.group.panels == 1
        else say("both print files")
        if job.group.panels == 2
        else say("all {panels} print files", panels=job.group.panels)
    )
    return [
        say("Print at 100 percent (“actual size”), with no scaling and no fitting to the page."),
        say(
            "Switch colour management off in the printing program and in the driver: the file "
            "is converted. No second conversion."
        )
        if converts
        else say(
            "Convert the colours once: either in the printing program or in the driver. No second conversion."
        ),
        say(
            "Choose the paper setting of your canvas; a matte fine-art setting is a common "
            "stop-gap where the printer has none for canvas {practice}.",
            practice=PRACTICE,
        ),
        say(
            "Print {files} ({ppi:g} ppi, {bits} bits a channel); measure the face on the print: {mm_pair}.",
            files=files,
            ppi=job.print.ppi,
            bits=job.print.bits,
            mm_pair=mm_pair(*flat_sizes(job).face_zone_mm),
        ),
    ]


def mm_pair(width_mm: float, height_mm: float) -> str:
    """A size in mm to a tenth, width first.

    Parameters
    ----------
    width_mm, height_mm : float

    Returns
    -------
    str

    Examples
    --------
    >>> mm_pair(300.9, 200).isascii()
    False
    """
    return say("{plain} {times} {plain2} mm", plain=plain(width_mm), times=_TIMES, plain2=plain(height_mm))


def colour_rows(job: Job, profile: CanvasProfile, report: ClipReport) -> list[tuple[str, str]]:
    """Profile, intent, and how much lies outside the gamut.

    Parameters
    ----------
    job : Job
        A checked job.
    profile : CanvasProfile
    report : ClipReport
        After bringing in.

    Returns
    -------
    list of (str, str)
    """
    colour = job.colour
    black = "with" if colour.black_point_compensation else "without"
    rows = [
        (
            say("Profile"),
            say("Illustrative matte canvas (invented, not measured)")
            if profile.illustration
            else lettered(profile.description),
        ),
        (
            say("Intent"),
            say(
                "{intent_names}, {black} black point compensation",
                intent_names=INTENT_NAMES[colour.intent],
                black=black,
            ),
        ),
        (
            say("File"),
            say("converted to the profile")
            if job.print.convert is Convert.CONVERT
            else say("in the picture's own colours"),
        ),
    ]
    if colour.bring_in > 0:
        rows.append(
            (say("Brought in"), say("{percent:.0f} % of what lies outside", percent=100 * colour.bring_in))
        )
    outside = say(
        "{percent:.1f} % of what is seen, by more than {threshold_de:g} {delta_e}",
        percent=100 * report.outside_share,
        threshold_de=report.threshold_de,
        delta_e=DELTA_E,
    )
    rows.append((say("Out of gamut"), outside if report.outside_share > 0 else say("nothing that counts")))
    return rows


def group_words(group: ClipGroup) -> str:
    """A group of colours out of gamut: its name, its share, by how much on average and at worst.

    Parameters
    ----------
    group : ClipGroup

    Returns
    -------
    str
    """
    return say(
        "{name}: {share}, {mean_de:.1f}, {worst_de:.1f}",
        name=group.name,
        share=say("< 0.1 %")
        if group.share < _LEAST_SHARE
        else say("{percent:.1f} %", percent=100 * group.share),
        mean_de=group.mean_de,
        worst_de=group.worst_de,
    )


def _lack_words(fit: SheetFit) -> str:
    """What the sheet lacks; where neither way is short, its margins are too uneven."""
    across, along = (0.0 if one <= EQUAL_MM else one for one in fit.short_mm)
    if across and along:
        return say(
            "It lacks {mm_words} across and {mm_words2} along.",
            mm_words=mm_words(across),
            mm_words2=mm_words(along),
        )
    if across:
        return say("It lacks {mm_words} across.", mm_words=mm_words(across))
    if along:
        return say("It lacks {mm_words} along.", mm_words=mm_words(along))
    return say("The margins are so uneven that ink falls on one of them wherever the canvas lies.")


def _one(term: str, length_mm: float) -> tuple[str, str, str]:
    return term, say("{exact} mm", exact=exact(length_mm)), say("{inches} in", inches=inches(length_mm))


def _pair(term: str, wide: float, high: float, *, given: bool = False) -> tuple[str, str, str]:
    said = (
        say("{exact} {times} {exact2} mm", exact=exact(wide), times=_TIMES, exact2=exact(high))
        if given
        else mm_pair(wide, high)
    )
    return (
        term,
        said,
        say("{inches} {times} {inches2} in", inches=inches(wide), times=_TIMES, inches2=inches(high)),
    )
