"""The tulip field of the demo painting: rows in perspective, flower by flower, lit from behind."""

from __future__ import annotations

from functools import cache

import numpy as np
from noise import fractal, smooth_step
from numpy.typing import NDArray
from PIL import Image

Pixels = NDArray[np.float32]

#: Colours of the beds in linear light, from the left to the right edge and round again.
BEDS = [
    (0.80, 0.012, 0.05),
    (0.92, 0.20, 0.012),
    (0.86, 0.55, 0.02),
    (0.62, 0.015, 0.30),
    (0.80, 0.012, 0.05),
    (0.78, 0.62, 0.52),
    (0.30, 0.02, 0.42),
    (0.95, 0.13, 0.10),
]
VANISHING_X = 0.60
BED = 0.46  # width of a bed, in picture widths at the lower edge
ROWS = 11  # of flowers in a bed
SPRITE_PX = 72


@cache
def tulip(shape: int) -> tuple[Pixels, Pixels, Pixels]:
    """One flower head as three masks (SPRITE_PX square): cover, light coming through, stalk."""
    y, x = np.mgrid[0:SPRITE_PX, 0:SPRITE_PX].astype(np.float32) / SPRITE_PX
    lean = (-0.10, 0.0, 0.09, 0.05)[shape]
    plump = (0.25, 0.28, 0.24, 0.30)[shape]
    x = x - 0.5 - lean * (0.9 - y)
    cup = np.zeros_like(x)
    veins = np.zeros_like(x)
    for off, tall, wide in [(-0.13, 0.09, 0.62), (0.13, 0.07, 0.62), (0.0, 0.14, 0.80)]:
        t = np.clip((y - tall) / (0.66 - tall), 0, 1)
        half = plump * wide * np.sin(np.pi * np.clip(t * 0.80 + 0.02, 0, 1)) ** 0.62
        across = (x - off * (1 - t * 0.6)) / np.maximum(half, 1e-3)
        petal = smooth_step(1.05, 0.88, np.abs(across)) * (t > 0) * (t < 1)
        shade = 0.62 + 0.38 * (1 - np.abs(across) ** 2) + 0.18 * (1 - t)
        veins = np.where(petal > 0.5, shade, veins)
        cup = np.maximum(cup, petal)
    stalk = smooth_step(0.030, 0.018, np.abs(x)) * (y > 0.6)
    leaf = smooth_step(0.05, 0.03, np.abs(x - 0.16 * np.sin((y - 0.62) * 3.6))) * (y > 0.66)
    return cup, veins, np.maximum(stalk, leaf) * (1 - cup)


@cache
def planes(shape: int, bed: int, glow: float) -> Pixels:
    """A flower of a bed at its full size: (4, SPRITE_PX, SPRITE_PX), rgb_linear and cover."""
    colour = np.array(BEDS[bed])
    cup, veins, green = tulip(shape)
    y = np.mgrid[0:SPRITE_PX, 0:SPRITE_PX][0].astype(np.float32)[..., None] / SPRITE_PX
    through = np.clip(1.25 - 1.5 * y, 0, 1)  # low sun comes through the tips of the petals
    deep = colour * np.array([0.80, 0.55, 0.75])  # the shaded side of a petal is more saturated
    lit = np.clip(0.10 + 0.42 * veins[..., None] ** 3 + 0.62 * glow * through**1.6, 0, 2)
    petal = deep * 0.16 + colour * lit + np.array([0.35, 0.14, 0.04]) * glow * 0.28 * through**4
    leaf = np.array([0.022, 0.050, 0.014]) * (1.5 - 0.9 * y) * (1 + 0.8 * glow)
    cover = np.maximum(cup, green)[..., None]
    rgb = petal * cup[..., None] + leaf * green[..., None]
    return np.ascontiguousarray(np.moveaxis(np.concatenate([rgb, cover], axis=2).astype(np.float32), 2, 0))


def sprite(shape: int, bed: int, size: int, glow: float) -> tuple[Pixels, Pixels]:
    """A flower of one bed and size: (size, size, 3) rgb_linear and (size, size, 1) cover."""
    filtering = Image.Resampling.BOX if size < 36 else Image.Resampling.BICUBIC
    whole = planes(shape, bed, glow)
    layers = [Image.fromarray(plane).resize((size, size), filtering) for plane in whole]
    stack = np.stack([np.asarray(layer) for layer in layers], axis=2)
    return np.maximum(stack[..., :3], 0), np.clip(stack[..., 3:], 0, 1)


