"""A picture runs on past an edge: reflected, or drawn out from the colours along the edge."""

from __future__ import annotations

import numpy as np

from pycore.fill.facing import copy_pixels
from pycore.picture.tones import AnyTones, Values


def reflect(view: Values, *, start: int, edge: int, end: int) -> None:
    """Fill the rows past an edge with the rows before it in reverse, the edge row twice.

    Parameters
    ----------
    view : (rows, columns, channels) uint8 or uint16
        Written in place.
    start, edge, end : int
        Rows `start` to `edge` hold the picture; `edge` to `end` are filled. When there are more to fill than
        the picture has, it is reflected at its other end too, and so on.

    References
    ----------
    `numpy.pad(mode="symmetric")` gives the same.

    Examples
    --------
    >>> column = np.arange(1, 6, dtype=np.uint8).reshape(5, 1, 1)
    >>> reflect(column, start=0, edge=3, end=5)
    >>> column.ravel().tolist()
    [1, 2, 3, 3, 2]
    """
    size = edge - start
    at = min(end, edge + size)
    copy_pixels(view[edge:at], view[edge - (at - edge) : edge][::-1])
    while at < end:
        # A picture reflected at both of its ends repeats after twice its size.
        stop = min(end, at + 2 * size)
        copy_pixels(view[at:stop], view[at - 2 * size : stop - 2 * size])
        at = stop


def draw_out(view: Values, *, edge: int, end: int, band: int, tones: AnyTones) -> None:
    """Fill the rows past an edge with the mean colour, in linear light, of the last rows before it.

    The first row past the edge is the edge row, the next one the mean of the last two rows, and so on until
    all of the band is averaged. So nothing steps at the edge where colours change towards it.

    Parameters
    ----------
    view : (rows, columns, channels) uint8 or uint16
        Written in place.
    edge, end : int
        Rows `edge` to `end` are filled.
    band : int
        Rows that are averaged, 1 or more. 1 gives `numpy.pad(mode="edge")`.
    tones : Tones or DeepTones
        The picture's tables.

    Examples
    --------
    >>> from pycore.picture.tones import tones
    >>> column = np.array([10, 20, 30, 0, 0, 0], np.uint8).reshape(6, 1, 1)
    >>> draw_out(column, edge=3, end=6, band=2, tones=tones(None, channels=1))
    >>> column.ravel().tolist()
    [10, 20, 30, 30, 25, 25]
    """
    if band <= 1:
        copy_pixels(view[edge:end], np.broadcast_to(view[edge - 1], view[edge:end].shape))
        return
    past = slice(edge, min(edge + band, end))
    for channel in range(tones.channels):
        means = tones.running_means(view[edge - band : edge, :, channel][::-1], channel)
        for row, mean in zip(view[past, :, channel], means, strict=False):
            row[:] = tones.from_light(mean[np.newaxis], channel)[0]
        view[past.stop : end, :, channel] = view[past.stop - 1, :, channel]
