"""How deep lines may look: up to what is new, and no further."""

from __future__ import annotations

import numpy as np

from pycore.fill.continued_ground import colour_steps
from pycore.fill.continued_reach import Reach, reach_along
from pycore.fill.facing import U8

_DEPTH = 40


def reach(strip: U8) -> Reach:
    """Of upright lines."""
    return reach_along(colour_steps(strip), np.zeros(strip.shape[1], np.int32), _DEPTH)


def ground(columns: int = 200) -> U8:
    """A soft slope of grey."""
    shades = np.linspace(110, 130, columns).astype(np.uint8)
    return np.repeat(np.tile(shades, (90, 1))[..., np.newaxis], 3, axis=2)


def test_a_thing_near_the_edge_is_not_shown() -> None:
    strip = ground()
    strip[12:40, 80:120] = (210, 30, 30)
    found = reach(strip)
    # derived: 12 of 40 rows are 77 of 256; beside the thing by a depth all is free to half the depth
    # (smooth).
    assert found.deepest[90:110].max() < 77
    assert found.deepest[:20].min() > 110
    # A smooth ground is drawn out, not turned back: it goes its way once.
    assert (found.way[:20] == found.deepest[:20]).all()


def test_gravel_is_turned_back_and_not_drawn_out() -> None:
    grains = np.random.Generator(np.random.PCG64(5)).integers(100, 150, (90, 200, 1), np.uint8)
    strip = np.repeat(grains, 3, axis=2)
    strip[20:60, 60:140] += 90
    found = reach(strip)
    # derived: 20 of 40 rows are 128 of 256.
    assert found.deepest[80:120].max() <= 128
    # Pace and way stay a mirror's, 256 each, or nearly: nothing is drawn out to twice its length.
    assert found.pace[80:120].min() > 200
    assert found.way[80:120].min() > 200


def test_planks_along_the_edge_all_go_the_same_way() -> None:
    strip = ground()
    strip[np.arange(90) % 9 < 2] = 40
    found = reach(strip)
    # derived: lines along the edge stay straight only where depth does not change along it.
    assert np.ptp(found.deepest) <= 4
    assert np.ptp(found.pace) <= 4


def test_what_is_sharp_beside_what_is_blurred_is_not_shown() -> None:
    strip = ground()
    rows, columns = np.mgrid[0:90, 0:200]
    sharp = (rows >= 16) & (rows < 60) & (columns > 70) & (columns < 130)
    # The same colours, only finer, and on the whole as light, so that no line lies along its border.
    strip[sharp & ((rows + columns) % 4 < 2)] += 9
    strip[sharp & ((rows + columns) % 4 >= 2)] -= 9
    assert reach(strip).deepest[90:110].max() < 16 * 256 // 40


def test_the_tip_of_a_thing_is_not_shown_though_the_ground_has_its_colour() -> None:
    grains = np.random.Generator(np.random.PCG64(5)).integers(110, 140, (90, 200, 1), np.uint8)
    strip = np.repeat(grains, 3, axis=2)
    dark = (52, 44, 36)
    strip[:60:7, :60] = 40
    strip[:60, 20:24] = dark
    strip[:60, 64:68] = dark
    for row in range(10, 60):
        for middle in (91, 116):
            strip[row, middle - 1 - (row - 10) // 4 : middle + 1 + (row - 10) // 4] = dark
    found = reach(strip)
    # derived: both tips begin at 10 of 40 rows, 64 of 256.
    for middle in (91, 116):
        assert found.deepest[middle - 1 : middle + 1].max() <= 64
