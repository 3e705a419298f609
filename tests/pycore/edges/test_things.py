"""Things that an edge cuts, drawn: found, measured, and told from what runs through."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.edges.things import cut_things
from pycore.fill.facing import U8

_DEPTH = 40


def bowl(middle: int, *, beyond: int = 0) -> U8:
    """A disc with a radius of 30, its middle so many rows from the edge; `beyond` rows past it come first."""
    rows, columns = np.mgrid[-beyond:110, 0:220]
    inside = (rows - middle) ** 2 + (columns - 110) ** 2 < 30**2
    ground = np.full((*inside.shape, 3), 150, np.uint8)
    ground[inside] = (200, 60, 40)
    return ground


@pytest.mark.parametrize("middle", [-5, 5, 20])
def test_a_cut_bowl_is_found_with_its_place_and_end(middle: int) -> None:
    (thing,) = cut_things(bowl(middle), depth_px=_DEPTH)
    half = np.sqrt(30**2 - middle**2)
    # derived: the chord at the edge and the disc's last row; a blur of two pixels lies between.
    assert abs(thing.begin - (110 - half)) <= 4
    assert abs(thing.end - (110 + half)) <= 4
    assert thing.inwards is not None
    assert abs(thing.inwards - (middle + 30)) <= 3
    assert thing.outwards is None


def test_where_the_picture_has_it_the_crop_can_hold_it() -> None:
    whole = bowl(10, beyond=40)
    (thing,) = cut_things(whole[40:], depth_px=_DEPTH, beyond=np.ascontiguousarray(whole[:40][::-1]))
    assert thing.outwards is not None
    # derived: 20 rows of the disc lie past the edge.
    assert abs(thing.outwards - 20) <= 3


def test_a_post_that_runs_through_is_no_cut_thing() -> None:
    post = np.full((110, 220, 3), 150, np.uint8)
    post[:, 100:120] = (60, 40, 30)
    assert cut_things(post, depth_px=_DEPTH) == ()


def test_plain_ground_and_a_thing_inside_are_none() -> None:
    assert cut_things(np.full((110, 220, 3), 90, np.uint8), depth_px=_DEPTH) == ()
    assert cut_things(bowl(60), depth_px=_DEPTH) == ()
