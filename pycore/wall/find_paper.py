"""A sheet of paper, or another light rectangle of known shape, found in a photograph without a hand.

Light parts that fill a quadrilateral are candidates, at many thresholds; each one's edges are then found as
lines in the full photograph. The one whose edges are best seen, whose shape is right and which is evenly
light is the answer.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from PIL import Image

from pycore.colour.spaces.srgb import SRGB_LUMINANCE, srgb_decode
from pycore.contract.record import Pair
from pycore.picture.tones import U8
from pycore.progress import part_of_share
from pycore.wall.aspect import nearest_size
from pycore.wall.candidates import MOST_OFF, SHAPE_OFF, candidates, distinct
from pycore.wall.edge_checks import edges_are_clean, edges_run_on
from pycore.wall.edge_lines import F32, EdgeLines, refine_corners
from pycore.wall.edge_settle import settle_corners
from pycore.wall.least_squares import Floats

#: The longer side of the reduced copy that candidates are looked for in.
_COPY_PX: Final = 640
#: Quadrilaterals whose edges are looked for in the full photograph.
_TRIED: Final = 14
#: How much of the work it is to look for candidates, for the progress only.
_LOOKING: Final = 0.4
#: What an answer needs: of each edge's places so many on its line, and this score.
_LEAST_SUPPORT, _LEAST_SCORE = 0.8, 0.3
#: Corners lie so far inside the photograph.
_BORDER_PX: Final = 2.0
_LUMINANCE: Final = np.array(SRGB_LUMINANCE, np.float32)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FoundPaper:
    """A reference that was found.

    Attributes
    ----------
    corners_px : (4, 2) float64
        Upper left, upper right, lower right, lower left, in the full photograph.
    support : float
        Of the worst edge the share that lies on its line.
    """

    corners_px: Floats
    support: float


def search_paper(
    photo: Image.Image, sizes: Sequence[Pair], *, focal_px: float | None, usual_px: float
) -> Generator[float, None, FoundPaper | None]:
    """Look for a light rectangle of known shape.

    Parameters
    ----------
    photo : PIL.Image.Image
        Mode RGB, srgb_encoded, upright.
    sizes : sequence of (float, float)
        The widths and heights that it may have; only their shapes count.
    focal_px : float or None
        Where it is known.
    usual_px : float
        What stands in for it.

    Yields
    ------
    float
        How much of the work is done, 0 to 1.

    Returns
    -------
    FoundPaper or None
        None where nothing is sure enough.
    """
    scale = min(1.0, _COPY_PX / max(photo.size))
    size = (max(8, round(photo.width * scale)), max(8, round(photo.height * scale)))
    copy = photo.resize(size, Image.Resampling.BOX, reducing_gap=3.0)
    stretch = np.array([photo.width / size[0], photo.height / size[1]])
    centre = np.array(photo.size) / 2

    def off_shape(corners: Floats) -> float:
        return nearest_size(corners, sizes, focal_px=focal_px, usual_px=usual_px, centre_px=centre)[1]

    looked = yield from part_of_share(candidates(copy, stretch, off_shape), begin=0.0, share=_LOOKING)
    tried = distinct(looked)[:_TRIED]
    best, most = None, _LEAST_SCORE
    for number, one in enumerate(tried):
        yield _LOOKING + (1 - _LOOKING) * number / len(tried)
        found = refine_in(photo, one.corners, reach_px=2.0 * float(stretch.max()) + 2)
        if found is None or found.support < _LEAST_SUPPORT or not _is_within(photo, found.corners_px):
            continue
        off = off_shape(found.corners_px)
        score = (
            found.support * np.exp(-((off / SHAPE_OFF) ** 2)) * _evenness(copy, found.corners_px / stretch)
        )
        if off < MOST_OFF and score > most and _is_own(photo, found.corners_px):
            best, most = found, float(score)
    return None if best is None else FoundPaper(corners_px=best.corners_px, support=best.support)


def refine_in(photo: Image.Image, corners_px: Floats, *, reach_px: float) -> EdgeLines | None:
    """Move corners to where the edges' lines meet in a photograph.

    Parameters
    ----------
    photo : PIL.Image.Image
        Mode RGB, srgb_encoded, upright.
    corners_px : (4, 2) float64
        Clockwise.
    reach_px : float
        How far from the given edges is looked.

    Returns
    -------
    EdgeLines or None
        None where an edge is not seen.
    """
    around = reach_px + 8
    left, top = np.maximum(np.floor(corners_px.min(axis=0) - around), 0).astype(int)
    right, bottom = np.minimum(np.ceil(corners_px.max(axis=0) + around), photo.size).astype(int)
    if right - left < 8 or bottom - top < 8:
        return None
    origin = np.array([left, top], np.float64)
    light = linear_light(np.asarray(photo.crop((left, top, right, bottom))))
    found = refine_corners(light, corners_px - origin, reach_px=reach_px)
    if found is None:
        return None
    # Once more from there: lines that were slanted within the first reach are then nearly straight.
    again = refine_corners(light, found.corners_px, reach_px=min(reach_px, 4.0))
    found = settle_corners(light, found if again is None else again)
    return EdgeLines(corners_px=found.corners_px + origin, support=found.support)


def linear_light(pixels: U8) -> F32:
    """The luminance of pixels.

    Parameters
    ----------
    pixels : (..., 3) uint8
        srgb_encoded.

    Returns
    -------
    (...) float32
        0 to 1.

    Examples
    --------
    >>> linear_light(np.array([[255, 255, 255]], np.uint8)).tolist()
    [1.0]
    """
    table = srgb_decode(np.arange(256) / 255).astype(np.float32)
    return np.asarray(table[pixels] @ _LUMINANCE)


def _is_within(photo: Image.Image, corners: Floats) -> bool:
    """Whether all of a quadrilateral is seen: the photograph's own border is no edge."""
    return bool((corners >= _BORDER_PX).all() and (corners <= np.array(photo.size) - _BORDER_PX).all())


