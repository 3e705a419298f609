"""What fields are called in messages: a plain name and a unit for each field of the job."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from pycore.conventions import Side
from pycore.speech import said_again, say

_MM: Final = "mm"

#: Dotted field: its plain name as a sentence begins with it, and its unit.
FIELD_NAMES: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "version": (say("The version of the job"), ""),
        "name": (say("The name"), ""),
        "client": (say("The client's name"), ""),
        "notes": (say("The text of the notes"), ""),
        "answer": (say("The client's answer"), ""),
        "picture": (say("The part “picture” of the job"), ""),
        "picture.file": (say("The picture"), ""),
        "picture.sha256": (say("The picture's hash"), ""),
        "picture.crop": (say("The crop"), ""),
        "picture.crop.x": (say("The left edge of the crop"), ""),
        "picture.crop.y": (say("The top edge of the crop"), ""),
        "picture.crop.width": (say("The width of the crop"), ""),
        "picture.crop.height": (say("The height of the crop"), ""),
        "picture.turn": (say("The rotation of the picture"), say("degrees")),
        "picture.enlarging": (say("The way of enlarging"), ""),
        "face": (say("The part “face” of the job"), ""),
        "face.width_mm": (say("Face width"), _MM),
        "face.height_mm": (say("Face height"), _MM),
        "bars": (say("The part “bars” of the job"), ""),
        "bars.depth_mm": (say("Bar depth"), _MM),
        "bars.width_mm": (say("Bar width"), _MM),
        "bars.wood": (say("The wood of the bars"), ""),
        "bars.density_kg_m3": (say("Density of the wood"), say("kg/m3")),
        "group": (say("The part “group” of the job"), ""),
        "group.panels": (say("The number of panels"), ""),
        "group.gap_mm": (say("The gap between panels"), _MM),
        "group.hung": (say("The direction in which the panels hang"), ""),
        "group.across_gap": (say("The picture across the gap"), ""),
        "wrap": (say("The part “wrap” of the job"), ""),
        "wrap.turnover_mm": (say("Turn-over on the back"), _MM),
        "wrap.ink_over_mm": (say("Bleed on to the back"), _MM),
        "wrap.finish": (say("Corner finish"), ""),
        "wrap.over": (say("The pair that corners fold on to"), ""),
        "wrap.corners": (say("Corners on the back"), ""),
        "wrap.setback_mm": (say("Set-back of the fold edge"), _MM),
        "wrap.tab_mm": (say("The tab"), _MM),
        "sides": (say("The part “sides” of the job"), ""),
        "sides.fill": (say("Side fill"), ""),
        "sides.blur_mm": (say("Blur towards the wall"), _MM),
        "sides.band_mm": (say("The averaged band"), _MM),
        "sides.colour": (say("The side's colour"), ""),
        "sheet": (say("The part “sheet” of the job"), ""),
        "sheet.width_mm": (say("Sheet width"), _MM),
        "sheet.height_mm": (say("Sheet height"), _MM),
        "sheet.margin_mm": (say("The margins"), _MM),
        "sheet.margin_mm.0": (say("The top margin"), _MM),
        "sheet.margin_mm.1": (say("The right margin"), _MM),
        "sheet.margin_mm.2": (say("The bottom margin"), _MM),
        "sheet.margin_mm.3": (say("The left margin"), _MM),
        "canvas": (say("The part “canvas” of the job"), ""),
        "canvas.thickness_mm": (say("Canvas thickness"), _MM),
        "canvas.weight_gsm": (say("Canvas weight"), say("g/m2")),
        "canvas.coated": (say("Whether the canvas is coated"), ""),
        "canvas.stretch_percent": (say("How much the canvas gives"), say("percent")),
        "canvas.stretch_percent.0": (say("How much the canvas gives across"), say("percent")),
        "canvas.stretch_percent.1": (say("How much the canvas gives down"), say("percent")),
        "colour": (say("The part “colour” of the job"), ""),
        "colour.profile": (say("The canvas profile"), ""),
        "colour.intent": (say("The rendering intent"), ""),
        "colour.black_point_compensation": (say("Black point compensation"), ""),
        "colour.clip_threshold_de": (say("The threshold of the gamut figures"), say("ΔE00")),
        "colour.bring_in": (say("The amount by which colours are brought in"), ""),
        "print": (say("The part “print” of the job"), ""),
        "print.ppi": (say("Print resolution"), say("pixels per inch")),
        "print.convert": (say("The print file's colours"), ""),
        "print.bits": (say("The print file's bits per channel"), ""),
        "print.sharpening": (say("Sharpening"), ""),
        "print.marks": (say("Marks"), ""),
    }
)

#: What else an error can be about.
_OTHER_NAMES: Final = {
    "presets": say("The file of presets"),
    "job": say("The job"),
    "PICTURE": say("The picture"),
    "PHOTO": say("The photograph"),
    "FILE": say("The profile"),
    "out": say("The written file"),
    "model": say("The written 3D model"),
    "client page": say("The client page"),
    "turntable": say("The turntable"),
    "turntable.frames": say("The turntable"),
    "turntable.buffer": say("The turntable's frames"),
    "profile": say("The profile"),
    "measured": say("The measured values"),
    "expected": say("The strip's own values"),
    "answer text": say("The client's answer"),
    "profile class": say("The profile"),
    "profile colour space": say("The profile's colour space"),
    "profile connection space": say("The profile's connection space"),
    "variants": say("The variants"),
    "panel": say("The panel's number"),
    "date": say("The date"),
    "at": say("The moment of the fold"),
    "reference": say("The reference"),
    "corners": say("The reference's corners"),
    "wall.at": say("The place on the wall"),
    "wall.face": say("The piece"),
    "still": say("The still"),
    "in_front": say("The mask of what stands in front"),
}

_SIDES: Final = tuple(side.value for side in Side)


def plain_name(field: str) -> str:
    """What a field is called at the beginning of a sentence.

    Parameters
    ----------
    field : str
        A dotted field of the job, an option, or what else an error is about.

    Returns
    -------
    str
        The field itself where it has no name of its own.

    Examples
    --------
    >>> plain_name("bars.depth_mm"), plain_name("sides.left.fill"), plain_name("--depths")
    ('Bar depth', 'Side fill (left)', '--depths')
    """
    if field in FIELD_NAMES:
        return say(FIELD_NAMES[field][0])
    part, _, rest = field.partition(".")
    side, _, own = rest.partition(".")
    if part == "sides" and side in _SIDES:
        if own:
            return say("{field} ({side})", field=plain_name(f"sides.{own}"), side=side)
        return say("The {side} side", side=side)
    return said_again(_OTHER_NAMES.get(field, field))


def unit_of(field: str) -> str:
    """The unit of a field.

    Parameters
    ----------
    field : str
        A dotted field of the job.

    Returns
    -------
    str
        Empty where it has none.

    Examples
    --------
    >>> unit_of("sides.left.blur_mm"), unit_of("name")
    ('mm', '')
    """
    part, _, rest = field.partition(".")
    side, _, own = rest.partition(".")
    known = f"sides.{own}" if part == "sides" and side in _SIDES and own else field
    return said_again(FIELD_NAMES[known][1]) if known in FIELD_NAMES else ""


def nearest_field(field: str) -> str:
    """The field of the job whose name is most like a name that is none.

    Parameters
    ----------
    field : str

    Returns
    -------
    str
        Empty where none is like it.

    Examples
    --------
    >>> nearest_field("bars.depth"), nearest_field("depth_mm"), nearest_field("wheel")
    ('bars.depth_mm', 'bars.depth_mm', '')
    """
    side = next((one for one in _SIDES if field.startswith(f"sides.{one}.")), "")
    asked = field.replace(f"sides.{side}.", "sides.", 1) if side else field
    leaves = [
        name
        for name in FIELD_NAMES
        if "." in name or name in ("name", "client", "notes", "answer", "version")
    ]
    found = difflib.get_close_matches(asked, leaves, n=1, cutoff=0.7)
    if not found:
        by_last = {name.rpartition(".")[2]: name for name in reversed(leaves)}
        last = difflib.get_close_matches(asked.rpartition(".")[2], list(by_last), n=1, cutoff=0.7)
        found = [by_last[one] for one in last]
    if not found:
        return ""
    return found[0].replace("sides.", f"sides.{side}.", 1) if side else found[0]
