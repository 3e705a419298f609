"""Tables in whole numbers against the engine's interpolation in double precision."""

import numpy as np
import pytest

from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.link.lattice import CODES, make_lattice
from pycore.colour.spaces.arrays import FloatArray

EVENLY: FloatArray = np.arange(CODES) / (CODES - 1.0)


@pytest.mark.parametrize("method", Interpolation)
@pytest.mark.parametrize("nodes", [(9,), (5, 7, 4), (3, 4, 5, 6)])
def test_it_interpolates_as_the_engine_does(nodes: tuple[int, ...], method: Interpolation) -> None:
    chance = np.random.default_rng(31)
    table = chance.random((*nodes, 4))
    lattice = make_lattice(table, places=[EVENLY] * len(nodes), method=method)
    # The ends and equal values as well, where one tetrahedron borders on the next.
    corners = np.stack([one.ravel() for one in np.meshgrid(*[[0, 32768, CODES - 1]] * len(nodes))], axis=1)
    codes = np.concatenate([corners, chance.integers(0, CODES, (4000, len(nodes)))]).astype(np.uint16)
    sums = lattice.sums(list(codes.T))
    found = np.stack([sums.codes(channel) for channel in range(4)], axis=1)
    exact = interpolate(table, codes / 65535.0, method=method) * 65535.0
    # derived: a node is rounded by half a code. A place and a product of weights are rounded by 2^-16 of a
    # cell, which is a code where neighbours differ by full scale, as here; there are three places and up to
    # five products, of which the errors partly cancel.
    assert np.abs(found - exact).max() < 6.0


def test_a_curve_stands_before_each_input() -> None:
    table: FloatArray = (np.arange(33) / 32.0)[:, None]
    squared: FloatArray = EVENLY * EVENLY
    lattice = make_lattice(table, places=[squared], method=Interpolation.TETRAHEDRAL)
    codes = np.array([0, 32768, 65535], np.uint16)
    # derived: half squared
    assert lattice.sums([codes]).codes(0).tolist() == pytest.approx([0, 16384, 65535], abs=1)


def test_bytes_stand_for_257_times_as_much() -> None:
    table = np.random.default_rng(32).random((6, 6, 6, 3))
    lattice = make_lattice(table, places=[EVENLY] * 3, method=Interpolation.TETRAHEDRAL)
    narrow = np.random.default_rng(33).integers(0, 256, (3, 200), dtype=np.uint8)
    wide = narrow.astype(np.uint16) * np.uint16(257)
    one, other = lattice.sums(list(narrow)), lattice.sums(list(wide))
    for channel in range(3):
        assert np.array_equal(one.fixed(channel), other.fixed(channel))
