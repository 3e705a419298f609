"""What to watch on a layout: sheet, pixels, wrap; each with its figures and the way to mend it."""

from __future__ import annotations

from collections.abc import Iterator

from pycore.contract.job import LEAST_DEPTH_MM, Fill, Finish, Job, OverPair, side_fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.layout.sheet import SheetFit
from pycore.layout.window import PictureWindow, shown_ppi
from pycore.speech import join_said, listed, say

# Common practice, no source; the numbers are from memory.
_FINE_PPI = 150
_COARSE_PPI = 100
_DEEP_FROM_MM = 600
_SHALLOW_MM = 25
TIGHT_MM = 3
_NARROW_MM = 15

#: Of a picture that is coarse itself a file is told of where it keeps less than this share along a side.
_MOST_KEPT = 0.8

#: A crop that leaves less than this share of the picture in one direction cannot grow.
_ALL_TAKEN = 0.001
#: A print file that is moved by less lies in the middle: no sheet is fed more exactly.
_LEAST_MOVE_MM = 0.1
#: Lengths that differ by less are equal.
_EQUAL_MM = 1e-6


def layout_notes(job: Job, *, fit: SheetFit, use: PictureWindow | None) -> list[Note]:
    """Everything to watch, in the order of work; sort with `worst_first` to show it.

    Parameters
    ----------
    job : Job
        A checked job.
    fit : SheetFit
        From `fit_sheet`.
    use : PictureWindow or None
        From `picture_window`; None where no picture is open.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> from pycore.layout.sheet import fit_sheet
    >>> from pycore.contract.job import Bars
    >>> deep = Job(bars=Bars(depth_mm=50))
    >>> [note.code for note in layout_notes(deep, fit=fit_sheet(deep), use=None)]
    ['sheet-short']
    """
    notes = [*_sheet_notes(job, fit), *_wrap_notes(job), *_continued_notes(job)]
    if use is not None:
        notes += _picture_notes(job, use)
    return notes


def _sheet_notes(job: Job, fit: SheetFit) -> Iterator[Note]:
    is_roll = job.sheet.height_mm is None
    loaded = "roll" if is_roll else "sheet"
    # A roll is cut to the canvas's length: nothing can be left along it.
    spare_mm = fit.slack_mm[0] if is_roll else min(fit.slack_mm)
    if not fit.fits:
        yield Note(
            code="sheet-short",
            severity=Severity.STOP,
            place=Place.SHEET,
            message=say(
                "The {loaded} is too small for the canvas: {shortfall}.",
                loaded=loaded,
                shortfall=_shortfall(fit),
            ),
            remedy=_shorter(job, fit),
            field=_shorter_field(fit),
        )
    # Of a group the plan says what is left beside all canvases of a sheet.
    elif spare_mm < TIGHT_MM and job.group.panels == 1:
        yield tight_note(
            message=say(
                "The canvas leaves only {spare_mm:.1f} mm of the {loaded} free; if that feeds "
                "askew, the print is cut off.",
                spare_mm=spare_mm,
                loaded=loaded,
            ),
            loaded=loaded,
        )
    if fit.fits:
        off_middle = _off_middle(job, fit)
        # Panels of a group share sheets, and the plan says where each lies.
        if off_middle and job.group.panels == 1:
            yield _off_middle_note(off_middle, loaded)
        yield from _file_notes(job, fit, loaded, is_centred=not off_middle)


def tight_note(*, message: str, loaded: str) -> Note:
    """The note on what is loaded that is hardly larger than what lies on it.

    Parameters
    ----------
    message : str
    loaded : str
        The word for it.

    Returns
    -------
    Note
    """
    return Note(
        code="sheet-tight",
        severity=Severity.WATCH,
        place=Place.SHEET,
        message=message,
        remedy=say("Load a larger {loaded}, or make the turn-over narrower.", loaded=loaded),
        field="wrap.turnover_mm",
    )


def _off_middle(job: Job, fit: SheetFit) -> dict[str, tuple[float, float]]:
    """Where the canvas may not lie in the middle: its edge from the sheet's, and how far it is moved, mm."""
    edges = {}
    for edge, start, slack in zip(("left", "top"), fit.position_mm, fit.slack_mm, strict=True):
        # Along a roll nothing is left to lie in the middle of.
        is_cut = edge == "top" and job.sheet.height_mm is None
        if not is_cut and abs(start - slack / 2) > _LEAST_MOVE_MM:
            edges[edge] = (start, abs(start - slack / 2))
    return edges


