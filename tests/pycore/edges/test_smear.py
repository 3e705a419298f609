"""Smear: nothing for a mirror, all for drawn out texture, nothing for a fence that goes on."""

from __future__ import annotations

import numpy as np

from pycore.edges.gradients import F64
from pycore.edges.smear import smear

_DEPTH = 40


def texture() -> F64:
    """Noise, twice as coarse as pixels."""
    grains = np.random.Generator(np.random.PCG64(2)).random((_DEPTH // 2, 80, 3))
    return grains.repeat(2, axis=0).repeat(2, axis=1)


def drawn_out(face: F64, times: int) -> F64:
    """The rows next to the edge, each so many times."""
    return face[: -(-_DEPTH // times)].repeat(times, axis=0)[:_DEPTH]


def test_a_mirror_has_none_and_a_repeated_row_is_all_smear() -> None:
    face = texture()
    # derived: the same neighbourhoods; and no change along the lines at all.
    assert smear(face, face, depth_px=_DEPTH) == 0
    assert smear(drawn_out(face, _DEPTH), face, depth_px=_DEPTH) > 0.95


def test_the_further_it_is_drawn_out_the_more() -> None:
    face = texture()
    found = [smear(drawn_out(face, times), face, depth_px=_DEPTH) for times in (1, 2, 4, 8)]
    assert found == sorted(found)
    assert found[1] > 0.1


def test_a_fence_that_goes_on_is_no_smear() -> None:
    fence = np.repeat((np.arange(160) // 4 % 2).astype(float)[np.newaxis, :, np.newaxis], _DEPTH, axis=0)
    assert smear(fence, fence, depth_px=_DEPTH) == 0


def test_plain_ground_is_no_smear() -> None:
    assert smear(np.full((40, 60, 3), 0.5), np.full((40, 60, 3), 0.5), depth_px=_DEPTH) == 0
