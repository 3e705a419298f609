"""Where a piece is seen in a photograph, and whether it is seen at all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from pycore.errors import FieldError
from pycore.speech import say
from pycore.wall.least_squares import Floats
from pycore.wall.piece import Box

#: A place whose scale is below this share of that at the reference is nearly on the wall's vanishing line.
_VANISHING: Final = 0.02


def seen_corners(
    camera: Floats, boxes: Sequence[Box], whole: Box, *, size_px: tuple[int, int]
) -> list[Floats]:
    """The front corners of pieces in the photograph.

    Parameters
    ----------
    camera : (3, 4) float64
        From (x, y, z, 1) in mm on the wall to pixels.
    boxes : sequence of Box
    whole : Box
        Round all of them.
    size_px : (int, int)
        The photograph's width and height.

    Returns
    -------
    list of (4, 2) float64
        Of `whole`, then of each box: upper left, upper right, lower right, lower left.

    Raises
    ------
    FieldError
        The piece lies behind the camera, outside the photograph, or is larger than what the photograph shows.
    """
    at = f"{whole.centre_mm[0]:g},{whole.centre_mm[1]:g}"
    depths = np.column_stack([whole.all_mm, np.ones(8)]) @ camera[2]
    if (depths < _VANISHING * camera[2, 3]).any():
        raise FieldError(
            field="wall.at",
            expected=say("a place on the wall before the camera"),
            got=say("{at}, which runs past the camera", at=at),
            remedy=say("choose a place nearer to the reference, or a photograph that shows the place"),
        )
    found = [_front(camera, one) for one in (whole, *boxes)]
    low, high = found[0].min(axis=0), found[0].max(axis=0)
    size = np.array(size_px, np.float64)
    if ((low < 0) & (high > size)).any():
        wide, tall = whole.size_mm
        raise FieldError(
            field="wall.face",
            expected=say("no larger than the wall in view"),
            got=say("{wide:g} x {tall:g} mm", wide=wide, tall=tall),
            remedy=say("photograph more of the wall, or choose a smaller face"),
        )
    if (high <= 0).any() or (low >= size).any():
        raise FieldError(
            field="wall.at",
            expected=say("a place that the photograph shows"),
            got=say("{at}, outside the photograph", at=at),
            remedy=say("choose a place nearer to the reference"),
        )
    return found


def is_cut_off(corners_px: Floats, *, size_px: tuple[int, int]) -> bool:
    """Whether a part of a piece lies outside the photograph.

    Parameters
    ----------
    corners_px : (4, 2) float64
    size_px : (int, int)
        The photograph's width and height.

    Returns
    -------
    bool

    Examples
    --------
    >>> corners = np.array([[1.0, 1], [5, 1], [5, 7], [1, 7]])
    >>> [is_cut_off(corners, size_px=size) for size in ((4, 8), (6, 6), (6, 8))]
    [True, True, False]
    """
    return bool((corners_px < 0).any() or (corners_px > np.array(size_px)).any())


def _front(camera: Floats, box: Box) -> Floats:
    seen = np.column_stack([box.front_mm, np.ones(4)]) @ camera.T
    return np.asarray(seen[:, :2] / seen[:, 2:])
