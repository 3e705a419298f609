"""`tuckfold wall`: the piece on a photographed wall, in the photograph's perspective and at true scale."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any, Final

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.job import add_job_options, job_from, numbers_from
from pycore.cli.options.named_files import file_bytes
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.contract.check import checked_options
from pycore.contract.notes import Note
from pycore.errors import FieldError, TuckfoldError, shown
from pycore.model.report import ModelColours
from pycore.speech import say
from pycore.tasks.wall import check_still_place, hang_on_wall, open_wall_photo, write_still
from pycore.wall.photograph import WallPhoto
from pycore.wall.report import StillReport, WallOptions

DESCRIPTION: Final = say(
    "A sheet of paper or another rectangle of known size on the wall tells scale, "
    "perspective and light. Lens distortion is ignored."
)

_USUAL: Final = WallOptions(at_mm=(0, 0))
#: The task's fields by the options that they come from.
_OPTIONS: Final = {
    "reference": "--reference",
    "corners": "--corners",
    "wall.at": "--at",
    "still": "--out",
    "in_front": "--in-front",
}
_FOUR: Final = say("four corners “x,y x,y x,y x,y”")
_EXAMPLE: Final = "812,640 1105,652 1098,1060 806,1041"


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    command.add_argument(
        "photo", metavar="PHOTO", help=say("the photograph of the wall: JPEG, PNG, TIFF or WebP")
    )
    add_job_options(command)
    command.add_argument(
        "--reference",
        metavar="SIZE",
        action="append",
        help=say(
            "what hangs on the wall: a4, letter (each also with -upright or -lying) or "
            "WIDTHxHEIGHT in mm; a4 where nothing else is named; may be given several times, "
            "each with its corners"
        ),
    )
    command.add_argument(
        "--corners",
        metavar="CORNERS",
        action="append",
        help=say(
            "the reference's upper left, upper right, lower right and lower left corner in "
            "pixels of the upright photograph, as “x,y x,y x,y x,y”; without them the paper is "
            "looked for"
        ),
    )
    command.add_argument(
        "--at",
        metavar="X,Y",
        required=True,
        help=say(
            "the middle of the face on the wall, mm from the reference's lower-left corner, x right, y up"
        ),
    )
    command.add_argument("--out", metavar="FILE", required=True, help=say("the still, a PNG or JPEG"))
    command.add_argument(
        "--room-light",
        metavar="AMOUNT",
        type=float,
        default=_USUAL.room_light,
        help=say(
            "how much of the room's brightness and tint the piece takes on, 0 to 1; at 0 it "
            "keeps the colours of the proof; {usual:g} where nothing else is named",
            usual=_USUAL.room_light,
        ),
    )
    command.add_argument(
        "--shadow",
        metavar="AMOUNT",
        type=float,
        default=_USUAL.shadow,
        help=say("the shadow's strength, 0 to 1; {usual:g} where nothing else is named", usual=_USUAL.shadow),
    )
    command.add_argument(
        "--light-from",
        metavar="DEGREES",
        type=float,
        help=say("where the light comes from, clockwise from above; without it the wall tells"),
    )
    command.add_argument(
        "--in-front",
        metavar="MASK",
        help=say("a picture of the photograph's size, white where something stands before the piece"),
    )
    command.add_argument(
        "--colours",
        choices=[one.value for one in ModelColours],
        default=_USUAL.colours.value,
        help=say(
            "filed: those of the file; printed: those of the canvas, as the proof shows them; "
            "printed where nothing else is named"
        ),
    )
    add_profile_option(command)


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
    job, out = job_from(options), Path(options.out)
    chosen = _chosen(options)
    try:
        check_still_place(out)
        photo = _photo(options.photo, "PHOTO")
        mask = None if options.in_front is None else _photo(options.in_front, "--in-front")
        hung = run_shown(
            hang_on_wall(
                job,
                picture_from(options),
                profiles_for(job, options.profile),
                photo,
                options=chosen,
                in_front=mask,
            )
        )
        written = write_still(hung, out=out)
    except TuckfoldError as wrong:
        raise wrong.about(_OPTIONS.get(wrong.field, wrong.field)) from wrong
    if options.json:
        return json.dumps(written.report.model_dump(mode="json") | {"notes": plain_notes(written.notes)})
    return _prose(written.report, written.notes, depth_mm=job.bars.depth_mm)


def _chosen(options: argparse.Namespace) -> WallOptions:
    sizes: list[str] = options.reference or [one.size for one in _USUAL.references]
    corners: list[str] = options.corners or []
    if (corners and len(corners) != len(sizes)) or (len(sizes) > 1 and not corners):
        raise FieldError(
            field="--corners",
            expected=say("given once for each of {size_count} references", size_count=len(sizes)),
            got=say("given {corner_count} times", corner_count=len(corners)),
            remedy=say("give --reference and --corners in pairs"),
        )
    values: dict[str, Any] = {
        "references": [
            {"size": size, "corners": _corners(text) if text else None}
            for size, text in zip(sizes, corners or [""], strict=True)
        ],
        "at_mm": _pair(
            options.at, option="--at", expected=say("two lengths in mm"), remedy=say("--at 1200,1450")
        ),
        "colours": options.colours,
        "room_light": options.room_light,
        "shadow": options.shadow,
        "light_from_deg": options.light_from,
    }
    return checked_options(WallOptions, values, prefix="--")


def _photo(name: str, field: str) -> WallPhoto:
    data = file_bytes(name, field=field)
    try:
        return run_shown(open_wall_photo(data, file=Path(name).name))
    except TuckfoldError as wrong:
        raise wrong.about(field) from wrong


def _corners(text: str) -> list[tuple[float, float]]:
    found = [_pair(one, option="--corners", expected=_FOUR, remedy=_EXAMPLE) for one in text.split()]
    if len(found) != 4:
        raise FieldError(
            field="--corners",
            expected=_FOUR,
            got=say("{found_count} of them", found_count=len(found)),
            remedy=say("write for example {example}", example=_EXAMPLE),
        )
    return found


def _pair(text: str, *, option: str, expected: str, remedy: str) -> tuple[float, float]:
    found = numbers_from(text, option=option, expected=expected, example=remedy)
    if len(found) != 2:
        raise FieldError(
            field=option,
            expected=expected,
            got=shown(text),
            remedy=say("write for example {remedy}", remedy=remedy),
        )
    return found[0], found[1]


def _prose(report: StillReport, notes: list[Note], *, depth_mm: float) -> str:
    known = {
        "exif": say("by the file"),
        "perspective": say("by the reference's perspective"),
        "usual": say("of a usual lens"),
    }[report.focal_from.value]
    corners = "  ".join(f"{x:.1f},{y:.1f}" for x, y in report.face_px)
    lines = [
        say(
            "Saved {file}: {still_px0} x {still_px1} pixels",
            file=report.file,
            still_px0=report.still_px[0],
            still_px1=report.still_px[1],
        ),
        say(
            "width   within {width_within_mm:.1f} mm ({uncertainty_percent:.1f} percent)",
            width_within_mm=report.width_within_mm,
            uncertainty_percent=report.uncertainty_percent,
        ),
        say("height  within {height_within_mm:.1f} mm", height_within_mm=report.height_within_mm),
        say(
            "camera  {off_normal_deg:.0f} degrees off the wall's normal, focal length "
            "{focal_px:.0f} pixels, {known}",
            off_normal_deg=report.off_normal_deg,
            focal_px=report.focal_px,
            known=known,
        ),
        say("face    {corners}", corners=corners),
        say(
            "        the front's corners in the photograph; it stands {depth_mm:g} mm in front of the wall",
            depth_mm=depth_mm,
        ),
    ]
    return "\n".join([*lines, *note_lines(notes)])
