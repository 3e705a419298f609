"""Letters as pixels."""

from __future__ import annotations

import hashlib

import numpy as np

from pycore.printing.lettering import LINE_PX, latin_text, letters


def test_letters_grow_by_whole_factors() -> None:
    small, large = letters("TOP 38 mm", enlarged=1), letters("TOP 38 mm", enlarged=3)
    assert small.shape[0] == LINE_PX
    assert (large[1::3, 1::3] == small).all()
    assert large.shape == (3 * small.shape[0], 3 * small.shape[1])


def test_letters_differ_and_are_the_same_everywhere() -> None:
    assert (letters("O", enlarged=1) != letters("Q", enlarged=1)).any()
    assert letters("é", enlarged=1).any()
    ink = np.packbits(letters("Low tide, 400 x 300 mm", enlarged=1)).tobytes()
    # Regression: the print file's text must not change with the platform.
    assert hashlib.sha256(ink).hexdigest()[:16] == "d7d11737ec05a0e9"


def test_what_is_not_latin_becomes_a_question_mark() -> None:
    assert latin_text("Gezeiten 潮 früh\n2") == "Gezeiten ? früh 2"
    assert latin_text("a\x07b") == "a?b"
    letters(latin_text("潮 \x00 é"), enlarged=1)
