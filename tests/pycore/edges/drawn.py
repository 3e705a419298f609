"""Drawn pictures whose edges are known, and how they are judged here: 400 x 300 pixels, bars 38 deep."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from pycore.conventions import Side
from pycore.edges.gradients import F64
from pycore.edges.judge import EdgeFigures, judge
from pycore.edges.run_on import RunOnSide, usual_change
from pycore.edges.working import WorkingFace, from_edge
from pycore.fill.continued_ground import colour_steps

WIDE, HIGH, DEPTH = 400, 300, 38
_FINE = 4


def drawn(
    shape: Callable[[F64, F64], NDArray[np.bool_] | F64], *, ground: float = 0.2, contrast: float = 0.6
) -> F64:
    """A shape that is true where `shape(x, y)` is, with smooth outlines, y downwards."""
    y, x = (np.mgrid[0 : HIGH * _FINE, 0 : WIDE * _FINE] + 0.5) / _FINE
    share = np.asarray(shape(x, y), float).reshape(HIGH, _FINE, WIDE, _FINE).mean(axis=(1, 3))
    return np.repeat((ground + contrast * share)[..., np.newaxis], 3, axis=2)


def line(degrees: float, *, half_width: float = 2.0, contrast: float = 0.6) -> F64:
    """A line out of the middle of the left front edge, at so many degrees to it: 90 runs straight in."""
    along = (math.sin(math.radians(degrees)), math.cos(math.radians(degrees)))
    return drawn(
        lambda x, y: np.abs(x * along[1] - (y - HIGH / 2) * along[0]) < half_width, contrast=contrast
    )


def disc(centre_x: float, *, radius: float = 12.0, contrast: float = 0.6) -> F64:
    """A disc half-way down, so far from the left front edge."""
    return drawn(lambda x, y: (x - centre_x) ** 2 + (y - HIGH / 2) ** 2 < radius**2, contrast=contrast)


def noise() -> F64:
    """White noise, a fifth of full scale."""
    return np.clip(0.5 + 0.2 * np.random.default_rng(5).standard_normal((HIGH, WIDE, 3)), 0, 1)


def run_on(values: F64, *, depth: float) -> dict[Side, RunOnSide]:
    """The picture as it goes round each side alone: depth / (size + depth) of it lies on the side."""
    steps = colour_steps(np.round(255 * values).astype(np.uint8))
    found = {}
    for side in Side:
        here = from_edge(steps, side)
        on_side = max(1, round(len(here) * depth / (len(here) + depth)))
        found[side] = RunOnSide(
            steps=here, usual_change=usual_change(steps), depth_px=on_side, begin=0, end=here.shape[1]
        )
    return found


def judged(values: F64, *, depth: float = DEPTH) -> dict[Side, EdgeFigures]:
    """The four sides of a face, also as the picture would go round them."""
    face = WorkingFace(values=values, depth_px=depth)
    return {one.side: one for one in judge(face, run_on=run_on(values, depth=depth))}
