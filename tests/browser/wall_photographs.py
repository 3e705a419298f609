"""Photographs of a wall for the browser tests: the rendered room, and files as cameras write them."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image
from playwright.sync_api import FilePayload

ROOM = Path(__file__).resolve().parents[2] / "demo_data" / "room.jpg"
#: Derived: the sheet's corners in that photograph, as its renderer's camera sees them, to a pixel.
CORNERS = ((325, 304), (421, 302), (421, 451), (326, 449))
DRAWN_MS = 60_000

#: Published: ISO/IEC 23008-12, the brand at a HEIC file's begin.
HEIC = FilePayload(name="wall.heic", mimeType="image/heic", buffer=b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")


def photograph(
    image: Image.Image, name: str, *, orientation: int = 1, lens_mm: int | None = None
) -> FilePayload:
    """A JPEG as a camera writes it, with or without its lens."""
    file, exif = io.BytesIO(), Image.Exif()
    exif[0x0112] = orientation
    if lens_mm is not None:
        exif.get_ifd(0x8769)[0xA405] = lens_mm
    has_block = lens_mm is not None or orientation != 1
    image.save(file, "JPEG", quality=90, **({"exif": exif} if has_block else {}))
    return FilePayload(name=name, mimeType="image/jpeg", buffer=file.getvalue())


def room() -> Image.Image:
    with Image.open(ROOM) as image:
        upright: Image.Image = image.convert("RGB")
        return upright


def portrait() -> FilePayload:
    """The room's upright part as a telephone that is held upright writes it: on its side, orientation 6."""
    # Derived: a lens of 26 mm, on a diagonal of 1125 in place of 1500 pixels.
    # Published: EXIF 2.32, orientation 6: a viewer turns the rows clockwise by 90 degrees.
    lying = room().crop((100, 0, 775, 900)).transpose(Image.Transpose.ROTATE_90)
    return photograph(lying, "portrait.jpg", orientation=6, lens_mm=35)
