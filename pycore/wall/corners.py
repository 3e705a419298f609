"""Whether four marked corners can be those of a rectangle on a wall."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.errors import FieldError
from pycore.speech import say
from pycore.wall.least_squares import Floats
from pycore.wall.reference import Corners

#: Corners that are nearer than this are one.
_APART_PX: Final = 3.0
#: A corner whose height over its neighbours' line is less than this share of the line lies on it.
_COLLINEAR: Final = 0.01
#: A quadrilateral thinner than this share of its length is a rectangle that is seen edge-on.
_THIN: Final = 0.05
_NAMES: Final = (say("upper left"), say("upper right"), say("lower right"), say("lower left"))
_MARK: Final = say("mark upper left, upper right, lower right and lower left, in this order")


def check_corners(corners: Corners, *, width_px: int, height_px: int) -> Floats:
    """Check the marked corners of a reference.

    Parameters
    ----------
    corners : four (x, y)
        Upper left, upper right, lower right, lower left; pixels of the upright photograph.
    width_px, height_px : int
        The upright photograph's size.

    Returns
    -------
    (4, 2) float64

    Raises
    ------
    FieldError
        A corner lies outside the photograph, two are one, three lie in a line, the order is another, the
        edges cross, or the reference is seen edge-on.

    Examples
    --------
    >>> check_corners(((0, 0), (9, 0), (9, 9), (0, 9)), width_px=10, height_px=10).shape
    (4, 2)
    """
    found = np.array(corners, np.float64)
    for name, (x, y) in zip(_NAMES, found, strict=True):
        if not (0 <= x <= width_px and 0 <= y <= height_px):
            raise _wrong(
                say(
                    "corners inside the photograph of {width_px} x {height_px} pixels",
                    width_px=width_px,
                    height_px=height_px,
                ),
                say("{name} at {x:g},{y:g}", name=name, x=x, y=y),
                say("mark them in the upright photograph, in its own pixels"),
            )
    for one in range(4):
        for other in range(one):
            if np.linalg.norm(found[one] - found[other]) < _APART_PX:
                raise _wrong(
                    say("four different corners"),
                    say("{names} and {names2} in one place", names=_NAMES[other], names2=_NAMES[one]),
                    say("mark each corner of the reference once"),
                )
    _check_shape(found)
    return found


def _check_shape(found: Floats) -> None:
    edges = np.roll(found, -1, axis=0) - found
    turns = edges[:, 0] * np.roll(edges[:, 1], -1) - edges[:, 1] * np.roll(edges[:, 0], -1)
    # From the first edge's turn at the second corner, and so on.
    across = np.linalg.norm(np.roll(edges, -1, axis=0) + edges, axis=1)
    heights = np.abs(turns) / np.maximum(across, _APART_PX)
    spread = np.linalg.svd(found - found.mean(axis=0), compute_uv=False)
    if spread[1] < _THIN * spread[0]:
        raise _wrong(
            say("a reference that is seen from the front or at a slant"),
            say("corners nearly in one line, of a reference seen edge-on"),
            say("photograph the wall from further in front of it"),
        )
    if (turns > 0).any() and (turns < 0).any() and (turns > 0).sum() == (turns < 0).sum():
        raise _wrong(say("corners in order round the reference"), say("edges that cross"), _MARK)
    if (heights < _COLLINEAR * across).any():
        at = _NAMES[(int(np.argmin(heights / across)) + 1) % 4]
        raise _wrong(
            say("four corners of a rectangle"),
            say("three corners in one line ({at} in the middle)", at=at),
            say("mark them again"),
        )
    if (turns > 0).any() and (turns < 0).any():
        raise _wrong(
            say("the corners of a rectangle"),
            say("four corners of which one lies inside the others"),
            say("mark them again"),
        )
    if (turns < 0).all():
        raise _wrong(say("corners clockwise from the upper left"), say("corners in another order"), _MARK)


def no_rectangle(rms_px: float) -> FieldError:
    """The error for corners that no camera sees a rectangle of this size at.

    Parameters
    ----------
    rms_px : float
        By how much the nearest rectangle's corners miss them.

    Returns
    -------
    FieldError
        To be raised by the caller.

    Examples
    --------
    >>> no_rectangle(41.2).got
    'corners that miss every such rectangle by 41 pixels'
    """
    return _wrong(
        say("the corners of a flat rectangle of the reference's size"),
        say("corners that miss every such rectangle by {rms_px:.0f} pixels", rms_px=rms_px),
        say(
            "mark them again, check the reference's size, and use the whole photograph as the camera made it"
        ),
    )


def _wrong(expected: str, got: str, remedy: str) -> FieldError:
    return FieldError(field="corners", expected=expected, got=got, remedy=remedy)