def _off_middle_note(edges: dict[str, tuple[float, float]], loaded: str) -> Note:
    places = [
        say("{start:.1f} mm from the {edge} edge", start=start, edge=edge)
        for edge, (start, _) in edges.items()
    ]
    return Note(
        code="file-off-middle",
        severity=Severity.WATCH,
        place=Place.SHEET,
        message=say(
            "The ink runs {ink:.1f} mm into the margin if the print file lies in the middle of the {loaded}.",
            ink=max(moved for _, moved in edges.values()),
            loaded=loaded,
        ),
        remedy=say(
            "Print at 100 percent, with the file {places} of the {loaded}.",
            places=join_said(places, say(" and ")),
            loaded=loaded,
        ),
        field="sheet.margin_mm",
    )


def _file_notes(job: Job, fit: SheetFit, loaded: str, *, is_centred: bool) -> Iterator[Note]:
    """The print file holds the whole canvas; a printer prints what lies inside its margins."""
    top, right, bottom, left = job.sheet.margin_mm
    printable_mm = (job.sheet.width_mm - left - right, fit.length_mm - top - bottom)
    sheet_mm = (job.sheet.width_mm, fit.length_mm)
    over = [
        say(
            "{sheet:.1f} mm {way}, {printable:.1f} mm of which can be printed",
            sheet=sheet - slack,
            way=way,
            printable=printable,
        )
        for sheet, slack, printable, way in zip(
            sheet_mm, fit.slack_mm, printable_mm, ("wide", "long"), strict=True
        )
        # A roll's end is cut where the canvas ends; the printer adds its margin there.
        if sheet - slack > printable + _EQUAL_MM and not (way == "long" and job.sheet.height_mm is None)
    ]
    if over:
        yield Note(
            code="file-over-margins",
            severity=Severity.HINT,
            place=Place.SHEET,
            message=say(
                "On the {loaded} the print file is {over}; its bare edge lies on the margin.",
                loaded=loaded,
                over=join_said(over, say(", and ")),
            ),
            remedy=say(
                "Print at 100 percent, not fitted to the page, and centred; marks on that edge are left out."
            )
            if is_centred
            else say("Print at 100 percent, not fitted to the page; marks on that edge are left out."),
            field="sheet.margin_mm",
        )


def _shortfall(fit: SheetFit) -> str:
    parts = []
    for slack, ink, across in zip(fit.slack_mm, fit.ink_slack_mm, ("width", "height"), strict=True):
        if slack < 0:
            parts.append(say("{slack:.1f} mm short across its {across}", slack=-slack, across=across))
        elif ink < 0:
            parts.append(
                say("the ink runs {ink:.1f} mm into the margins across its {across}", ink=-ink, across=across)
            )
    if not parts:
        parts.append(say("the margins are so uneven that ink falls on one of them wherever it lies"))
    short = join_said(parts, say(" and "))
    return join_said([short, say(", even turned sideways")], "") if fit.turned else short


def _shorter(job: Job, fit: SheetFit) -> str:
    loaded = "roll" if job.sheet.height_mm is None else "sheet"
    ways = []
    if fit.largest_depth_mm is not None:
        ways.append(say("bars up to {down} mm deep", down=_down(fit.largest_depth_mm)))
    if fit.largest_turnover_mm is not None:
        ways.append(say("a turn-over up to {down} mm wide", down=_down(fit.largest_turnover_mm)))
    if ways:
        return say(
            "It holds {ways}; or load a larger {loaded}.", ways=join_said(ways, say(", or ")), loaded=loaded
        )
    return say(
        "One change alone is not enough: with a turn-over of {turnover_mm:g} mm even bars "
        "of {least_depth_mm:g} mm are too deep, and with bars of {depth_mm:g} mm even a "
        "turn-over of {ink_over_mm:g} mm is too wide. Make both smaller, make the face "
        "smaller, or load a larger {loaded}.",
        turnover_mm=job.wrap.turnover_mm,
        least_depth_mm=LEAST_DEPTH_MM,
        depth_mm=job.bars.depth_mm,
        ink_over_mm=job.wrap.ink_over_mm,
        loaded=loaded,
    )


def _shorter_field(fit: SheetFit) -> str:
    if fit.largest_turnover_mm is not None and fit.largest_turnover_mm >= _NARROW_MM:
        return "wrap.turnover_mm"
    if fit.largest_depth_mm is not None:
        return "bars.depth_mm"
    return "face.width_mm"


def _down(length_mm: float) -> str:
    """One decimal, never rounded up past what fits."""
    return f"{int(length_mm * 10 + 1e-6) / 10:g}"


