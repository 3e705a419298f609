"""`tuckfold plan`: many jobs on sheets and rolls, the cuts that part them, and what the canvas costs."""

from __future__ import annotations

import argparse
import json
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, Final

from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import blaming, job_text_of, numbers_from, words_from
from pycore.cli.options.named_files import file_bytes
from pycore.cli.options.plan import plan_options_tree
from pycore.cli.options.presets import presets_from
from pycore.contract.check import read_job
from pycore.contract.presets import LIST_OF, PresetKind, Presets, entries
from pycore.errors import FieldError, TuckfoldError, shown
from pycore.plan.check import check_copies, check_options
from pycore.plan.options import LONGEST_MM, MARGIN_MM, PlanJob
from pycore.plan.result import CutWay, Plan, PlannedCut, PlannedSheet
from pycore.speech import mark, say
from pycore.tasks.plan import draw_plan, plan_jobs
from pycore.tasks.presets import preset_stock

#: Sizes; anything else is a name, where there are presets.
_SIZE: Final = re.compile(r"[\d.\s]+(?:[xX][\d.\s]+)*")

DESCRIPTION = say("Without --sheet and --roll each job lies on its own sheet or roll.")


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add = command.add_argument
    add("jobs", metavar="JOBS", nargs="+", help=say("job files (JSON) or bundles (.zip)"))
    several: dict[str, Any] = {"action": "append", "default": []}
    sheet_help = say("a sheet, mm, or the name of one in --presets; may be given several times")
    add("--sheet", metavar="WIDTHxHEIGHT", help=sheet_help, **several)
    roll_help = say("a roll, mm, or the name of one in --presets; may be given several times")
    add("--roll", metavar="WIDTH", help=roll_help, **several)
    add("--presets", metavar="FILE", help=say("your own sheets and rolls with their prices (JSON)"))
    add(
        "--margin",
        metavar="MM",
        help=say(
            "unprintable margins in mm: one number, or top,right,bottom,left; else {margin_mm:g}",
            margin_mm=MARGIN_MM,
        ),
    )
    add(
        "--longest",
        metavar="MM",
        type=float,
        help=say(
            "the longest piece of a roll that is printed at once, mm; else {longest_mm:g}",
            longest_mm=LONGEST_MM,
        ),
    )
    add("--gap", metavar="MM", type=float, help=say("canvas left between two pieces, mm; else 0"))
    add("--knife", metavar="MM", type=float, help=say("width that a cut takes, within the gap, mm; else 0"))
    add("--price", metavar="MONEY", type=float, help=say("your price of a square metre of canvas"))
    add("--no-turn", action="store_true", help=say("turn no piece, because the weave differs by direction"))
    add(
        "--copies",
        metavar="[JOB=]COUNT",
        help=say("copies of every job, or of the one of that name; may be given several times"),
        **several,
    )
    add(
        "--pin",
        metavar="PIECE=SHEET,X,Y[,turned]",
        help=say(
            "a piece lies there: sheet number, mm from its left and top edge; may be given several times"
        ),
        **several,
    )
    add(
        "--options",
        metavar="FILE",
        help=say("all these choices in a file (JSON); options given here come first"),
    )
    add("--out", metavar="FILE.svg", help=say("save a drawing to scale"))
    add("--json", action="store_true", help=say("print one JSON object"))


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
        A job, an option or a file cannot be used.
    """
    wanted = check_options(_tree(options))
    plan = plan_jobs(_jobs(options), options=wanted)
    if options.out is not None:
        draw_plan(plan, Path(options.out))
    if options.json:
        return json.dumps(plan.model_dump(mode="json", exclude_none=True))
    return "\n".join(_prose(plan))


def _jobs(options: argparse.Namespace) -> list[PlanJob]:
    """The job files with their copies. A job without a name has that of its file."""
    found = []
    for name in options.jobs:
        try:
            job = read_job(job_text_of(file_bytes(name, field="JOBS")))
        except UnicodeDecodeError as wrong:
            raise FieldError(
                field="JOBS",
                expected=say("job files (JSON in UTF-8)"),
                got=say("{name!r}, which is not text", name=name),
                remedy=say("check the name"),
            ) from wrong
        except TuckfoldError as wrong:
            if wrong.field == "JOBS":
                raise
            raise wrong.about(wrong.field, file=name) from wrong
        found.append((job.name or Path(name).stem, job))
    every, own = _copies(options.copies, [name for name, _ in found])
    return [PlanJob(name=name, job=job, copies=own.get(name, every)) for name, job in found]


def _copies(texts: Iterable[str], names: list[str]) -> tuple[int, dict[str, int]]:
    every, own = 1, {}
    for text in texts:
        name, equals, count = text.rpartition("=")
        if equals and name not in names:
            raise FieldError(
                field="--copies",
                expected=say("the name of a job"),
                got=shown(name),
                remedy=say("write the name that the job file holds, or the file's without its ending"),
            )
        copies = check_copies(_number(count, option="--copies", example="--copies 3"))
        if equals:
            own[name] = copies
        else:
            every = copies
    return every, own


def _tree(options: argparse.Namespace) -> dict[str, Any]:
    tree = {} if options.options is None else plan_options_tree(options.options, field="--options")
    given = {"gap_mm": options.gap, "knife_mm": options.knife, "price_per_m2": options.price}
    tree |= {name: value for name, value in given.items() if value is not None}
    if options.no_turn:
        tree["turning"] = "never"
    presets = Presets() if options.presets is None else presets_from(options)
    stocks = [_sheet_stock(text, presets) for text in options.sheet]
    stocks += [_roll_stock(text, presets) for text in options.roll]
    if stocks:
        tree["stocks"] = stocks
    if options.margin is not None:
        _change_all(tree, "--margin", {"margin_mm": _margins(options.margin)})
    if options.longest is not None:
        _change_all(tree, "--longest", {"longest_mm": options.longest})
    if options.pin:
        tree["pins"] = [_pin(text) for text in options.pin]
    return tree


def _change_all(tree: Mapping[str, Any], option: str, change: Mapping[str, Any]) -> None:
    if not tree.get("stocks"):
        raise FieldError(
            field=option,
            expected=say("given with --sheet or --roll"),
            got=option,
            remedy=say("name a sheet or a roll too"),
            said=say(
                "{option} goes with --sheet or --roll: a job's own sheet has margins of its own.",
                option=option,
            ),
        )
    for stock in tree["stocks"]:
        stock.update(change)


def _sheet_stock(text: str, presets: Presets) -> dict[str, Any]:
    own = _own_stock(text, presets, PresetKind.SHEET)
    if own is not None:
        return own
    sizes = [_number(one, option="--sheet", example="--sheet 610x914") for one in text.lower().split("x")]
    if len(sizes) != 2:
        raise FieldError(
            field="--sheet",
            expected=say("a width and a height in mm"),
            got=shown(text),
            remedy=say("write for example --sheet 610x914"),
        )
    return {"width_mm": sizes[0], "height_mm": sizes[1]}


def _roll_stock(text: str, presets: Presets) -> dict[str, Any]:
    own = _own_stock(text, presets, PresetKind.ROLL)
    return own or {"width_mm": _number(text, option="--roll", example="--roll 1118")}


def _own_stock(text: str, presets: Presets, kind: PresetKind) -> dict[str, Any] | None:
    """The sheet or roll of that name. None: the text is a size."""
    names = {entry.name for entry in entries(presets, kind)}
    if text not in names and (not names or _SIZE.fullmatch(text)):
        return None
    with blaming(f"--{kind.value}", LIST_OF[kind]):
        return preset_stock(presets, kind=kind, name=text).model_dump(mode="json", exclude_none=True)


def _margins(text: str) -> list[float]:
    found = numbers_from(text, option="--margin", expected=say("margins in mm"), example=say("3 or 3,3,20,3"))
    if len(found) not in (1, 4):
        raise FieldError(
            field="--margin",
            expected=say("one number, or four: top, right, bottom, left"),
            got=shown(text),
            remedy=say("write for example 3 or 3,3,20,3"),
        )
    return found * 4 if len(found) == 1 else found


def _pin(text: str) -> dict[str, Any]:
    name, equals, place = text.rpartition("=")
    words = words_from(place)
    turned = words[3:] == ["turned"]
    if not equals or len(words) not in (3, 4) or (words[3:] and not turned):
        raise FieldError(
            field="--pin",
            expected=say("PIECE=SHEET,X,Y or PIECE=SHEET,X,Y,turned"),
            got=shown(text),
            remedy=say('write for example --pin "Low tide=1,0,250"'),
        )
    sheet, x_mm, y_mm = (_number(one, option="--pin", example='"Low tide=1,0,250"') for one in words[:3])
    return {"piece": name, "sheet": sheet, "x_mm": x_mm, "y_mm": y_mm, "turned": turned}


def _number(text: str, *, option: str, example: str) -> float | int:
    (found,) = numbers_from(text.strip(), option=option, expected=say("numbers"), example=example)
    return int(found) if found.is_integer() else found


def _prose(plan: Plan) -> Iterator[str]:
    on = plan.figures
    places = ", ".join(_count(sum(one.is_roll is roll for one in plan.sheets), word) for roll, word in _KINDS)
    yield say(
        "{count} on {places}, {count2}.",
        count=_count(on.pieces, "canvas"),
        places=places.strip(", "),
        count2=_count(on.cuts, "cut"),
    )
    yield ""
    if on.roll_length_mm:
        yield say("off the roll       {roll_length_mm:.1f} mm", roll_length_mm=on.roll_length_mm)
    yield say(
        "canvas taken       {stock_m2:.3f} m2; rows and columns take {rows_m2:.3f} m2",
        stock_m2=on.stock_m2,
        rows_m2=on.rows_m2,
    )
    yield say(
        "used               {used_m2:.3f} m2; waste {waste_m2:.3f} m2, {waste_share:.1%}",
        used_m2=on.used_m2,
        waste_m2=on.waste_m2,
        waste_share=on.waste_share,
    )
    yield say("lower bound        {least_m2:.3f} m2: no plan takes less", least_m2=on.least_m2)
    if on.cost is not None:
        yield say("cost               {cost:.2f}", cost=on.cost)
    for sheet in plan.sheets:
        yield ""
        yield from _sheet_lines(sheet)
    notes = note_lines(plan.notes)
    if notes:
        yield ""
        yield from notes


_KINDS = ((False, "sheet"), (True, "length of roll"))


#: Each word with a number before it, for one and for more.
_COUNTED = {
    "canvas": (mark("{number} canvas"), mark("{number} canvases")),
    "cut": (mark("{number} cut"), mark("{number} cuts")),
    "sheet": (mark("{number} sheet"), mark("{number} sheets")),
    "length of roll": (mark("{number} length of roll"), mark("{number} lengths of roll")),
}


def _count(number: int, word: str) -> str:
    if number == 0:
        return ""
    one, several = _COUNTED[word]
    return say(one if number == 1 else several, number=number)


def _sheet_lines(sheet: PlannedSheet) -> Iterator[str]:
    kind = "length" if sheet.is_roll else "sheet"
    yield say(
        "{kind} {number}: {stock}, {width_mm:g} x {height_mm:.1f} mm",
        kind=kind,
        number=sheet.number,
        stock=sheet.stock,
        width_mm=sheet.width_mm,
        height_mm=sheet.height_mm,
    )
    wide = max(len(piece.name) for piece in sheet.pieces)
    for piece in sheet.pieces:
        yield say(
            "  {name:s}  at {x_mm:.1f}, {y_mm:.1f} mm, {width_mm:.1f} x {height_mm:.1f} mm{turned}{pinned}",
            name=f"{piece.name:<{wide}}",
            x_mm=piece.x_mm,
            y_mm=piece.y_mm,
            width_mm=piece.width_mm,
            height_mm=piece.height_mm,
            turned=say(", turned") if piece.turned else "",
            pinned=say(", pinned") if piece.pinned else "",
        )
    for cut in sheet.cuts:
        yield _cut_line(cut)


def _cut_line(cut: PlannedCut) -> str:
    is_across = cut.way is CutWay.ACROSS
    at_mm, axis = (cut.start_mm[1], 0) if is_across else (cut.start_mm[0], 1)
    edge, way = ("top", "across") if is_across else ("left", "down")
    waste = say(", waste off") if cut.trims else ""
    return say(
        "  cut {number} {way}, {at_mm:.1f} mm from the {edge}, from {start_mm:.1f} to {end_mm:.1f} mm{waste}",
        number=cut.number,
        way=way,
        at_mm=at_mm,
        edge=edge,
        start_mm=cut.start_mm[axis],
        end_mm=cut.end_mm[axis],
        waste=waste,
    )
