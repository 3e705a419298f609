"""A picture's values turned into sRGB for the screen."""

from __future__ import annotations

import numpy as np
from PIL import Image

from pycore.colour.link.display import display_map, to_srgb_pixels
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8


def to_screen(pixels: U8, source: SourcePicture) -> Image.Image:
    """Turn a picture's values, reduced for the screen, into sRGB.

    Parameters
    ----------
    pixels : (rows, columns, channels) uint8
        Encoded values of the picture's own profile.
    source : SourcePicture
        Whose values they are.

    Returns
    -------
    PIL.Image.Image
        Mode RGB, srgb_encoded. CMYK without a profile is turned by Pillow's plain formula (red is what cyan
        and black leave), since which colours its inks make is unknown.

    Raises
    ------
    ProfileError
        The picture's profile cannot be used.
    """
    mode = source.image.mode
    if mode == "RGB":
        to_srgb = display_map(source.profile)
        return Image.fromarray(pixels if to_srgb is None else to_srgb.to_bytes(pixels, row=0, column=0))
    if source.profile is not None:
        return Image.fromarray(to_srgb_pixels(pixels, profile=source.profile))
    if mode == "L":
        return Image.fromarray(np.repeat(pixels, 3, axis=2))
    height, width = pixels.shape[:2]
    return Image.frombytes("CMYK", (width, height), pixels.tobytes()).convert("RGB")
