"""Slanted outlines that stand alone: by angle, place, number and ground."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.edges.slants import slant_alone, slanted_shapes
from pycore.fill.facing import U8

_DEPTH = 38

#: From here on a mirror is given away by one slant (see `pycore.edges.continued`).
_SEEN = 1.65


def bars(degrees: float, *, apart: float = 1e9, past: int = 0, ground: U8 | None = None) -> U8:
    """Bars at an angle to the edge, so far apart along it and past so many rows of plain ground."""
    rows, columns = np.mgrid[0:60, 0:240]
    along = columns - 120 - (rows - past) / np.tan(np.radians(degrees))
    along = (along + apart / 2) % apart - apart / 2 if apart < 1e9 else along
    face = np.full((60, 240, 3), 110, np.uint8) if ground is None else ground.copy()
    face[(np.abs(along) * np.sin(np.radians(degrees)) < 2.5) & (rows >= past)] = (40, 40, 60)
    return face


@pytest.mark.parametrize("degrees", [30, 45, 60, 120, 150])
def test_one_slanted_bar_stands_alone(degrees: float) -> None:
    assert slant_alone(bars(degrees), depth_px=_DEPTH) > _SEEN


def test_a_post_and_a_bar_along_the_edge_have_none() -> None:
    along = np.full((60, 240, 3), 110, np.uint8)
    along[14:20] = (40, 40, 60)
    assert slant_alone(bars(90), depth_px=_DEPTH) < 0.3
    assert slant_alone(along, depth_px=_DEPTH) < 0.3


def test_one_among_many_stands_less_alone() -> None:
    alone, some, many = (slant_alone(bars(60, apart=apart), depth_px=_DEPTH) for apart in (1e9, 60, 20))
    assert alone > 1.3 * some > 1.3 * many
    assert many < _SEEN


def test_texture_hides_it() -> None:
    grains = np.random.default_rng(4).integers(0, 256, (60, 240, 1), np.uint8).repeat(3, axis=2)
    assert slant_alone(grains, depth_px=_DEPTH) < _SEEN
    assert slant_alone(bars(45, ground=grains), depth_px=_DEPTH) < 0.6 * slant_alone(
        bars(45), depth_px=_DEPTH
    )


def test_shapes_have_outlines_under_any_detail_and_detail_alone_has_none() -> None:
    rows, columns = np.mgrid[0:60, 0:240]
    rocks = np.where((rows + columns) % 60 < 30, 80, 150)[..., np.newaxis]
    grains = np.random.default_rng(4).integers(-60, 61, (60, 240, 1))
    plain, bare, hidden = (
        slanted_shapes(np.repeat(part.astype(np.uint8), 3, axis=2), depth_px=_DEPTH)
        for part in (100 + grains, rocks, rocks + grains)
    )
    assert plain < 0.7
    assert bare > 0.87
    assert hidden > 0.87


def test_further_in_it_counts_less_and_past_the_depth_not_at_all() -> None:
    near, inside, past = (slant_alone(bars(60, past=past), depth_px=_DEPTH) for past in (0, 20, 42))
    assert near > inside > past
    assert past < 0.1
