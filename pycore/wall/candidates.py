"""Quadrilaterals in a reduced photograph that may be a sheet of paper: light parts, and parts without edges.

A part that is lighter than a threshold is a sheet where the light on it is even. A part that edges enclose is
one under a shadow too, since a shadow's edge is softer than the sheet's.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from pycore.wall.blobs import largest_quadrilateral, parts
from pycore.wall.least_squares import Floats

_THRESHOLDS: Final = 14
#: Edges are steps of the logarithm of light, a pixel; from faint to strong ones.
_STEPS: Final = (0.02, 0.03, 0.04, 0.055, 0.075, 0.1)
#: A part without edges ends so many pixels before the edge that encloses it.
_BEFORE_EDGE_PX: Final = 1.5
#: Levels that are added before the logarithm: noise in the dark is no edge.
_FLOOR: Final = 12.0
#: Shares of the copy that a candidate may fill.
_LEAST_SHARE, _MOST_SHARE = 0.0006, 0.35
#: A part fills its quadrilateral at least so far, and its hull goes no further beyond it.
_LEAST_FILL, _MOST_HULL = 0.86, 1.12
#: Logarithms of aspect ratios that differ by more are another shape; and how fast trust falls off.
MOST_OFF: Final = 0.30
SHAPE_OFF: Final = 0.12


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """A quadrilateral that may be a sheet.

    Attributes
    ----------
    corners : (4, 2) float64
        Clockwise from the upper left, in the full photograph.
    score : float
        0 to 1.
    """

    corners: Floats
    score: float


def candidates(
    copy: Image.Image, stretch: Floats, off_shape: Callable[[Floats], float]
) -> Generator[float, None, list[Candidate]]:
    """Find quadrilaterals of about the right shape.

    Parameters
    ----------
    copy : PIL.Image.Image
        A reduced copy, mode RGB, srgb_encoded.
    stretch : (2,) float64
        Pixels of the full photograph for one of the copy, x and y.
    off_shape : callable
        From corners in the full photograph to how far their shape is off, as the logarithm of a ratio.

    Yields
    ------
    float
        How much of the work is done, 0 to 1.

    Returns
    -------
    list of Candidate
    """
    kept: list[Candidate] = []
    cuts = _cuts(copy)
    for number, (field, level, beyond_px) in enumerate(cuts):
        yield number / len(cuts)
        mask = field > level
        least, most = int(_LEAST_SHARE * mask.size), int(_MOST_SHARE * mask.size)
        for area, points in parts(mask, least_px=least, most_px=most):
            found = largest_quadrilateral(points)
            if found is None:
                continue
            corners, inside, hull = found
            if area < _LEAST_FILL * inside or hull > _MOST_HULL * inside:
                continue
            corners = _widened(corners, beyond_px) * stretch
            off = off_shape(corners)
            if off < MOST_OFF:
                fill = min(area / inside, inside / hull, 1.0)
                kept.append(Candidate(corners, float(fill * np.exp(-((off / SHAPE_OFF) ** 2) / 4))))
    return kept


def distinct(found: Iterable[Candidate]) -> list[Candidate]:
    """Order candidates, and leave out those that are nearly a better one.

    Parameters
    ----------
    found : iterable of Candidate

    Returns
    -------
    list of Candidate
        The best ones first; of those whose corners all lie near a better one's none.
    """
    kept: list[Candidate] = []
    for one in sorted(found, key=lambda one: -one.score):
        reach = 0.04 * float(np.linalg.norm(one.corners[2] - one.corners[0]))
        if all(np.abs(one.corners - other.corners).max() > reach for other in kept):
            kept.append(one)
    return kept


def _cuts(copy: Image.Image) -> list[tuple[NDArray[np.float32], float, float]]:
    """Fields, levels above which parts may be sheets, and by how much those end before the sheet's edge."""
    cuts: list[tuple[NDArray[np.float32], float, float]] = []
    colours = np.asarray(copy.filter(ImageFilter.GaussianBlur(1.0)), np.float32)
    smooth = colours.min(axis=2)
    # Divided by the light round about, a sheet in a half shadow or on an uneven wall is still one part.
    around = np.asarray(copy.filter(ImageFilter.GaussianBlur(max(copy.size) / 14)), np.float32).min(axis=2)
    for field in (smooth, smooth / (around + 8)):
        levels = np.quantile(field, np.linspace(0.35, 0.999, _THRESHOLDS))
        spread = np.linspace(levels[0], levels[-1], _THRESHOLDS)
        cuts += [(field, level, 0.0) for level in np.unique(np.concatenate([levels, spread]))]
    light = np.log(colours + _FLOOR)
    steps = np.zeros(smooth.shape, np.float32)
    steps[1:-1, 1:-1] = np.hypot(light[1:-1, 2:] - light[1:-1, :-2], light[2:, 1:-1] - light[:-2, 1:-1]).max(
        axis=2
    )
    return [*cuts, *((-steps, -2 * step, _BEFORE_EDGE_PX) for step in _STEPS)]


def _widened(corners: Floats, by_px: float) -> Floats:
    """A quadrilateral whose edges lie further out."""
    if not by_px:
        return corners
    along = np.roll(corners, -1, axis=0) - corners
    outwards = np.stack([along[:, 1], -along[:, 0]], axis=1) / np.linalg.norm(along, axis=1)[:, None]
    # Each corner is moved by both of its edges: they meet at about a right angle.
    return np.asarray(corners + by_px * (outwards + np.roll(outwards, 1, axis=0)))
