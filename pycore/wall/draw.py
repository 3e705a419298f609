"""Panels and their shadow drawn into a photograph: quadrilaterals in perspective, in linear light."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from pycore.colour.spaces.srgb import srgb_decode, srgb_encode
from pycore.picture.tones import U8
from pycore.wall.least_squares import Floats
from pycore.wall.light import RoomLight
from pycore.wall.piece import Box, Panel
from pycore.wall.shadow import shaded_share, shadow_reach_mm

#: Samples a pixel, each way.
_SAMPLES: Final = 3
#: Rows that are drawn at once: some ten megabytes of samples.
_ROWS: Final = 48
#: A texture has so many pixels for one of the photograph, at most.
_FINENESS: Final = 1.5
#: How dark the deepest shadow is at full strength, and how much of its light a side keeps that faces away
#: from the light. By eye.
_DARKEST: Final = 0.6
_SIDE_LEAST, _SIDE_MOST = 0.55, 1.0

_LINEAR: Final = srgb_decode(np.arange(256) / 255).astype(np.float32)


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """How a piece is fitted into its photograph.

    Attributes
    ----------
    amount : float
        How much of the room's light is taken over, 0 to 1.
    shadow : float
        The shadow's strength, 0 to 1.
    from_deg : float
        Where the light comes from: degrees clockwise from above.
    """

    amount: float
    shadow: float
    from_deg: float


def draw_pieces(
    pixels: U8,
    camera: Floats,
    pieces: Sequence[tuple[Box, Sequence[Panel]]],
    *,
    light: RoomLight,
    look: Look,
    in_front: U8 | None = None,
) -> Generator[float, None, U8]:
    """Draw pieces with their shadows into a copy of a photograph.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        srgb_encoded.
    camera : (3, 4) float64
        From (x, y, z, 1) in mm on the wall to these pixels.
    pieces : sequence of (Box, panels)
    light : RoomLight
    look : Look
    in_front : (rows, columns) uint8, optional
        255 where something stands before the piece.

    Yields
    ------
    float
        How much is done, 0 to 1.

    Returns
    -------
    (rows, columns, 3) uint8
        srgb_encoded. Where nothing is drawn the photograph's values are kept.
    """
    drawn = pixels.copy()
    height, width = pixels.shape[:2]
    reach = max((shadow_reach_mm(box) for box, _ in pieces), default=0.0)
    bounds = [_bounds(camera, _grown(box, reach), width, height) for box, _ in pieces]
    left, top = min(one[0] for one in bounds), min(one[1] for one in bounds)
    right, bottom = max(one[2] for one in bounds), max(one[3] for one in bounds)
    seen = [_Seen(panel, camera, look, light) for _, panels in pieces for panel in panels]
    seen = [one for one in seen if one.is_towards]
    to_wall = np.linalg.inv(camera[:, [0, 1, 3]])
    for row in range(top, bottom, _ROWS):
        yield (row - top) / max(1, bottom - top)
        rows = slice(row, min(row + _ROWS, bottom))
        block = _block(pixels[rows, left:right], rows, left, seen, to_wall, pieces, look)
        if block is None:
            continue
        touched, values = block
        if in_front is not None:
            kept = in_front[rows, left:right, None].astype(np.float32) / 255
            values = np.asarray(kept * _LINEAR[pixels[rows, left:right]] + (1 - kept) * values)
            touched &= in_front[rows, left:right] < 255
        encoded = np.round(255 * srgb_encode(values.astype(np.float64))).astype(np.uint8)
        drawn[rows, left:right][touched] = encoded[touched]
    return drawn


def _block(
    photo: U8,
    rows: slice,
    left: int,
    seen: Sequence[_Seen],
    to_wall: Floats,
    pieces: Sequence[tuple[Box, Sequence[Panel]]],
    look: Look,
) -> tuple[NDArray[np.bool_], NDArray[np.float32]] | None:
    """Which pixels of some rows change, and their linear light."""
    values = _LINEAR[photo]
    count, width = photo.shape[:2]
    x, y = np.meshgrid(np.arange(width) + left + 0.5, np.arange(rows.start, rows.stop) + 0.5)
    depth = to_wall[2, 0] * x + to_wall[2, 1] * y + to_wall[2, 2]
    wall_x = (to_wall[0, 0] * x + to_wall[0, 1] * y + to_wall[0, 2]) / depth
    wall_y = (to_wall[1, 0] * x + to_wall[1, 1] * y + to_wall[1, 2]) / depth
    touched = np.zeros((count, width), bool)
    if look.shadow:
        for box, _ in pieces:
            shade = shaded_share(wall_x, wall_y, box, from_deg=look.from_deg)
            values = values * (1 - look.shadow * _DARKEST * shade[..., None]).astype(np.float32)
            touched |= shade > 0
    steps = (np.arange(_SAMPLES) + 0.5) / _SAMPLES - 0.5
    covered = np.zeros((count, width), np.float32)
    colour = np.zeros((count, width, 3), np.float32)
    for panel in seen:
        for dx in steps:
            for dy in steps:
                panel.add(x + dx, y + dy, covered, colour)
    covered /= _SAMPLES**2
    colour /= _SAMPLES**2
    touched |= covered > 0
    if not touched.any():
        return None
    # Panels that meet share an edge; rounding may put a sample into both.
    excess = np.maximum(covered, 1)
    values = values * (1 - covered / excess)[..., None] + colour / excess[..., None]
    return touched, values


class _Seen:
    """A panel as the camera sees it."""

    def __init__(self, panel: Panel, camera: Floats, look: Look, light: RoomLight) -> None:
        matrix = np.column_stack(
            [
                camera[:, :3] @ panel.across_mm,
                camera[:, :3] @ panel.down_mm,
                camera[:, :3] @ panel.origin_mm + camera[:, 3],
            ]
        )
        ends = np.array([[0, 0, 1], [1, 0, 1], [1, 1, 1], [0, 1, 1.0]]) @ matrix.T
        corners = ends[:, :2] / ends[:, 2:]
        across = corners[1:] - corners[0]
        # Clockwise, where y runs down, from the side that the camera sees.
        self.is_towards = bool(
            (across[0, 0] * across[1, 1] - across[0, 1] * across[1, 0])
            + (across[1, 0] * across[2, 1] - across[1, 1] * across[2, 0])
            > 1e-9
        )
        self._back = np.linalg.inv(matrix) if self.is_towards else np.eye(3)
        self._panel, self._look, self._light = panel, look, light
        edges = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
        self._low, self._high = corners.min(axis=0) - 1, corners.max(axis=0) + 1
        self._texture = _LINEAR[
            _reduced(panel.texture, max(edges[0], edges[2]), max(edges[1], edges[3]))
        ] * np.float32(_facing(panel.normal, look.from_deg))

    def add(self, x: Floats, y: Floats, covered: NDArray[np.float32], colour: NDArray[np.float32]) -> None:
        """Add one sample a pixel."""
        columns = (x[0] >= self._low[0]) & (x[0] <= self._high[0])
        lines = (y[:, 0] >= self._low[1]) & (y[:, 0] <= self._high[1])
        if not (columns.any() and lines.any()):
            return
        part = np.ix_(lines, columns)
        x, y = x[part], y[part]
        back = self._back
        depth = back[2, 0] * x + back[2, 1] * y + back[2, 2]
        s = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / depth
        t = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / depth
        is_in = (s >= 0) & (s <= 1) & (t >= 0) & (t <= 1)
        if not is_in.any():
            return
        s, t = s[is_in], t[is_in]
        place = self._panel.origin_mm + s[:, None] * self._panel.across_mm + t[:, None] * self._panel.down_mm
        gain = self._light.gain(place[:, 0], place[:, 1], amount=self._look.amount)
        added = np.zeros((*is_in.shape, 3), np.float32)
        added[is_in] = _bilinear(self._texture, s, t) * gain
        covered[part] += is_in
        colour[part] += added


def _facing(normal: Floats, from_deg: float) -> float:
    """How much of the face's light a panel gets."""
    if normal[2] > 0.5:
        return 1.0
    towards = normal[0] * np.sin(np.radians(from_deg)) + normal[1] * np.cos(np.radians(from_deg))
    return float(_SIDE_LEAST + (_SIDE_MOST - _SIDE_LEAST) * (1 + towards) / 2)


