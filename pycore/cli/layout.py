"""`tuckfold layout`: sizes, sheet fit, and what becomes of the picture."""

from __future__ import annotations

import argparse
import json
from typing import Any

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.job import add_job_options, job_and_notes
from pycore.cli.options.picture import add_picture, picture_from
from pycore.contract.job import Job
from pycore.contract.notes import worst_first
from pycore.layout.largest_face import ROLL_LONGEST_MM, LargestFace, LengthUnit
from pycore.layout.plan import SheetPlan
from pycore.layout.report import Layout
from pycore.layout.sheet import SheetFit
from pycore.layout.window import shown_ppi
from pycore.speech import mark, say
from pycore.tasks.layout import lay_out
from pycore.tasks.propose_face import SPARE_MM, propose_face


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command, is_needed=False)
    add_job_options(command)


def run(options: argparse.Namespace) -> str:
    """Run the command.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    str
        What to print.

    Raises
    ------
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job, opening = job_and_notes(options)
    picture = None if options.picture is None else picture_from(options)
    layout = lay_out(job, picture)
    layout = layout.model_copy(update={"notes": worst_first([*layout.notes, *opening])})
    largest = propose_face(job, picture, unit=LengthUnit.MM)
    if options.json:
        face = None if largest is None else largest.model_dump(mode="json")
        return json.dumps(layout_figures(layout) | {"largest_face": face})
    return _prose(job, layout, largest)


def layout_figures(layout: Layout) -> dict[str, Any]:
    """The layout as one flat JSON object.

    Parameters
    ----------
    layout : Layout

    Returns
    -------
    dict
        Lengths in mm; shares 0 to 1. `largest_depth_mm` and `largest_turnover_mm` are null where nothing
        would fit. Of a group sizes and sheet are one panel's; `wall_mm` and `plan` are all panels', the plan
        null where not even one canvas fits.

    Examples
    --------
    >>> layout_figures(lay_out(Job()))["canvas_mm"]
    (390.9, 290.9)
    """
    flat, sheet = layout.flat, layout.sheet
    figures: dict[str, Any] = {
        "canvas_mm": flat.canvas_mm,
        "inked_mm": flat.inked_mm,
        "face_zone_mm": flat.face_zone_mm,
        **sheet.model_dump(mode="json"),
        "weight_g": flat.weight_g,
    }
    if layout.wall_mm is not None:
        plan = layout.plan
        figures["wall_mm"] = layout.wall_mm
        figures["plan"] = None if plan is None else plan.model_dump(mode="json")
    if layout.use is not None:
        figures |= layout.use.model_dump(mode="json")
    figures["notes"] = plain_notes(layout.notes)
    return figures


def _prose(job: Job, layout: Layout, largest: LargestFace | None) -> str:
    flat, sheet, use = layout.flat, layout.sheet, layout.use
    verdict = [note for note in layout.notes if note.code == "sheet-short"]
    lines = [f"{note.message} {note.remedy}" for note in verdict] or [_fits(job, sheet, layout.plan)]
    lines += [
        "",
        say(
            "largest face       {face_words}",
            face_words=_face_words(largest, of_picture=use is not None, on_roll=job.sheet.height_mm is None),
        ),
        say("largest depth      {or_none} with this turn-over", or_none=_or_none(sheet.largest_depth_mm)),
        say("largest turn-over  {or_none} with these bars", or_none=_or_none(sheet.largest_turnover_mm)),
        "",
        say(
            "face               {width_mm:g} x {height_mm:g} mm, bars {depth_mm:g} mm deep",
            width_mm=job.face.width_mm,
            height_mm=job.face.height_mm,
            depth_mm=job.bars.depth_mm,
        ),
        say(
            "face as printed    {size}, with the allowance for the canvas's thickness",
            size=_size(flat.face_zone_mm),
        )
        if job.canvas.stretch_percent == (0.0, 0.0)
        else say(
            "face as printed    {size}, with the allowance for the canvas's thickness and less what it gives",
            size=_size(flat.face_zone_mm),
        ),
        say("inked              {size}", size=_size(flat.inked_mm)),
        say(
            "canvas to cut      {size}; the canvas alone weighs {weight_g:.0f} g",
            size=_size(flat.canvas_mm),
            weight_g=flat.weight_g,
        ),
        say(
            mark("free on the roll   {size}; within margins {size2}")
            if job.sheet.height_mm is None
            else mark("free on the sheet  {size}; within margins {size2}"),
            size=_size(sheet.slack_mm),
            size2=_size(sheet.ink_slack_mm),
        )
        + ("" if layout.plan is None else say(", for one canvas by itself")),
    ]
    if layout.wall_mm is not None:
        lines += _group_lines(job, layout, layout.wall_mm)
    if use is not None:
        lines += [
            say(
                "picture            {ppi} pixels per inch on the face",
                ppi=shown_ppi(use.effective_ppi),
            ),
            say(
                "cropped away       {cut_away_share:.1%}; on the sides {run_on_share:.1%}",
                cut_away_share=use.cut_away_share,
                run_on_share=use.run_on_share,
            ),
        ]
    others = note_lines(note for note in layout.notes if note.code != "sheet-short")
    return "\n".join([*lines, *([""] if others else []), *others])


def _face_words(largest: LargestFace | None, *, of_picture: bool, on_roll: bool) -> str:
    if largest is None:
        return say("none of this shape fits with these bars and this turn-over")
    size = say("{width_mm:g} x {height_mm:g} mm", width_mm=largest.width_mm, height_mm=largest.height_mm)
    if largest.crops:
        return say(
            "{size}, with these bars and this turn-over; it crops the picture, whose shape is too slender",
            size=size,
        )
    shape = say("the picture's") if of_picture else say("this")
    # One side is rounded, and some of the sheet is left: so a face that fits may be a little larger.
    words = say(
        "{size} of {shape} shape, one side in whole cm, with these bars, this turn-over and {spare_mm:g} mm "
        "to spare",
        size=size,
        shape=shape,
        spare_mm=SPARE_MM,
    )
    if on_roll and max(largest.width_mm, largest.height_mm) >= ROLL_LONGEST_MM:
        return say("{words}; bars over {longest:g} mm are rare", words=words, longest=ROLL_LONGEST_MM)
    return words


def _fits(job: Job, sheet: SheetFit, plan: SheetPlan | None) -> str:
    if plan is not None:
        return _all_fit(job, plan)
    sideways = say(", turned sideways") if sheet.turned else ""
    if job.sheet.height_mm is None:
        return say(
            "The canvas fits the {width_mm:g} mm roll{sideways}; {length_mm:.1f} mm are cut from it.",
            width_mm=job.sheet.width_mm,
            sideways=sideways,
            length_mm=sheet.length_mm,
        )
    return say(
        "The canvas fits the {width_mm:g} x {height_mm:g} mm sheet{sideways}.",
        width_mm=job.sheet.width_mm,
        height_mm=job.sheet.height_mm,
        sideways=sideways,
    )


def _all_fit(job: Job, plan: SheetPlan) -> str:
    sideways = say(", turned sideways") if plan.turned else ""
    if job.sheet.height_mm is None:
        return say(
            "The {panels} canvases fit the {width_mm:g} mm roll{sideways}; {length_mm:.1f} mm are cut "
            "from it.",
            panels=job.group.panels,
            width_mm=job.sheet.width_mm,
            sideways=sideways,
            length_mm=plan.length_mm,
        )
    return say(
        "The {panels} canvases take {sheet_count} sheet{words} of {width_mm:g} x {height_mm:g} mm{sideways}.",
        panels=job.group.panels,
        sheet_count=len(plan.sheets),
        words="s" if plan.sheets[1:] else "",
        width_mm=job.sheet.width_mm,
        height_mm=job.sheet.height_mm,
        sideways=sideways,
    )


def _group_lines(job: Job, layout: Layout, wall_mm: tuple[float, float]) -> list[str]:
    group, plan = job.group, layout.plan
    lines = [
        say(
            "group              {panels} panels {hung}, {gap_mm:g} mm apart, the picture "
            "{across_gap}: {size} of wall",
            panels=group.panels,
            hung=group.hung.value,
            gap_mm=group.gap_mm,
            across_gap=group.across_gap.value,
            size=_size(wall_mm),
        )
    ]
    if plan is None:
        return lines
    turned = say(", turned sideways") if plan.turned else ""
    if job.sheet.height_mm is None:
        lines.append(
            say(
                "plan               {length_mm:.1f} mm cut from the roll for all{turned}",
                length_mm=plan.length_mm,
                turned=turned,
            )
        )
    else:
        lines.append(
            say(
                "plan               {sheet_count} sheet{words} for all{turned}",
                sheet_count=len(plan.sheets),
                words="s" if plan.sheets[1:] else "",
                turned=turned,
            )
        )
    for number, sheet in enumerate(plan.sheets, start=1):
        places = "; ".join(
            say(
                "panel {panel} at {position_mm0:.1f}, {position_mm1:.1f} mm",
                panel=one.panel,
                position_mm0=one.position_mm[0],
                position_mm1=one.position_mm[1],
            )
            for one in sheet
        )
        lines.append(
            say("  on the roll      {places}", places=places)
            if job.sheet.height_mm is None
            else say("  sheet {number}          {places}", number=number, places=places)
        )
    return lines


def _size(pair: tuple[float, float]) -> str:
    return say("{pair0:.1f} x {pair1:.1f} mm", pair0=pair[0], pair1=pair[1])


def _or_none(length_mm: float | None) -> str:
    return (
        say("none fits")
        if length_mm is None
        else say("{length_mm:.1f} mm", length_mm=int(length_mm * 10 + 1e-06) / 10)
    )
