"""A piece is known again wherever it lies, brighter or paler, and unlike pieces are not."""

from __future__ import annotations

import numpy as np

from pycore.fill.grown_repeats import known, likeness

RANDOM = np.random.default_rng(8)


def _blocks(rows: int, columns: int) -> np.ndarray[tuple[int, ...], np.dtype[np.int32]]:
    found = RANDOM.integers(0, 200, (rows // 4, columns // 4, 3)).repeat(4, axis=0).repeat(4, axis=1)
    return found.astype(np.int32)


def test_a_repeated_piece_is_found_paler_and_among_others() -> None:
    piece = _blocks(16, 16)
    strip = np.concatenate([_blocks(16, 24), piece // 2 + 60, _blocks(16, 8)], axis=1)
    # derived: halved and raised, its correlation is 1 but for the rounding of odd values.
    assert likeness(piece, known(strip, columns=16)) > 0.999


def test_another_piece_is_not() -> None:
    # derived: 48 random values; the largest of nine correlations is some 3 / sqrt(48) = 0.43.
    assert likeness(_blocks(16, 16), known(_blocks(16, 48), columns=16)) < 0.7


def test_plain_pieces_and_short_strips_repeat_nothing() -> None:
    plain = np.full((16, 16, 3), 90, np.int32)
    assert likeness(plain, known(plain, columns=16)) == 0.0
    assert likeness(_blocks(16, 16), known(_blocks(16, 8), columns=16)) == 0.0
