"""The four sides together: flat, turned, symmetric."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from pycore.conventions import Side
from pycore.edges.gradients import F64

from .drawn import HIGH, WIDE, disc, drawn, judged, line, noise

FIGURES = ("busy", "doubled", "broken", "cut")


def test_a_plain_picture_has_nothing_to_watch() -> None:
    for one in judged(np.full((HIGH, WIDE, 3), 0.4)).values():
        assert [getattr(one, figure) for figure in FIGURES] == [0, 0, 0, 0]


def test_nothing_is_no_negative_zero() -> None:
    values = np.full((40, 60, 3), 1.0)
    values[10:] = (0.3, 0.7, 0.2)
    for one in judged(values, depth=20).values():
        assert [str(getattr(one, figure))[0] for figure in FIGURES] == ["0"] * len(FIGURES)


def test_a_sky_has_next_to_nothing() -> None:
    y = np.linspace(0.9, 0.3, HIGH)[:, np.newaxis, np.newaxis]
    x = np.linspace(0, 0.1, WIDE)[:, np.newaxis]
    for one in judged(np.broadcast_to(y + x, (HIGH, WIDE, 3))).values():
        assert max(getattr(one, figure) for figure in FIGURES) < 0.05


@pytest.mark.parametrize("draw", [lambda: line(40), lambda: disc(10), noise], ids=["line", "disc", "noise"])
def test_turned_pictures_have_turned_figures(draw: Callable[[], F64]) -> None:
    values = draw()
    before, after = judged(values), judged(np.rot90(values, -1))
    # A quarter clockwise: what was left is on top. A thousandth: sums are made in another order.
    for old, new in zip(Side, (Side.RIGHT, Side.BOTTOM, Side.LEFT, Side.TOP), strict=True):
        for figure in FIGURES:
            assert getattr(after[new], figure) == pytest.approx(getattr(before[old], figure), abs=1e-3)


def test_a_symmetric_picture_has_two_sides_alike() -> None:
    half = np.concatenate([line(50), disc(25), noise()])[::3, : WIDE // 2]
    found = judged(np.concatenate([half, half[:, ::-1]], axis=1))
    for figure in FIGURES:
        assert getattr(found[Side.LEFT], figure) == pytest.approx(
            getattr(found[Side.RIGHT], figure), abs=1e-3
        )


def test_figures_stay_between_0_and_1_on_a_face_smaller_than_its_bars() -> None:
    small = drawn(lambda x, y: (x - y) % 7 < 3)[:20, :30]
    for one in judged(small, depth=45).values():
        for figure in FIGURES:
            assert 0 <= getattr(one, figure) <= 1
