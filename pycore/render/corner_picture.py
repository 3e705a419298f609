"""A small picture of a corner: what a view shows, taken from a corner's canvas, lit, and made smooth."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.picture.tones import F32, U8
from pycore.render.corner_canvas import CornerCanvas
from pycore.render.corner_view import FINER, CornerView, Material

#: srgb_encoded; invented: unprinted canvas and pine.
_CANVAS: Final = (236, 229, 215)
_WOOD: Final = (203, 170, 122)


def corner_picture(view: CornerView, canvas: CornerCanvas) -> U8:
    """Put a corner's canvas into a view of it.

    Parameters
    ----------
    view : CornerView
    canvas : CornerCanvas
        Of the same corner; its values are shown as they are.

    Returns
    -------
    (rows, columns, 4) uint8
        srgb_encoded where the canvas is; alpha 0 where nothing is seen.
    """
    printed = view.material == Material.PRINT
    flat = canvas.pixels.reshape(-1, 4)
    seen = np.zeros((*view.material.shape, 3), np.float32)
    seen[printed] = flat[canvas.places(view.across_mm[printed], view.down_mm[printed]), :3]
    seen[view.material == Material.CANVAS] = _CANVAS
    seen[view.material == Material.WOOD] = _WOOD
    weight = view.opacity
    seen *= (view.light * weight)[..., np.newaxis]
    total = _sums(weight)
    colour = _sums(seen) / np.maximum(total, np.float32(1e-6))[..., np.newaxis]
    picture = np.empty((*total.shape, 4), np.uint8)
    picture[..., :3] = colour + np.float32(0.5)
    picture[..., 3] = np.rint(total * np.float32(255 / FINER**2))
    return picture


def _sums(values: F32) -> F32:
    """The sums of squares of `FINER` by `FINER` pixels."""
    rows = values[::FINER].copy()
    for row in range(1, FINER):
        rows += values[row::FINER]
    total = rows[:, ::FINER].copy()
    for column in range(1, FINER):
        total += rows[:, column::FINER]
    return total