def _reduced(texture: U8, width_px: float, height_px: float) -> U8:
    rows, columns = texture.shape[:2]
    size = (
        int(np.clip(np.ceil(_FINENESS * width_px), 1, columns)),
        int(np.clip(np.ceil(_FINENESS * height_px), 1, rows)),
    )
    if size == (columns, rows):
        return texture
    small = Image.fromarray(np.ascontiguousarray(texture)).resize(size, Image.Resampling.BOX)
    return np.asarray(small)


def _bilinear(texture: NDArray[np.float32], s: Floats, t: Floats) -> NDArray[np.float32]:
    """Light between the middles of a texture's pixels; s and t are shares of its width and height.

    Examples
    --------
    >>> wide = np.array([[0, 1, 2], [3, 4, 5]], np.float32)[..., None]
    >>> _bilinear(wide, np.array([1 / 6, 1, 2 / 3]), np.array([0.25, 1, 0.5])).ravel().tolist()
    [0.0, 5.0, 3.0]
    """
    rows, columns = texture.shape[:2]
    x = np.clip(s * columns - 0.5, 0, columns - 1)
    y = np.clip(t * rows - 0.5, 0, rows - 1)
    left, top = x.astype(int), y.astype(int)
    right, below = np.minimum(left + 1, columns - 1), np.minimum(top + 1, rows - 1)
    u, v = (x - left).astype(np.float32)[:, None], (y - top).astype(np.float32)[:, None]
    upper = texture[top, left] * (1 - u) + texture[top, right] * u
    lower = texture[below, left] * (1 - u) + texture[below, right] * u
    return np.asarray(upper * (1 - v) + lower * v)


def _grown(box: Box, by_mm: float) -> Box:
    wide, high = box.size_mm
    return Box(centre_mm=box.centre_mm, size_mm=(wide + 2 * by_mm, high + 2 * by_mm), depth_mm=box.depth_mm)


def _bounds(camera: Floats, box: Box, width: int, height: int) -> tuple[int, int, int, int]:
    """The pixels that a box may touch; all of them where it reaches behind the camera."""
    ends = np.column_stack([box.all_mm, np.ones(8)]) @ camera.T
    if (ends[:, 2] <= 0).any():
        return 0, 0, width, height
    found = ends[:, :2] / ends[:, 2:]
    low = np.clip(np.floor(found.min(axis=0)), 0, (width, height)).astype(int)
    high = np.clip(np.ceil(found.max(axis=0)), 0, (width, height)).astype(int)
    return int(low[0]), int(low[1]), int(high[0]), int(high[1])
