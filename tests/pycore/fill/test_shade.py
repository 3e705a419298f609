"""A piece takes on the light beneath it, slowly from place to place and never by much."""

from __future__ import annotations

import numpy as np

from pycore.fill.shade import shade


def test_the_means_of_the_cells_meet() -> None:
    piece = np.random.default_rng(3).integers(80, 120, (32, 32), dtype=np.uint8)
    beneath = np.full((32, 32), 110, np.uint8)
    shaded = piece + shade(piece, beneath)
    # derived: the whole's mean is the cells' mean but for the ends, where the change is held.
    assert abs(shaded.mean() - 110) < 1


def test_it_is_never_more_than_24() -> None:
    change = shade(np.zeros((16, 16), np.uint8), np.full((16, 16), 255, np.uint8))
    assert (change == 24).all()


def test_from_cell_to_cell_it_goes_in_a_line() -> None:
    beneath = np.repeat(np.array([10, 10, 20, 20], np.uint8), 4)[:, np.newaxis].repeat(16, axis=1)
    change = shade(np.full((16, 16), 10, np.uint8), beneath)
    # derived: cells of 4 rows; between the second's middle (5.5) and the third's (9.5) from 0 to 10.
    np.testing.assert_allclose(change[5:11, 0], [0, 1.25, 3.75, 6.25, 8.75, 10], rtol=0, atol=1e-12)


def test_a_piece_smaller_than_its_cells() -> None:
    assert shade(np.full((1, 2), 7, np.uint8), np.full((1, 2), 9, np.uint8)).tolist() == [[2.0, 2.0]]
