"""What is known of an opened picture."""

from __future__ import annotations

from pycore.contract.notes import Note
from pycore.contract.record import Record


class PictureInfo(Record):
    """What is known of an opened picture."""

    file: str
    format: str
    """JPEG, PNG, TIFF, WebP."""
    width_px: int
    """Upright, after the EXIF orientation, before the job's turn."""
    height_px: int
    mode: str
    """As filed: RGB, grey, palette, CMYK, with or without alpha."""
    profile_name: str
    profile_assumed: bool
    """True where no usable profile is embedded and sRGB is assumed."""
    notes: list[Note]
