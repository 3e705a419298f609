"""The EXIF orientation: eight ways in which a camera may have held its sensor."""

from __future__ import annotations

from PIL import Image

_ORIENTATION_TAG = 0x0112

#: EXIF 2.32 (JEITA CP-3451), tag 0x0112: what sets each value upright. Pillow rotates anti-clockwise.
_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}

#: Clockwise quarter turns of the job, in degrees.
_TURNS = {
    90: Image.Transpose.ROTATE_270,
    180: Image.Transpose.ROTATE_180,
    270: Image.Transpose.ROTATE_90,
}


def orientation_of(image: Image.Image) -> int:
    """The orientation that a picture asks for, 1 where it asks for none.

    Parameters
    ----------
    image : PIL.Image.Image
        As opened. A PNG's may stand after its pixels, so it is to be decoded before.

    Returns
    -------
    int
        1 to 8; a value that the standard does not define counts as 1.

    Raises
    ------
    Exception
        Whatever the decoder raises on damaged metadata.

    Examples
    --------
    >>> orientation_of(Image.new("L", (3, 2)))
    1
    """
    value = image.getexif().get(_ORIENTATION_TAG, 1)
    return value if isinstance(value, int) and value in _UPRIGHT else 1


def set_upright(image: Image.Image, orientation: int) -> Image.Image:
    """Set a picture upright.

    Parameters
    ----------
    image : PIL.Image.Image
        Decoded.
    orientation : int
        1 to 8.

    Returns
    -------
    PIL.Image.Image
        The same image where it stands upright already.

    Examples
    --------
    >>> set_upright(Image.new("L", (3, 2)), 6).size
    (2, 3)
    """
    how = _UPRIGHT.get(orientation)
    return image if how is None else image.transpose(how)


def turned(image: Image.Image, turn: int) -> Image.Image:
    """Turn a picture clockwise by quarters.

    Parameters
    ----------
    image : PIL.Image.Image
        Upright.
    turn : int
        0, 90, 180 or 270 degrees.

    Returns
    -------
    PIL.Image.Image
        The same image for 0.

    Examples
    --------
    >>> turned(Image.new("L", (3, 2)), 90).size
    (2, 3)
    """
    how = _TURNS.get(turn)
    return image if how is None else image.transpose(how)
