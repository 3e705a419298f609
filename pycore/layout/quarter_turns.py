"""The quarter turns of a job: what becomes of a picture's size, and where a box on it came from."""

from __future__ import annotations

from typing import TypeVar

Number = TypeVar("Number", int, float)


def turned_size(size: tuple[int, int], turn: int) -> tuple[int, int]:
    """A picture's size after a turn.

    Parameters
    ----------
    size : tuple of int
        Width and height of the upright picture, pixels.
    turn : int
        0, 90, 180 or 270 degrees.

    Returns
    -------
    tuple of int
        Width and height, pixels.

    Examples
    --------
    >>> turned_size((6000, 4000), 90)
    (4000, 6000)
    """
    width, height = size
    return (height, width) if turn in (90, 270) else (width, height)


def unturned_box(
    box: tuple[Number, Number, Number, Number], turn: int, *, size: tuple[int, int]
) -> tuple[Number, Number, Number, Number]:
    """Where a box on the turned picture lies on the upright one.

    Parameters
    ----------
    box : tuple of int or of float
        Left, top, right and bottom, pixels of the turned picture, x to the right and y down.
    turn : int
        Clockwise: 0, 90, 180 or 270 degrees.
    size : tuple of int
        Width and height of the upright picture, pixels.

    Returns
    -------
    tuple of int or of float
        Left, top, right and bottom, pixels of the upright picture.

    Examples
    --------
    >>> unturned_box((0, 0, 1, 2), 90, size=(30, 20))
    (0, 19, 2, 20)
    """
    left, top, right, bottom = box
    width, height = size
    if turn == 90:  # Turned clockwise: the picture's left edge is now the top one.
        return top, height - right, bottom, height - left
    if turn == 180:
        return width - right, height - bottom, width - left, height - top
    if turn == 270:
        return width - bottom, left, width - top, right
    return left, top, right, bottom
