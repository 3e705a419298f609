"""The estuary of the demo painting: water that mirrors the sky, a far shore, and a few boats at anchor."""

from __future__ import annotations

import numpy as np
from noise import fractal, smooth_step
from numpy.typing import NDArray
from PIL import Image, ImageDraw

Pixels = NDArray[np.float32]

WATER_END = 0.535  # of the height


def paint_water(
    picture: Pixels, *, horizon: float, sun_x: float, rng: np.random.Generator
) -> NDArray[np.float32]:
    """Paint the water below the horizon in place.

    Parameters
    ----------
    picture : ndarray
        (height, width, 3), rgb_linear, with its sky and hills.
    horizon, sun_x : float
        Fractions of the height and the width.
    rng : numpy.random.Generator
        Where the ripples come from.

    Returns
    -------
    ndarray
        (width,), the near shore as a fraction of the height: where the field begins.
    """
    height, width, _ = picture.shape
    first, last = round(horizon * height), round((WATER_END + 0.03) * height)
    y, x = np.mgrid[first:last, 0:width].astype(np.float32)
    near = (y - first) / (last - first)
    depth = 1 / (near + 0.05)
    swell = fractal(x / width * depth * 9, depth * 16, octaves=4, rng=rng) - 0.5
    chop = fractal(x / width * depth * 55, depth * 60, octaves=3, rng=rng) - 0.5
    tilt = (swell * 0.8 + chop) * (0.25 + near)
    source_row = np.clip(first - 2 - (near * 0.72 + tilt * 0.42) * first * 0.62, 0, first - 2).astype(
        np.int64
    )
    source_column = np.clip(x + tilt * 46, 0, width - 1).astype(np.int64)
    mirrored = (
        picture[source_row, source_column] * np.array([0.74, 0.70, 0.76]) * (0.93 - 0.25 * near[..., None])
    )
    path = np.exp(-(((x / width - sun_x) / (0.018 + 0.05 * near)) ** 2))
    glint = smooth_step(0.03, 0.22, chop + swell * 0.5) * path
    picture[first:last] = mirrored + glint[..., None] * np.array([2.0, 1.05, 0.34])

    across = np.arange(width, dtype=np.float32) / width
    wander = fractal(across * 3.1, np.zeros_like(across), octaves=4, rng=rng)
    return (WATER_END - 0.018 + 0.03 * wander - 0.022 * np.exp(-(((across - 0.12) / 0.16) ** 2))).astype(
        np.float32
    )


def paint_boats(picture: Pixels, *, horizon: float) -> None:
    """Boats at anchor and a beacon on the far shore, dark against the light, with their reflections."""
    height, width, _ = picture.shape
    mask = Image.new("L", (width, height), 0)
    draw = ImageDraw.Draw(mask)
    line = horizon * height
    for at, size, lean in [(0.255, 46, 2), (0.345, 26, -1), (0.475, 62, 3), (0.815, 34, -2), (0.905, 20, 1)]:
        x, y = at * width, line + 24 + size * 0.75
        hull = [
            (x - size, y - size * 0.17),
            (x + size * 1.12, y - size * 0.24),
            (x + size * 0.86, y),
            (x - size * 0.82, y),
        ]
        draw.polygon(hull, fill=255)
        draw.polygon(
            [
                (x - size * 0.3, y - size * 0.2),
                (x - size * 0.25, y - size * 0.42),
                (x + size * 0.32, y - size * 0.42),
                (x + size * 0.42, y - size * 0.2),
            ],
            fill=255,
        )
        tip = (x + lean, y - size * 2.25)
        draw.line([(x, y), tip], fill=255, width=max(2, size // 16))
        draw.line([tip, (x + size * 1.02, y - size * 0.24)], fill=150, width=1)
        draw.line([tip, (x - size * 0.94, y - size * 0.18)], fill=150, width=1)
        for step in range(int(size * 1.5)):
            fade = int(150 * (1 - step / (size * 1.5)))
            wave = np.sin(step * 0.9 + at * 40) * (2 + step * 0.07)
            half = size * 0.9 * (1 - step / (size * 1.7))
            draw.line([(x - half + wave, y + 1 + step), (x + half + wave, y + 1 + step)], fill=fade)
    beacon = 0.118 * width
    draw.rectangle([beacon - 150, line - 3, beacon + 210, line + 5], fill=235)
    draw.polygon(
        [(beacon - 9, line), (beacon + 9, line), (beacon + 5, line - 92), (beacon - 5, line - 92)], fill=255
    )
    draw.rectangle([beacon - 8, line - 97, beacon + 8, line - 92], fill=255)
    draw.polygon([(beacon - 7, line - 107), (beacon + 7, line - 107), (beacon, line - 117)], fill=255)
    cover = np.asarray(mask, dtype=np.float32)[..., None] / 255
    picture += cover * (np.array([0.030, 0.020, 0.036]) - picture)

    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    lamp = np.exp(-((np.hypot(x - beacon, y - (line - 102)) / 5.5) ** 1.1))
    picture += lamp[..., None] * np.array([2.2, 1.5, 0.7])