def paint_field(
    picture: Pixels, *, horizon: float, shore: NDArray[np.float32], sun_x: float, rng: np.random.Generator
) -> None:
    """Paint the field below the near shore in place.

    Parameters
    ----------
    picture : ndarray
        (height, width, 3), rgb_linear.
    horizon, sun_x : float
        Fractions of the height and the width.
    shore : ndarray
        (width,), fraction of the height where the field begins.
    rng : numpy.random.Generator
        Where flowers stand and how they differ.
    """
    height, width, _ = picture.shape
    first = int(shore.min() * height) - 2
    y, x = np.mgrid[first:height, 0:width].astype(np.float32)
    below = (y / height - horizon) / (1 - horizon)  # 0 at the horizon, 1 at the lower edge
    ground_x = (x / width - VANISHING_X) / below
    depth = 1 / below
    row = ground_x / BED * ROWS
    furrow = smooth_step(0.10, 0.34, np.abs(row - np.round(row)))
    path = smooth_step(0.02, 0.10, np.abs(ground_x / BED - np.round(ground_x / BED)))
    bed = np.floor(ground_x / BED).astype(np.int64) % len(BEDS)
    mottle = fractal(ground_x * 60, depth * 34, octaves=3, rng=rng)
    petals = np.array(BEDS)[bed] * (0.12 + 0.62 * mottle[..., None] ** 1.4)
    leaves = np.array([0.010, 0.021, 0.008]) * (0.3 + mottle[..., None])
    blend = (furrow * path)[..., None] * smooth_step(0.55, 0.20, below)[..., None]
    ground = leaves * (1 - blend * 0.9) + petals * blend * 0.9
    warm = np.exp(-(((x / width - sun_x) / 0.33) ** 2))[..., None]
    haze = smooth_step(0.34, 0.17, below)[..., None] * 0.45
    ground = ground * (0.78 + 0.75 * warm) * (1 - haze) + haze * np.array([0.42, 0.15, 0.10])
    bank = smooth_step(0.010, 0.0, y / height - shore[None, :])[..., None]
    ground = ground * (1 - 0.8 * bank) + np.array([0.022, 0.020, 0.018]) * 0.8 * bank
    edge = smooth_step(0.0, 0.0015, y / height - shore[None, :])[..., None]
    picture[first:] += edge * (ground - picture[first:])
    _plant(picture, horizon=horizon, sun_x=sun_x, rng=rng)


def _plant(picture: Pixels, *, horizon: float, sun_x: float, rng: np.random.Generator) -> None:
    """Flowers from far to near, so that the near ones stand in front."""
    height, width, _ = picture.shape
    below = 0.215
    made: dict[tuple[int, int, int, int], tuple[Pixels, Pixels]] = {}
    while below < 1.30:
        size = round(104 * below**1.12)
        reach = 0.72 / below + 0.1
        rows = np.arange(np.floor(-reach / BED * ROWS), np.ceil(reach / BED * ROWS))
        for row in rows[rng.permutation(rows.size)]:
            if row % ROWS == 0:
                continue  # the path between two beds
            ground_x = (row + 0.5 * (rng.random() - 0.5)) * BED / ROWS
            lifted = below + (rng.random() - 0.5) * 0.035 * below
            centre_x = (VANISHING_X + ground_x * lifted) * width
            foot_y = (horizon + lifted * (1 - horizon)) * height
            near_sun = float(np.exp(-(((centre_x / width - sun_x) / 0.30) ** 2)))
            bed = int(np.floor(row / ROWS)) % len(BEDS)
            scaled = max(5, 3 * round(size * (0.85 + 0.3 * rng.random()) / 3))
            key = (int(rng.integers(4)), bed, scaled, round(near_sun * 4))
            if key not in made:
                made[key] = sprite(key[0], bed, scaled, 0.22 + 0.78 * key[3] / 4)
            _stamp(picture, made[key], round(centre_x), round(foot_y), 0.62 + 0.62 * rng.random() ** 1.5)
        below *= 1 + 0.0205


def _stamp(picture: Pixels, flower: tuple[Pixels, Pixels], centre_x: int, foot_y: int, light: float) -> None:
    rgb_linear, cover = flower
    size = cover.shape[0]
    left, top = centre_x - size // 2, foot_y - size
    a, b = max(left, 0), min(left + size, picture.shape[1])
    c, d = max(top, 0), min(top + size, picture.shape[0])
    if a >= b or c >= d:
        return
    window = np.s_[c - top : d - top, a - left : b - left]
    picture[c:d, a:b] = picture[c:d, a:b] * (1 - cover[window]) + rgb_linear[window] * light