def _wrap_notes(job: Job) -> Iterator[Note]:
    depth = job.bars.depth_mm
    longest = max(job.face.width_mm, job.face.height_mm)
    if job.wrap.ink_over_mm == 0:
        yield Note(
            code="no-ink-over",
            severity=Severity.WATCH,
            place=Place.BACK,
            message=say("The ink ends at the back edge; where the canvas lies a little askew, white shows."),
            remedy=say("Let it bleed on to the back by a few mm."),
            field="wrap.ink_over_mm",
        )
    if job.wrap.turnover_mm < _NARROW_MM:
        yield Note(
            code="turnover-narrow",
            severity=Severity.WATCH,
            place=Place.BACK,
            message=say(
                "A turn-over of {turnover_mm:g} mm leaves little to pull and to staple (common practice).",
                turnover_mm=job.wrap.turnover_mm,
            ),
            remedy=say("Make it 20 mm or wider where the sheet allows it."),
            field="wrap.turnover_mm",
        )
    if longest >= _DEEP_FROM_MM and depth < _SHALLOW_MM:
        yield Note(
            code="bars-shallow",
            severity=Severity.WATCH,
            place=Place.BACK,
            message=say(
                "Bars of {depth:g} mm bend over a span of {longest:g} mm (common practice).",
                depth=depth,
                longest=longest,
            ),
            remedy=say("Use bars of about 38 mm, or brace the frame."),
            field="bars.depth_mm",
        )
    if job.wrap.over is OverPair.LEFT_RIGHT and job.wrap.finish is not Finish.TRIMMED:
        yield Note(
            code="corners-at-the-side",
            severity=Severity.HINT,
            place=Place.CORNERS,
            message=say(
                "The folded corners lie on the left and right sides, which are seen most (common "
                "practice: on top and bottom)."
            ),
            remedy=say("Let the corners fold on to top and bottom."),
            field="wrap.over",
        )


def _continued_notes(job: Job) -> Iterator[Note]:
    sides = [side.value for side in Side if side_fill(job.sides, side).fill is Fill.CONTINUED]
    if sides:
        several = len(sides) > 1
        yield Note(
            code="continued-invented",
            severity=Severity.HINT,
            place=Place(sides[0]),
            message=say(
                "The {listed} side{several} to be continued: the lines that run into the edge go on, in "
                "colours of the strip beside it, and nothing there was photographed or painted. A side "
                "that would look no better so is a mirror.",
                listed=listed(sides),
                several=say("s are") if several else say(" is"),
            ),
            remedy=say("Tell the client, and look at it closely in the 3D view."),
            field="sides.fill",
        )


def _more_pixels(use: PictureWindow) -> str:
    """More of the picture helps only where some of it is left in both directions."""
    if max(use.window.width, use.window.height) > 1 - _ALL_TAKEN:
        return say("Make the face smaller, or use a picture with more pixels.")
    return say("Make the crop larger or the face smaller.")


def _picture_notes(job: Job, use: PictureWindow) -> Iterator[Note]:
    ppi = use.effective_ppi
    if ppi < _FINE_PPI:
        coarse = ppi < _COARSE_PPI
        yield Note(
            code="pixels-few" if coarse else "pixels-soft",
            severity=Severity.WATCH if coarse else Severity.HINT,
            place=Place.FACE,
            message=say(
                "The face gets {ppi} picture pixels per inch: {looks}, by common practice (from memory).",
                ppi=shown_ppi(ppi),
                looks=say("below 100 looks coarse") if coarse else say("100 to 150 looks soft"),
            ),
            remedy=_more_pixels(use),
            field="face.width_mm",
        )
    if job.print.ppi < _COARSE_PPI and (ppi >= _COARSE_PPI or job.print.ppi < _MOST_KEPT * ppi):
        yield Note(
            code="file-coarse",
            severity=Severity.WATCH,
            place=Place.FACE,
            message=say(
                "The print file has {file_ppi:g} pixels per inch, the picture {ppi}: {looks}, by common "
                "practice (from memory).",
                file_ppi=job.print.ppi,
                ppi=shown_ppi(ppi),
                looks=say("below 100 looks coarse"),
            ),
            remedy=say("Raise the resolution of the print file."),
            field="print.ppi",
        )
    if use.reshaped:
        yield Note(
            code="crop-reshaped",
            severity=Severity.WATCH,
            place=Place.PICTURE,
            message=say(
                "The crop has another shape than the canvas needs; the largest part of that shape "
                "in its middle is used."
            ),
            remedy=say("Set the crop again."),
            field="picture.crop",
        )
    if use.run_on_share > 0:
        sides = [side.value for side in Side if side_fill(job.sides, side).fill is Fill.RUN_ON]
        yield Note(
            code="runs-on",
            severity=Severity.HINT,
            place=Place(sides[0]),
            message=say(
                "{run_on_share:.1%} of the picture runs on round the {listed} side{words}; the "
                "face shows that much less.",
                run_on_share=use.run_on_share,
                listed=listed(sides),
                words="s" if len(sides) > 1 else "",
            ),
            remedy=say("Choose mirror or edge drawn out to keep it on the face."),
            field="sides.fill",
        )
