"""Real photographs: the figures say what is seen on them."""

from __future__ import annotations

import numpy as np
import pytest
import skimage.data
from PIL import Image

from pycore.conventions import Side
from pycore.edges.gradients import F64
from tests.shipped_photographs import shipped_photograph

from .drawn import HIGH, WIDE, judged


def photograph(name: str) -> F64:
    """A photograph as large as what is judged."""
    if name in {"china", "flower"}:
        pixels = np.asarray(Image.open(shipped_photograph(name)))
    else:
        pixels = getattr(skimage.data, name)()
    image = Image.fromarray(pixels).convert("RGB")
    scale = (WIDE * HIGH / (image.width * image.height)) ** 0.5
    size = (round(image.width * scale), round(image.height * scale))
    return np.asarray(image.resize(size, Image.Resampling.BICUBIC, reducing_gap=2.0)) / 255.0


# What is seen on these photographs; the figures beside it are regression, with room to either side.
SEEN = [
    ("china", Side.TOP, "busy", 0.0, 0.1),  # Sky.
    ("china", Side.BOTTOM, "busy", 0.5, 0.8),  # Trees.
    ("china", Side.TOP, "broken", 0.0, 0.1),
    ("flower", Side.BOTTOM, "broken", 0.6, 1.0),  # A second flower, cut by the front edge.
    ("flower", Side.BOTTOM, "doubled", 0.4, 0.8),
    ("flower", Side.BOTTOM, "cut", 0.65, 0.85),
    ("flower", Side.TOP, "cut", 0.1, 0.25),  # Dark leaves out of focus.
    ("flower", Side.LEFT, "doubled", 0.0, 0.1),
    ("astronaut", Side.LEFT, "broken", 0.8, 1.0),  # A flag's stripes.
    ("coffee", Side.TOP, "broken", 0.7, 1.0),  # The table's edge runs aslant into it.
    ("rocket", Side.BOTTOM, "cut", 0.6, 1.0),  # Lights on the ground under a plain sky.
    ("rocket", Side.TOP, "broken", 0.0, 0.4),
    ("camera", Side.TOP, "busy", 0.0, 0.05),  # Sky.
    ("camera", Side.LEFT, "broken", 0.8, 1.0),  # The outline of a dark coat.
    ("grass", Side.RIGHT, "busy", 0.6, 0.9),
    ("grass", Side.BOTTOM, "doubled", 0.0, 0.4),
    ("brick", Side.BOTTOM, "broken", 0.0, 0.2),  # Courses run along and across.
]


@pytest.mark.parametrize(("name", "side", "figure", "low", "high"), SEEN)
def test_photographs_are_judged_as_they_are_seen(
    name: str, side: Side, figure: str, low: float, high: float
) -> None:
    assert low <= getattr(judged(photograph(name))[side], figure) <= high
