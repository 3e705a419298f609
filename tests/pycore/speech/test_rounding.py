"""Rounding to some decimals, as the page does it."""

from __future__ import annotations

import pytest

from pycore.speech import say
from pycore.speech.rounding import written
from pycore.ticket.words import plain


@pytest.mark.parametrize(
    ("value", "spec", "text"),
    # Published: ECMA-262, 21.1.3.3: of two integers n for which n / 10^f - x is as near zero, the larger one.
    [
        (1560.25, ".1f", "1560.3"),
        (324.75, ".1f", "324.8"),
        (-0.25, ".1f", "-0.3"),
        (0.5, ".0f", "1"),
        (2.5, ".0f", "3"),
        (1234.5, ",.0f", "1,235"),
        # Not in the middle: the double nearest to 0.35 lies below it, and that nearest to 0.45 above.
        (0.35, ".1f", "0.3"),
        (0.45, ".1f", "0.5"),
        (1e300, ".1f", f"{1e300:.1f}"),
        (float("inf"), ".1f", "inf"),
        (7, ".1f", "7.0"),
        (0.25, ".1g", "0.2"),
    ],
)
def test_a_half_goes_away_from_zero(value: float, spec: str, text: str) -> None:
    assert written(value, spec) == text


def test_sentences_and_the_ticket_round_so() -> None:
    """Derived: five faces of 311.15 mm, each with twice 0.45 mm of canvas, are 1560.25 mm high."""
    assert say("{length:.1f} mm", length=1560.25) == "1560.3 mm"
    assert plain(1560.25) == "1560.3"
