"""A strip made to begin with the face's last row keeps its own detail further out."""

from __future__ import annotations

import numpy as np

from pycore.fill.membrane import STEP, begin_with, detail_bands

RANDOM = np.random.default_rng(5)


def test_bands_add_up() -> None:
    row = RANDOM.integers(0, 256, 70).astype(np.float64)
    # derived: each band is a difference of two neighbours in one sum; 1e-9 is far below a step of 1 / 256.
    np.testing.assert_allclose(sum(detail_bands(row, levels=5)), row, rtol=0, atol=1e-9)


def test_the_first_row_is_the_faces_last_and_past_its_ends_its_reflection() -> None:
    edge = RANDOM.integers(0, 256, 30, dtype=np.uint8)
    strip = RANDOM.integers(0, 256, (20, 40)).astype(np.uint16) * np.uint16(STEP)
    begin_with(edge, strip, first=5)
    shown = (strip[0] + STEP // 2) // STEP
    # derived: what is added on the first row is the whole difference.
    assert shown.tolist() == [*edge[:5][::-1], *edge, *edge[-5:][::-1]]


def test_what_fits_already_is_left_as_it_is() -> None:
    edge = RANDOM.integers(0, 256, 30, dtype=np.uint8)
    strip = np.repeat(edge[np.newaxis], 12, axis=0).astype(np.uint16) * np.uint16(STEP)
    before = strip.copy()
    begin_with(edge, strip, first=0)
    assert np.array_equal(strip, before)


def test_fine_differences_die_away_before_wide_ones() -> None:
    reach, columns = 64, 512
    fine = np.where(np.arange(columns) % 2 == 0, 100, 140).astype(np.uint8)
    wide = np.full(columns, 140, np.uint8)
    left = []
    for edge in (fine, wide):
        strip = np.full((reach, columns), 120 * STEP, np.uint16)
        begin_with(edge, strip, first=0)
        left.append(np.abs(strip[6, 200:312].astype(int) - 120 * STEP).max() / STEP)
    # The middle alone: at its ends the alternation is reflected, which is a wider detail.
    # derived: of the difference of 20, the finest band (all of `fine`) is gone after 6 rows, while the rest
    # (all of `wide`) fades over 4 + 2 * 2**6 rows: 1 - 3 t**2 + 2 t**3 at 6 / 132 is 0.99399.
    assert left[0] < 0.01
    assert abs(left[1] - 19.88) < 0.01
