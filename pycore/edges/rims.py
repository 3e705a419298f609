"""A thin rim of another colour at the picture's very edge, as a scan or a careless crop leaves it."""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt
from PIL import Image

from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.layout.quarter_turns import turned_size
from pycore.layout.window import picture_window
from pycore.picture.tones import U8

#: Rows from the edge that are looked at.
RIM_DEPTH_PX: Final = 16
#: A rim is at most so wide: what is wider was meant as a border.
_MOST_PX: Final = 6
#: Levels of 255 by which a rim's colour varies along it, but for 3 pixels of 100: a JPEG's own noise.
_EVEN: Final = 20
_EVEN_PERCENT: Final = 97
#: Levels from which what lies behind the rim has another colour, along at least this share of the edge: where
#: it has the rim's own colour, nothing is seen.
_APART: Final = 30
_LEAST_SEEN: Final = 0.5
#: Where it has another colour the rim ends there at once, along nearly all of the edge.
_SHARP: Final = 0.6
_MOST_SHARP: Final = 0.9
#: A last row of the rim that is mixed with the picture by more than this is counted to it.
_MIXED: Final = 0.25
#: A single row may be the picture's own, mixed with white or black: by at least this share, and nowhere by
#: much less. Our own choice, as all of these: of 220 photographs and drawings, it finds the four that have
#: a rim, and no other.
_BLENDED: Final = 0.2
_LEAST_BLENDED: Final = 0.4
_ROOM: Final = 60
#: Pixels of a rim of which less is left on the face by rounding alone.
_LEAST_SHOWN: Final = 0.25

#: Places along an edge that are looked at.
_MOST_PLACES: Final = 1500

_I32 = npt.NDArray[np.int32]


def picture_rims(image: Image.Image) -> dict[Side, int]:
    """How wide a rim the picture has at each edge.

    Parameters
    ----------
    image : PIL.Image.Image
        The upright picture, L, RGB or CMYK.

    Returns
    -------
    dict of Side to int
        Pixels, of the edges that have one.

    Examples
    --------
    >>> picture_rims(Image.new("RGB", (60, 40), "teal"))
    {}
    """
    width, height = image.size
    deep = RIM_DEPTH_PX
    if min(width, height) < 4 * deep:
        return {}
    boxes = {
        Side.TOP: (0, 0, width, deep),
        Side.RIGHT: (width - deep, 0, width, height),
        Side.BOTTOM: (0, height - deep, width, height),
        Side.LEFT: (0, 0, deep, height),
    }
    found = {}
    for quarters, (side, box) in enumerate(boxes.items()):
        # A quarter against the clock brings the right edge to the top.
        strip = np.rot90(np.asarray(image.crop(box).convert("RGB")), quarters)
        rim = rim_width_px(strip[:, :: max(1, strip.shape[1] // _MOST_PLACES)])
        if rim > 0:
            found[side] = rim
    return found


def shown_rims_mm(job: Job, rims: dict[Side, int], *, size_px: tuple[int, int]) -> dict[Side, float]:
    """How much of each rim a face shows.

    Parameters
    ----------
    job : Job
        A checked job of one panel.
    rims : dict of Side to int
        Of the upright picture, pixels.
    size_px : (int, int)
        Width and height of the upright picture.

    Returns
    -------
    dict of Side to float
        mm on the face, by the face's sides; only where some of it is shown.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    face = picture_window(job, width_px=size_px[0], height_px=size_px[1]).face
    width, height = turned_size(size_px, job.picture.turn)
    cropped_px = {
        Side.TOP: face.y * height,
        Side.RIGHT: (1 - face.x - face.width) * width,
        Side.BOTTOM: (1 - face.y - face.height) * height,
        Side.LEFT: face.x * width,
    }
    mm_per_px = job.face.width_mm / (face.width * width)
    # A turn clockwise brings the picture's top to the right.
    sides = list(Side)
    turned = {sides[(sides.index(side) + job.picture.turn // 90) % 4]: rim for side, rim in rims.items()}
    shown = {side: (rim - cropped_px[side]) * mm_per_px for side, rim in turned.items()}
    return {side: shown[side] for side in Side if shown.get(side, 0.0) > _LEAST_SHOWN * mm_per_px}


def rim_width_px(strip: U8) -> int:
    """How wide a rim is.

    Parameters
    ----------
    strip : (`RIM_DEPTH_PX`, length, 3) uint8
        Pixels of the picture along one edge, encoded; the first row is the outermost.

    Returns
    -------
    int
        Pixels; 0 where there is no thin rim.

    Examples
    --------
    >>> strip = np.tile(np.linspace(40, 200, 300, dtype=np.uint8)[:, np.newaxis], (16, 1, 3))
    >>> rim_width_px(strip)
    0
    >>> strip[:3] = 255
    >>> rim_width_px(strip)
    3
    """
    rows = strip.astype(np.int32)
    return _even_rim(rows) or _blended_rim(rows)


def _even_rim(rows: _I32) -> int:
    """A rim of one colour."""
    colour = np.median(rows[0], axis=0)
    off = np.abs(rows - colour).max(axis=2)
    is_even = np.percentile(off[: _MOST_PX + 1], _EVEN_PERCENT, axis=1) <= _EVEN
    width = int(np.argmin(is_even)) if not is_even.all() else 0
    if width == 0:
        return 0
    behind = np.median(rows[width + 1 : width + 7], axis=0)
    apart = np.abs(behind - colour).max(axis=1)
    seen = apart > _APART
    if seen.mean() < _LEAST_SEEN or np.mean((off[width + 1] > _SHARP * apart)[seen]) < _MOST_SHARP:
        return 0
    mixed = (np.abs(rows[width] - behind).max(axis=1) > _MIXED * apart)[seen]
    return width + int(mixed.mean() > 0.5)


def _blended_rim(rows: _I32) -> int:
    """One row of the picture's own, mixed with white or black."""
    for other in (255, 0):
        first, second = _shares(rows[0], rows[1], other), _shares(rows[1], rows[2], other)
        if min(first.size, second.size) < _LEAST_SEEN * rows[0].size:
            continue
        share = float(np.median(first))
        is_even = np.percentile(first, 5) >= _LEAST_BLENDED * share
        # A picture that grows lighter or darker towards its edge does so over more than one row.
        if share >= _BLENDED and is_even and abs(float(np.median(second))) <= _MIXED * share:
            return 1
    return 0


def _shares(row: _I32, behind: _I32, other: int) -> npt.NDArray[np.float64]:
    """By how much each value lies from the one behind it towards another, where there is room for it."""
    room = other - behind
    has_room = np.abs(room) > _ROOM
    return np.asarray((row - behind)[has_room] / room[has_room])
