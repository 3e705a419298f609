"""The shape of a file's pixels: a fax and some films have them narrower than high."""

from __future__ import annotations

import math
from typing import Any, Final

from PIL import Image

#: TIFF 6.0, XResolution and YResolution.
_X_RESOLUTION, _Y_RESOLUTION = 282, 283

#: Shapes that are believed; beyond them a resolution is a mistake of whoever wrote it.
_BELIEVED: Final = (0.2, 5.0)


def pixel_shape(image: Image.Image) -> float:
    """Say how wide a pixel is meant to be, against its height.

    Parameters
    ----------
    image : PIL.Image.Image
        As it was opened.

    Returns
    -------
    float
        1 where the file says nothing, or nothing that can be believed.

    References
    ----------
    TIFF 6.0, section 8 (XResolution, YResolution); PNG (third edition) 11.3.4.3 (pHYs); JFIF 1.02 (Xdensity,
    Ydensity; without a unit it is not settled which way round they are, and nothing is read).

    Examples
    --------
    >>> fax = Image.new("1", (1728, 1100))
    >>> fax.info["dpi"] = (204, 98)
    >>> round(pixel_shape(fax), 2)
    0.48
    """
    tags = getattr(image, "tag_v2", {})
    told: Any
    if image.format == "TIFF":
        told = tags.get(_X_RESOLUTION, 1), tags.get(_Y_RESOLUTION, 1)
    else:
        told = image.info.get("dpi") or image.info.get("aspect") or (1, 1)
    try:
        across, down = told
        # More pixels an inch, smaller pixels.
        shape = float(down) / float(across)
    except (TypeError, ValueError, ArithmeticError):
        return 1.0
    return shape if math.isfinite(shape) and _BELIEVED[0] <= shape <= _BELIEVED[1] else 1.0
