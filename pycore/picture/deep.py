"""Files whose values are read here with all of their bits: TIFF and PNG of 16 bits a channel.

So are those few TIFFs of 8 bits whose further channels Pillow does not know. What is kept of such a file is
the file itself: its 16 bits are read once when it is opened, for the 8 that the screen shows, and again only
for a print file that asks for them.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np
from PIL import Image

from pycore.picture.deep_tones import widened
from pycore.picture.guard import check_pixel_count, decoding
from pycore.picture.png_values import png_values
from pycore.picture.sixteen_bits import as_image, over_white, set_values_upright, to_eight_bits
from pycore.picture.tiff_tags import Tag, tiff_pixels
from pycore.picture.tiff_values import tiff_values
from pycore.picture.tones import U16, Values
from pycore.speech import say

_NAMES: Final = {"L": say("grey"), "RGB": say("RGB"), "CMYK": say("CMYK")}


@dataclass(frozen=True, kw_only=True)
class DeepFile:
    """A file whose values are read here.

    Attributes
    ----------
    data : bytes
        The file.
    kind : str
        TIFF or PNG.
    mode : str
        L, RGB or CMYK.
    bits : int
        8 or 16, as filed.
    has_alpha : bool
    further : int
        Channels beside the colours and the transparency, which are left out.
    is_transparent : bool
        Something really is.
    orientation : int
        By which it is set upright.
    profile : bytes or None
    frames : int
    """

    data: bytes = field(repr=False)
    kind: str
    mode: str
    bits: int
    has_alpha: bool = False
    further: int = 0
    is_transparent: bool = False
    orientation: int = 1
    profile: bytes | None = None
    frames: int = 1

    @property
    def mode_name(self) -> str:
        """The pixel kind in words, as filed, without its bits."""
        return say(_NAMES[self.mode]) + (say(" with alpha") if self.has_alpha else "")

    def read(self) -> U16:
        """The upright picture without transparency, (rows, columns, channels) uint16.

        Raises
        ------
        PictureError
            Memory is short, or pixels are missing.
        """
        with decoding(say("{kind} file", kind=self.kind)):
            values = (_flat_tiff if self.kind == "TIFF" else _flat_png)(self.data)[0]
            return np.ascontiguousarray(set_values_upright(values, self.orientation))


def open_deep_tiff(data: bytes) -> tuple[DeepFile, Image.Image]:
    """Open a TIFF whose values are read here.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    DeepFile
        Not oriented yet where its tag does not say so.
    PIL.Image.Image
        Mode L, RGB or CMYK, 8 bits rounded, not set upright.

    Raises
    ------
    PictureError
        Its values are of a kind that is not read, or its tags contradict one another.
    Exception
        Whatever tifffile raises; to be called inside `pycore.picture.guard.decoding`.
    """
    values, about = _flat_tiff(data)
    return about, as_image(to_eight_bits(values), about.mode)


def open_deep_png(data: bytes) -> tuple[DeepFile, Image.Image]:
    """Open a PNG of 16 bits a channel, whose profile and orientation Pillow has read.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    DeepFile
        Without an orientation.
    PIL.Image.Image
        Mode L or RGB, 8 bits rounded, not set upright.

    Raises
    ------
    PictureError
        Pixels are missing.
    """
    values, about = _flat_png(data)
    return about, as_image(to_eight_bits(values), about.mode)


def _flat_tiff(data: bytes) -> tuple[U16, DeepFile]:
    import tifffile

    with tifffile.TiffFile(io.BytesIO(data)) as file:
        page = file.pages.first
        check_pixel_count(int(page.imagewidth), int(page.imagelength))
        pixels = tiff_pixels(page)
        values: Values = tiff_values(data, page)
        tags = {tag: page.tags[tag].value for tag in (Tag.PROFILE, Tag.ORIENTATION) if tag in page.tags}
        frames = len(file.pages)
    wide = widened(values) if values.dtype == np.uint8 else values
    colours: U16 = wide[..., : pixels.colours]
    if pixels.is_inverted:
        colours = np.uint16(65535) - colours
    is_transparent = False
    if pixels.alpha is not None:
        alpha = wide[..., pixels.alpha.channel]
        is_transparent = bool((alpha != 65535).any())
        if is_transparent:
            associated = pixels.alpha.is_associated
            colours = over_white(colours, alpha, is_associated=associated, is_ink=pixels.mode == "CMYK")
    orientation, profile = tags.get(Tag.ORIENTATION, 1), tags.get(Tag.PROFILE)
    about = DeepFile(
        data=data,
        kind="TIFF",
        mode=pixels.mode,
        bits=pixels.bits,
        has_alpha=pixels.alpha is not None,
        further=pixels.channels - pixels.colours - (pixels.alpha is not None),
        is_transparent=is_transparent,
        orientation=int(orientation) if orientation in range(1, 9) else 1,
        profile=profile if isinstance(profile, bytes) else None,
        frames=frames,
    )
    return colours, about


def _flat_png(data: bytes) -> tuple[U16, DeepFile]:
    found = png_values(data)
    values = found.values
    is_transparent = False
    if found.has_alpha:
        alpha, values = values[..., -1], values[..., :-1]
        is_transparent = bool((alpha != 65535).any())
        if is_transparent:
            values = over_white(values, alpha, is_associated=False, is_ink=False)
    mode = "L" if values.shape[2] == 1 else "RGB"
    about = DeepFile(
        data=data,
        kind="PNG",
        mode=mode,
        bits=16,
        has_alpha=found.has_alpha,
        is_transparent=is_transparent,
    )
    return values, about


def oriented(deep: DeepFile, orientation: int) -> DeepFile:
    """The same file with the orientation by which it is set upright.

    Parameters
    ----------
    deep : DeepFile
    orientation : int
        1 to 8, as EXIF counts them.

    Returns
    -------
    DeepFile
    """
    return replace(deep, orientation=orientation)
