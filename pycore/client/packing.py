"""Textures and meshes as text that stands inside a page, the textures no larger than there is room for."""

from __future__ import annotations

import base64
import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy.typing as npt
from PIL import Image

from pycore.errors import OutputError
from pycore.picture.tones import U8
from pycore.speech import say

#: What the address of a JPEG that stands in the page begins with.
JPEG_ADDRESS: Final = "data:image/jpeg;base64,"

#: How the textures are written, best first: JPEG quality, and by how much each side is divided.
_WAYS: Final = ((90, 1), (84, 1), (76, 1), (80, 2), (68, 2), (60, 3), (50, 4))


@dataclass(frozen=True, kw_only=True, slots=True)
class PackedTextures:
    """Textures as text.

    Attributes
    ----------
    addresses : list of str
        `data:image/jpeg;base64,…`
    divisor : int
        By how much each side had to be divided to make them fit; 1 where they are whole.
    """

    addresses: list[str]
    divisor: int


def packed_textures(textures: Sequence[U8], *, room_bytes: int) -> PackedTextures:
    """Write textures as data addresses in the best way that fits.

    Parameters
    ----------
    textures : sequence of (rows, columns, 3) uint8
        srgb_encoded.
    room_bytes : int
        For all of them together, as text.

    Returns
    -------
    PackedTextures

    Raises
    ------
    OutputError
        There is not even room for the smallest.

    Examples
    --------
    >>> import numpy as np
    >>> packed_textures([np.zeros((8, 8, 3), np.uint8)], room_bytes=10_000).addresses[0][:23]
    'data:image/jpeg;base64,'
    """
    needed = 0
    for quality, divisor in _WAYS:
        addresses = [jpeg_address(_jpeg(one, quality=quality, divisor=divisor)) for one in textures]
        needed = sum(map(len, addresses))
        if needed <= room_bytes:
            return PackedTextures(addresses=addresses, divisor=divisor)
    raise OutputError(
        field="client page",
        expected=say("textures of at most {room_bytes:,} bytes", room_bytes=room_bytes),
        got=say("{needed:,} bytes at their smallest", needed=needed),
        remedy=say("offer fewer variants"),
        said=say(
            "The client page has room for {room_bytes:,} bytes of pictures, and these variants "
            "need {needed:,} at their smallest.",
            room_bytes=room_bytes,
            needed=needed,
        ),
    )


def jpeg_address(data: bytes) -> str:
    """Put a JPEG into a data address.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    str
    """
    return f"{JPEG_ADDRESS}{base64.b64encode(data).decode('ascii')}"


def packed_array(array: npt.NDArray[Any]) -> str:
    """An array's values, little-endian, as base64.

    Parameters
    ----------
    array : ndarray
        Of any shape and a numeric dtype.

    Returns
    -------
    str
        Its values in C order.

    Examples
    --------
    >>> import numpy as np
    >>> packed_array(np.array([1], np.uint16))
    'AQA='
    """
    return base64.b64encode(array.astype(array.dtype.newbyteorder("<")).tobytes()).decode("ascii")


def _jpeg(pixels: U8, *, quality: int, divisor: int) -> bytes:
    image = Image.fromarray(pixels)
    if divisor > 1:
        image = image.reduce(divisor)
    out = io.BytesIO()
    # Colour at full resolution: the proof is about colour. Not `optimize`, for which Pillow's buffer is too
    # small where a picture is all noise.
    image.save(out, "JPEG", quality=quality, subsampling=0)
    return out.getvalue()
