"""The colour space that a picture names without an ICC profile: by its EXIF block, or a PNG by its chunks.

Cameras write no profile into a JPEG: what is set in the camera, sRGB or Adobe RGB, stands in its EXIF alone.
"""

from __future__ import annotations

from enum import Enum
from typing import Final

from PIL import Image

from pycore.errors import PictureError
from pycore.picture.guard import decoding

#: Published: EXIF 2.32 (JEITA CP-3451), the tags' numbers.
_EXIF_IFD: Final = 0x8769
_INTEROPERABILITY_IFD: Final = 0xA005
_COLOUR_SPACE: Final = 0xA001
_INTEROPERABILITY_INDEX: Final = 0x0001

#: Published: EXIF 2.32, ColorSpace: 1 is sRGB, 65535 one that it has no number for. That 2 is Adobe RGB is
#: common practice, no source.
_SRGB_NUMBER: Final = 1
_ADOBE_RGB_NUMBER: Final = 2


class NamedSpace(Enum):
    """A space that a picture can name."""

    SRGB = "sRGB"
    ADOBE_RGB = "Adobe RGB"


#: Published: DCF 2.0 (JEITA CP-3461), the interoperability index: R98 is a basic file, which is sRGB, R03 an
#: optional file, which is Adobe RGB.
_BY_INDEX: Final = {"R98": NamedSpace.SRGB, "R03": NamedSpace.ADOBE_RGB}


def space_by_exif(image: Image.Image) -> NamedSpace | None:
    """The space that a picture's EXIF block names.

    Parameters
    ----------
    image : PIL.Image.Image
        As opened. A PNG's block may stand after its pixels, so it is to be decoded before.

    Returns
    -------
    NamedSpace or None
        None where it names none, or is damaged.

    Examples
    --------
    >>> space_by_exif(Image.new("RGB", (3, 2))) is None
    True
    """
    try:
        with decoding("EXIF block"):
            exif = image.getexif()
            tags = exif.get_ifd(_EXIF_IFD)
            number, index = tags.get(_COLOUR_SPACE), None
            if _INTEROPERABILITY_IFD in tags:
                index = exif.get_ifd(_INTEROPERABILITY_IFD).get(_INTEROPERABILITY_INDEX)
    except PictureError:
        return None
    if number == _SRGB_NUMBER:
        return NamedSpace.SRGB
    if number == _ADOBE_RGB_NUMBER:
        return NamedSpace.ADOBE_RGB
    text = index.decode("latin-1") if isinstance(index, bytes) else str(index)
    return _BY_INDEX.get(text.rstrip("\0"))
