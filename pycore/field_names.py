"""What fields are called in messages: a plain name and a unit for each field of the job."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

_MM: Final = "mm"

#: Dotted field: its plain name as a sentence begins with it, and its unit.
FIELD_NAMES: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "version": ("The version of the job", ""),
        "name": ("The name", ""),
        "client": ("The client's name", ""),
        "notes": ("The text of the notes", ""),
        "answer": ("The client's answer", ""),
        "picture": ("The part “picture” of the job", ""),
        "picture.file": ("The picture", ""),
        "picture.sha256": ("The picture's hash", ""),
        "picture.crop": ("The crop", ""),
        "picture.crop.x": ("The left edge of the crop", ""),
        "picture.crop.y": ("The top edge of the crop", ""),
        "picture.crop.width": ("The width of the crop", ""),
        "picture.crop.height": ("The height of the crop", ""),
        "picture.turn": ("The rotation of the picture", "degrees"),
        "picture.enlarging": ("The way of enlarging", ""),
        "face": ("The part “face” of the job", ""),
        "face.width_mm": ("Face width", _MM),
        "face.height_mm": ("Face height", _MM),
        "bars": ("The part “bars” of the job", ""),
        "bars.depth_mm": ("Bar depth", _MM),
        "bars.width_mm": ("Bar width", _MM),
        "bars.wood": ("The wood of the bars", ""),
        "bars.density_kg_m3": ("Density of the wood", "kg/m3"),
        "group": ("The part “group” of the job", ""),
        "group.panels": ("The number of panels", ""),
        "group.gap_mm": ("The gap between panels", _MM),
        "group.hung": ("The direction in which the panels hang", ""),
        "group.across_gap": ("The picture across the gap", ""),
        "wrap": ("The part “wrap” of the job", ""),
        "wrap.turnover_mm": ("Turn-over on the back", _MM),
        "wrap.ink_over_mm": ("Bleed on to the back", _MM),
        "wrap.finish": ("Corner finish", ""),
        "wrap.over": ("The pair that corners fold on to", ""),
        "wrap.corners": ("Corners on the back", ""),
        "wrap.setback_mm": ("Set-back of the fold edge", _MM),
        "wrap.tab_mm": ("The tab", _MM),
        "sides": ("The part “sides” of the job", ""),
        "sides.fill": ("Side fill", ""),
        "sides.blur_mm": ("Blur towards the wall", _MM),
        "sides.band_mm": ("The averaged band", _MM),
        "sides.colour": ("The side's colour", ""),
        "sheet": ("The part “sheet” of the job", ""),
        "sheet.width_mm": ("Sheet width", _MM),
        "sheet.height_mm": ("Sheet height", _MM),
        "sheet.margin_mm": ("The margins", _MM),
        "sheet.margin_mm.0": ("The top margin", _MM),
        "sheet.margin_mm.1": ("The right margin", _MM),
        "sheet.margin_mm.2": ("The bottom margin", _MM),
        "sheet.margin_mm.3": ("The left margin", _MM),
        "canvas": ("The part “canvas” of the job", ""),
        "canvas.thickness_mm": ("Canvas thickness", _MM),
        "canvas.weight_gsm": ("Canvas weight", "g/m2"),
        "canvas.coated": ("Whether the canvas is coated", ""),
        "canvas.stretch_percent": ("How much the canvas gives", "percent"),
        "canvas.stretch_percent.0": ("How much the canvas gives across", "percent"),
        "canvas.stretch_percent.1": ("How much the canvas gives down", "percent"),
        "colour": ("The part “colour” of the job", ""),
        "colour.profile": ("The canvas profile", ""),
        "colour.intent": ("The rendering intent", ""),
        "colour.black_point_compensation": ("Black point compensation", ""),
        "colour.clip_threshold_de": ("The threshold of the gamut figures", "ΔE00"),
        "colour.bring_in": ("The amount by which colours are brought in", ""),
        "print": ("The part “print” of the job", ""),
        "print.ppi": ("Print resolution", "pixels per inch"),
        "print.convert": ("The print file's colours", ""),
        "print.bits": ("The print file's bits per channel", ""),
        "print.sharpening": ("Sharpening", ""),
        "print.marks": ("Marks", ""),
    }
)

#: What else an error can be about.
_OTHER_NAMES: Final = {
    "job": "The job",
    "PICTURE": "The picture",
    "PHOTO": "The photograph",
    "FILE": "The profile",
    "out": "The written file",
    "model": "The written 3D model",
    "client page": "The client page",
    "turntable": "The turntable",
    "turntable.frames": "The turntable",
    "turntable.buffer": "The turntable's frames",
    "profile": "The profile",
    "measured": "The measured values",
    "expected": "The strip's own values",
    "answer text": "The client's answer",
    "profile class": "The profile",
    "profile colour space": "The profile's colour space",
    "profile connection space": "The profile's connection space",
    "variants": "The variants",
    "panel": "The panel's number",
    "date": "The date",
    "at": "The moment of the fold",
    "reference": "The reference",
    "corners": "The reference's corners",
    "wall.at": "The place on the wall",
    "wall.face": "The piece",
    "still": "The still",
    "in_front": "The mask of what stands in front",
}

_SIDES: Final = ("top", "right", "bottom", "left")


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
        return FIELD_NAMES[field][0]
    part, _, rest = field.partition(".")
    side, _, own = rest.partition(".")
    if part == "sides" and side in _SIDES:
        return f"{plain_name(f'sides.{own}')} ({side})" if own else f"The {side} side"
    return _OTHER_NAMES.get(field, field)


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
    return FIELD_NAMES[known][1] if known in FIELD_NAMES else ""


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
