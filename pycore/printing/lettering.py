"""Plain letters as pixels, the same on every platform.

They come from Pillow's built-in bitmap letters (Latin-1), enlarged by whole factors. An outline font would be
drawn by FreeType, whose versions differ in their last pixels.
"""

from __future__ import annotations

from functools import cache
from typing import Final

import numpy as np
import numpy.typing as npt
from PIL import ImageFont

#: Height of a line of these letters before it is enlarged, in pixels.
LINE_PX: Final = 11


def latin_text(text: str) -> str:
    r"""Replace what cannot be lettered by question marks, and line breaks by spaces.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        One line of Latin-1 characters.

    Examples
    --------
    >>> latin_text("Ebbe \u6f6e, früh")
    'Ebbe ?, früh'
    """
    flat = " ".join(text.split())
    flat = "".join(sign if sign.isprintable() else "?" for sign in flat)
    return flat.encode("latin-1", errors="replace").decode("latin-1")


def letters(text: str, *, enlarged: int) -> npt.NDArray[np.bool_]:
    """Letter a line of text.

    Parameters
    ----------
    text : str
        As from `latin_text`; not empty.
    enlarged : int
        Pixels of the result for each of the letters' own, 1 or more.

    Returns
    -------
    (rows, columns) bool
        True where there is ink.

    Examples
    --------
    >>> letters("TOP", enlarged=2).shape
    (22, 48)
    """
    # The first letter's left edge falls outside the mask unless something stands before it.
    mask = _font().getmask(f" {text}", mode="1")
    width, height = mask.size
    ink = np.frombuffer(bytes(mask), np.uint8).reshape(height, width) > 0
    return np.repeat(np.repeat(ink, enlarged, axis=0), enlarged, axis=1)


@cache
def _font() -> ImageFont.ImageFont:
    """The letters; Pillow unpacks them anew each time that it is asked."""
    return ImageFont.load_default_imagefont()
