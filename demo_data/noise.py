"""Smooth random numbers for the demo painting."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float32]

#: Sums with double precision arrays are double precision.
Reals = NDArray[np.floating[Any]]


def smooth_step(low: float, high: float, value: Reals) -> Values:
    """0 below `low`, 1 above `high`, a smooth S between; falls where `low` is above `high`."""
    t = np.clip((value - low) / (high - low), 0, 1)
    return (t * t * (3 - 2 * t)).astype(np.float32)


def lattice(x: Reals, y: Reals, table: Values) -> Values:
    """Value noise: a table of random numbers, blended smoothly between its points and repeated beyond it."""
    size = table.shape[0]
    column, row = np.floor(x).astype(np.int64), np.floor(y).astype(np.int64)
    u, v = smooth_step(0, 1, x - column), smooth_step(0, 1, y - row)
    # With its first row and column once more at its end, the table holds all four neighbours at fixed steps.
    across = size + 1
    values: Values = np.pad(table, (0, 1), mode="wrap").ravel()
    at = row % size * across + column % size
    top = values[at] * (1 - u) + values[at + 1] * u
    low = values[at + across] * (1 - u) + values[at + across + 1] * u
    blended: Values = (top * (1 - v) + low * v).astype(np.float32)
    return blended


def fractal(x: Reals, y: Reals, *, octaves: int, rng: np.random.Generator) -> Values:
    """Several octaves of value noise, each half as strong and twice as fine.

    Parameters
    ----------
    x, y : ndarray
        Where, in cells of the coarsest octave; same shape.
    octaves : int
        How many.
    rng : numpy.random.Generator
        Where the numbers come from.

    Returns
    -------
    ndarray
        Same shape, float32, 0 to 1.
    """
    total = np.zeros(np.broadcast(x, y).shape, dtype=np.float32)
    weight, scale, sum_of_weights = 1.0, 1.0, 0.0
    for _ in range(octaves):
        table = rng.random((64, 64), dtype=np.float32)
        turn = rng.random(2) * 40
        total += weight * lattice(x * scale + turn[0], y * scale + turn[1], table)
        sum_of_weights += weight
        weight, scale = weight * 0.5, scale * 2.03
    return total / sum_of_weights
