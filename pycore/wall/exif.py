"""The focal length that a photograph's file tells."""

from __future__ import annotations

import io
from typing import Final

import numpy as np
from PIL import Image

from pycore.conventions import MM_PER_INCH
from pycore.errors import PictureError
from pycore.picture.guard import decoding
from pycore.wall.fit_wall import FULL_FRAME_DIAGONAL_MM

#: Published: EXIF 2.32 (JEITA CP-3451), the tags' numbers.
_EXIF_IFD: Final = 0x8769
_FOCAL_MM, _FOCAL_35_MM = 0x920A, 0xA405
_PLANE_X, _PLANE_UNIT = 0xA20E, 0xA210
_WIDTH_PX, _HEIGHT_PX = 0xA002, 0xA003
#: The unit of the focal plane's resolution: inch, cm, mm (the last one is common practice).
_UNITS_MM: Final = {2: MM_PER_INCH, 3: 10.0, 4: 1.0}
#: Lenses outside are mistakes of the file.
_LEAST_MM, _MOST_MM = 8.0, 1200.0


def filed_focal_px(data: bytes, *, width_px: int, height_px: int) -> float | None:
    """The focal length in pixels of the photograph as filed.

    The length as on 36 x 24 mm counts first, by the diagonal; else the length in mm with the resolution of
    the focal plane.

    Parameters
    ----------
    data : bytes
        The file.
    width_px, height_px : int
        Its size.

    Returns
    -------
    float or None
        None where the file tells none.

    References
    ----------
    EXIF 2.32, FocalLengthIn35mmFilm, FocalLength, FocalPlaneXResolution and FocalPlaneResolutionUnit. That
    the equal diagonal is meant is common practice (from memory: CIPA DCG-001).

    Examples
    --------
    >>> filed_focal_px(b"", width_px=4000, height_px=3000) is None
    True
    """
    try:
        with decoding("EXIF block"), Image.open(io.BytesIO(data)) as image:
            tags = dict(image.getexif().get_ifd(_EXIF_IFD))
    except PictureError:
        return None
    diagonal = float(np.hypot(width_px, height_px))
    equal_mm = _number(tags.get(_FOCAL_35_MM))
    if equal_mm is not None and _LEAST_MM <= equal_mm <= _MOST_MM:
        return equal_mm / FULL_FRAME_DIAGONAL_MM * diagonal
    focal_mm, per_unit = _number(tags.get(_FOCAL_MM)), _number(tags.get(_PLANE_X))
    unit_mm = _UNITS_MM.get(int(_number(tags.get(_PLANE_UNIT)) or 2))
    if focal_mm is None or per_unit is None or unit_mm is None:
        return None
    wide, high = _number(tags.get(_WIDTH_PX)), _number(tags.get(_HEIGHT_PX))
    reduced = max(width_px, height_px) / max(wide, high) if wide and high else 1.0
    found = focal_mm * per_unit / unit_mm * reduced
    equal_mm = found / diagonal * FULL_FRAME_DIAGONAL_MM
    return found if _LEAST_MM <= equal_mm <= _MOST_MM else None


def _number(value: object) -> float | None:
    """A positive number of a tag, which may be a fraction, damaged or missing."""
    try:
        found = float(value)  # type: ignore[arg-type]  # any kind of tag; what is no number is caught
    except (TypeError, ValueError, ArithmeticError):
        return None
    return found if np.isfinite(found) and found > 0 else None
