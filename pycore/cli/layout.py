"""`tuckfold layout`: sizes, sheet fit, and what becomes of the picture."""

from __future__ import annotations

import argparse
import json
from typing import Any

from pycore.cli.job_options import add_job_options, job_and_notes
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.picture_option import add_picture, picture_from
from pycore.contract.job import Job
from pycore.contract.notes import worst_first
from pycore.layout.largest_face import LargestFace, LengthUnit
from pycore.layout.report import Layout
from pycore.layout.sheet import SheetFit
from pycore.tasks.layout import lay_out
from pycore.tasks.propose_face import propose_face


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
    lines = [f"{note.message} {note.remedy}" for note in verdict] or [_fits(job, sheet)]
    lines += [
        "",
        f"largest face       {_face_words(largest, of_picture=use is not None)}",
        f"largest depth      {_or_none(sheet.largest_depth_mm)} with this turn-over",
        f"largest turn-over  {_or_none(sheet.largest_turnover_mm)} with these bars",
        "",
        f"face               {job.face.width_mm:g} x {job.face.height_mm:g} mm, "
        f"bars {job.bars.depth_mm:g} mm deep",
        f"face as printed    {_size(flat.face_zone_mm)}, with the allowance for the canvas's thickness",
        f"inked              {_size(flat.inked_mm)}",
        f"canvas to cut      {_size(flat.canvas_mm)}; the canvas alone weighs {flat.weight_g:.0f} g",
        f"free on the {_loaded(job)}  {_size(sheet.slack_mm)}; within margins {_size(sheet.ink_slack_mm)}",
    ]
    if layout.wall_mm is not None:
        lines += _group_lines(job, layout, layout.wall_mm)
    if use is not None:
        lines += [
            f"picture            {use.effective_ppi:.0f} pixels per inch on the face",
            f"cropped away       {use.cut_away_share:.1%}; on the sides {use.run_on_share:.1%}",
        ]
    others = note_lines(note for note in layout.notes if note.code != "sheet-short")
    return "\n".join([*lines, *([""] if others else []), *others])


def _face_words(largest: LargestFace | None, *, of_picture: bool) -> str:
    if largest is None:
        return "none of this shape fits with these bars and this turn-over"
    shape = "the picture's" if of_picture else "this"
    size = f"{largest.width_mm:g} x {largest.height_mm:g} mm"
    return f"{size} of {shape} shape, with these bars and this turn-over"


def _loaded(job: Job) -> str:
    return "roll" if job.sheet.height_mm is None else "sheet"


def _fits(job: Job, sheet: SheetFit) -> str:
    sideways = ", turned sideways" if sheet.turned else ""
    if job.sheet.height_mm is None:
        return (
            f"The canvas fits the {job.sheet.width_mm:g} mm roll{sideways}; "
            f"{sheet.length_mm:.1f} mm are cut from it."
        )
    return f"The canvas fits the {job.sheet.width_mm:g} x {job.sheet.height_mm:g} mm sheet{sideways}."


def _group_lines(job: Job, layout: Layout, wall_mm: tuple[float, float]) -> list[str]:
    group, plan = job.group, layout.plan
    lines = [
        f"group              {group.panels} panels {group.hung.value}, {group.gap_mm:g} mm apart, "
        f"the picture {group.across_gap.value}: {_size(wall_mm)} of wall"
    ]
    if plan is None:
        return lines
    turned = ", turned sideways" if plan.turned else ""
    if job.sheet.height_mm is None:
        lines.append(f"plan               {plan.length_mm:.1f} mm cut from the roll for all{turned}")
    else:
        lines.append(
            f"plan               {len(plan.sheets)} sheet{'s' if plan.sheets[1:] else ''} for all{turned}"
        )
    for number, sheet in enumerate(plan.sheets, start=1):
        places = "; ".join(
            f"panel {one.panel} at {one.position_mm[0]:.1f}, {one.position_mm[1]:.1f} mm" for one in sheet
        )
        lines.append(f"  sheet {number}          {places}")
    return lines


def _size(pair: tuple[float, float]) -> str:
    return f"{pair[0]:.1f} x {pair[1]:.1f} mm"


def _or_none(length_mm: float | None) -> str:
    return "none fits" if length_mm is None else f"{int(length_mm * 10 + 1e-6) / 10:.1f} mm"
