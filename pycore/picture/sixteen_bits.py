"""Pictures of 16 bits a channel, reduced to 8 by rounding."""

from __future__ import annotations

import io

import numpy as np
import numpy.typing as npt
from PIL import Image

#: Photometric interpretation and samples per pixel (TIFF 6.0, section 8) of the kinds that are read here.
_KINDS = {(0, 1): "L", (1, 1): "L", (2, 3): "RGB", (2, 4): "RGBA", (5, 4): "CMYK"}
_WHITE_IS_ZERO = 0
#: None and Deflate (two numbers): what tifffile decodes by itself.
_PLAIN_COMPRESSIONS = {1, 8, 32946}
_ROWS_AT_ONCE = 256


def bits_per_channel(data: bytes, image: Image.Image) -> int:
    """Bits of a channel as filed.

    Parameters
    ----------
    data : bytes
        The file.
    image : PIL.Image.Image
        The picture as opened from it.

    Returns
    -------
    int

    References
    ----------
    PNG (third edition) 11.2.1 (IHDR: the bit depth is byte 24 of the file); TIFF 6.0, BitsPerSample.
    """
    if image.format == "PNG":
        return data[24]
    if image.format == "TIFF":
        return int(max(getattr(image, "tag_v2", {}).get(258, (1,))))
    return 8


def read_deep_tiff(data: bytes) -> Image.Image | None:
    """Read a TIFF of 16 bits a channel without Pillow, which would drop the lower eight.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    PIL.Image.Image or None
        Mode L, RGB, RGBA or CMYK, not oriented; None where its kind or compression is not read here.

    Raises
    ------
    Exception
        Whatever the decoder raises; to be called inside `pycore.picture.guard.decoding`.
    """
    import tifffile

    with tifffile.TiffFile(io.BytesIO(data)) as file:
        page = file.pages.first
        samples = int(page.samplesperpixel)
        mode = _KINDS.get((int(page.photometric), samples))
        if mode is None or page.dtype != np.uint16 or int(page.compression) not in _PLAIN_COMPRESSIONS:
            return None
        wide = page.asarray()
        if int(page.planarconfig) == 2 and samples > 1:
            wide = np.moveaxis(wide, 0, -1)
        if int(page.photometric) == _WHITE_IS_ZERO:
            wide = 65535 - wide
    return Image.fromarray(to_eight_bits(wide)) if mode != "CMYK" else _cmyk(to_eight_bits(wide))


def to_eight_bits(wide: npt.NDArray[np.uint16]) -> npt.NDArray[np.uint8]:
    """Round 16-bit values to 8 bits: the nearest of v / 257, so that 65535 becomes 255.

    Parameters
    ----------
    wide : uint16 array
        Row first, any number of channels.

    Returns
    -------
    uint8 array
        The same shape.

    Examples
    --------
    >>> to_eight_bits(np.array([[0, 128, 129, 65535]], np.uint16)).tolist()
    [[0, 0, 1, 255]]
    """
    narrow = np.empty(wide.shape, np.uint8)
    for row in range(0, len(wide), _ROWS_AT_ONCE):
        part = wide[row : row + _ROWS_AT_ONCE].astype(np.uint32)
        narrow[row : row + _ROWS_AT_ONCE] = (part + 128) // 257
    return narrow


def _cmyk(values: npt.NDArray[np.uint8]) -> Image.Image:
    height, width = values.shape[:2]
    return Image.frombytes("CMYK", (width, height), values.tobytes())