def _is_own(photo: Image.Image, corners: Floats) -> bool:
    """Whether a quadrilateral's edges are those of a sheet, and of nothing else on the wall."""
    around = 0.5 * float(np.ptp(corners, axis=0).max())
    left, top = np.maximum(np.floor(corners.min(axis=0) - around), 0).astype(int)
    right, bottom = np.minimum(np.ceil(corners.max(axis=0) + around), photo.size).astype(int)
    part = np.asarray(photo.crop((left, top, right, bottom)))
    here = corners - np.array([left, top], np.float64)
    # What is as light as the sheet beside it, as a joint between bricks, mostly has another colour.
    channels = [linear_light(np.repeat(part[..., one : one + 1], 3, axis=2)) for one in range(3)]
    return all(edges_are_clean(one, here) for one in channels) and not edges_run_on(linear_light(part), here)


def _evenness(copy: Image.Image, corners: Floats) -> float:
    """How even a quadrilateral's inside is beside what it differs from round about, 0 to 1."""
    middle = corners.mean(axis=0)
    pixels = np.asarray(copy, np.float32).min(axis=2)

    def values(share: float) -> Floats:
        ring = middle + share * (corners - middle)
        steps = np.linspace(0, 1, 24, endpoint=False)[:, None]
        points = np.concatenate(
            [a + steps * (b - a) for a, b in zip(ring, np.roll(ring, -1, 0), strict=True)]
        )
        x, y = np.clip(points.astype(int), 0, np.array(copy.size) - 1).T
        return np.asarray(pixels[y, x], np.float64)

    inside = np.concatenate([values(share) for share in (0.3, 0.55, 0.8)])
    contrast = float(np.median(values(0.8)) - np.median(values(1.25)))
    if contrast <= 1:
        return 0.0
    low, high = np.quantile(inside, [0.1, 0.9])
    return float(np.clip(1.2 - 0.5 * (high - low) / contrast, 0.05, 1))
