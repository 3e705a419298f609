"""A picture for screens: sRGB, which it says, and nothing else about whoever made it."""

from __future__ import annotations

from pathlib import Path
from typing import Any, BinaryIO, Final

from PIL import Image

from pycore.colour.icc.standard_profiles import srgb_profile
from pycore.errors import FieldError
from pycore.picture.tones import U8
from pycore.printing.place import check_place
from pycore.speech import say

#: Of 100; common practice: little is seen to be lost of a photograph above this. With whole chroma, since
#: halved it smears saturated edges.
_JPEG: Final[dict[str, Any]] = {"quality": 92, "subsampling": 0}
#: Zlib's effort: half of the usual time for a twentieth more bytes.
_PNG: Final[dict[str, Any]] = {"compress_level": 4}

#: By the endings of their names.
_FORMATS: Final = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG"}


def screen_kind(out: Path, *, field: str) -> str:
    """Which kind of picture a file's name asks for; also whether it can be written there.

    Parameters
    ----------
    out : Path
    field : str
        For the error.

    Returns
    -------
    str
        PNG or JPEG.

    Raises
    ------
    FieldError
        The name has another ending.
    OutputError
        No file can be written there.
    """
    kind = _FORMATS.get(out.suffix.lower())
    if kind is None:
        raise FieldError(
            field=field,
            expected=say("a name that ends in .png or .jpg"),
            got=repr(out.name),
            remedy=say("rename it"),
        )
    check_place(out, field=field)
    return kind


def write_screen_picture(pixels: U8, file: BinaryIO, *, kind: str) -> tuple[int, int]:
    """Write pixels with sRGB's profile and without metadata, and open the file again.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        sRGB.
    file : binary file
        Empty; it allows reading and seeking.
    kind : str
        PNG or JPEG.

    Returns
    -------
    width, height : int
        As the file says, pixels.
    """
    how = _JPEG if kind == "JPEG" else _PNG
    Image.fromarray(pixels).save(file, kind, icc_profile=srgb_profile("RGB"), **how)
    file.seek(0)
    with Image.open(file) as image:
        width, height = image.size
    return width, height
