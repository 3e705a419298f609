"""The one place where a decoder's own exceptions become a clear error about the picture."""

from __future__ import annotations

import logging
import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager

from PIL import Image, UnidentifiedImageError

from pycore.errors import PictureError
from pycore.speech import say

#: Larger pictures are refused before they are decoded: at four bytes a pixel this is a gigabyte.
LARGEST_PX = 250_000_000

#: What Pillow's and tifffile's decoders raise on damaged data. They parse by hand, so next to their own
#: errors everything that slicing, unpacking and looking up damaged bytes can raise is among them.
DECODER_FAILURES: tuple[type[Exception], ...] = (
    OSError,
    SyntaxError,
    ValueError,
    TypeError,
    ArithmeticError,
    LookupError,
    AttributeError,
    EOFError,
    NotImplementedError,
    RuntimeError,
    struct.error,
    zlib.error,
    Image.DecompressionBombError,
)

_LOGS = [logging.getLogger(name) for name in ("PIL", "tifffile")]


def picture_error(*, expected: str, got: str, remedy: str) -> PictureError:
    """A `PictureError` about the picture's file.

    Parameters
    ----------
    expected, got, remedy : str
        As `PictureError` takes them.

    Returns
    -------
    PictureError
        To be raised by the caller.

    Examples
    --------
    >>> picture_error(expected="a picture", got="nothing", remedy="choose one").field
    'picture.file'
    """
    return PictureError(field="picture.file", expected=expected, got=got, remedy=remedy)


@contextmanager
def decoding(what: str, *, begins_as: str = "") -> Iterator[list[str]]:
    """Run a decoder: its exceptions become `PictureError`, its warnings are collected.

    Pillow's own pixel limit is lifted inside, since `LARGEST_PX` is checked instead; it is put back after.

    Parameters
    ----------
    what : str
        What is being decoded, for the message.
    begins_as : str
        The kind of picture that the file's first bytes say it is, for the message; empty for none.

    Yields
    ------
    list of str
        The decoder's warnings, filled when the block ends.

    Raises
    ------
    PictureError
        The decoder failed, or memory ran out.
    """
    said: list[str] = []
    try:
        with warnings.catch_warnings(record=True) as caught, no_pixel_limit(), _unlogged():
            warnings.simplefilter("always")
            yield said
        said += [_one_line(str(warning.message)) for warning in caught]
    except PictureError:
        raise
    except UnidentifiedImageError as failure:
        if begins_as:
            raise picture_error(
                expected=say("grey, RGB or CMYK with 8 or 16 bits"),
                got=say(
                    "a {begins_as} file that is damaged at its start or has pixels of another kind",
                    begins_as=begins_as,
                ),
                remedy=say("export the picture again, as RGB with 8 or 16 bits"),
            ) from failure
        raise picture_error(
            expected=say("a JPEG, PNG, TIFF or WebP picture"),
            got=say("none of these, or damaged at its start"),
            remedy=say("choose a picture file, or export it again"),
        ) from failure
    except MemoryError as failure:
        raise picture_error(
            expected=say("small enough for the memory"),
            got=say("larger than the memory that is free"),
            remedy=say("reduce the picture, or close other pages and try again"),
        ) from failure
    except DECODER_FAILURES as failure:
        reason = _one_line(str(failure))
        # A key or a number alone, as lookups fail with, tells nobody anything.
        is_told = any(sign.isalpha() for sign in reason)
        raise picture_error(
            expected=say("a whole {what}", what=what),
            got=say("damaged or cut off ({one_line})", one_line=reason)
            if is_told
            else say("damaged or cut off"),
            remedy=say("copy or export the picture again"),
        ) from failure


@contextmanager
def _unlogged() -> Iterator[None]:
    """Keep the decoders' logs off the error stream: what is wrong with a file is said once, by the error."""
    before = [log.propagate for log in _LOGS]
    quiet = logging.NullHandler()
    for log in _LOGS:
        log.addHandler(quiet)
        log.propagate = False
    try:
        yield
    finally:
        for log, propagates in zip(_LOGS, before, strict=True):
            log.removeHandler(quiet)
            log.propagate = propagates


@contextmanager
def no_pixel_limit() -> Iterator[None]:
    """Lift Pillow's own pixel limit, which is a setting of the whole process, and put it back after."""
    limit = Image.MAX_IMAGE_PIXELS
    Image.MAX_IMAGE_PIXELS = None
    try:
        yield
    finally:
        Image.MAX_IMAGE_PIXELS = limit


def check_pixel_count(width_px: int, height_px: int) -> None:
    """Refuse a picture that is too large to decode, by its header alone.

    Parameters
    ----------
    width_px, height_px : int
        By the picture's header.

    Raises
    ------
    PictureError
        More than `LARGEST_PX`, or no pixels at all.

    Examples
    --------
    >>> check_pixel_count(6000, 4000)
    """
    if width_px < 1 or height_px < 1:
        raise picture_error(
            expected=say("at least one pixel large"),
            got=say("{width_px} x {height_px} pixels", width_px=width_px, height_px=height_px),
            remedy=say("export the picture again"),
        )
    if width_px * height_px > LARGEST_PX:
        raise picture_error(
            expected=say("at most {largest_px} megapixels", largest_px=LARGEST_PX // 1000000),
            got=say(
                "{width_px} x {height_px} pixels, {width_px2:.0f} megapixels",
                width_px=width_px,
                height_px=height_px,
                width_px2=width_px * height_px / 1000000.0,
            ),
            remedy=say("reduce the picture; fewer pixels are enough for a canvas of any size"),
        )


def _one_line(text: str) -> str:
    return " ".join(text.split())[:120]
