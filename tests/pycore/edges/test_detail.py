"""How busy a strip is."""

from __future__ import annotations

from pycore.conventions import Side
from pycore.edges.detail import busy
from pycore.edges.gradients import F64, tensor

from .drawn import drawn, judged, line, noise


def test_noise_is_busy_and_a_plain_picture_is_not() -> None:
    assert busy(tensor(noise()).energy) > 0.8
    assert busy(tensor(drawn(lambda x, _y: x < 0)).energy) == 0


def test_a_single_line_leaves_a_strip_quiet() -> None:
    assert 0 < judged(line(60))[Side.LEFT].busy < 0.1


def test_stripes_are_busier_the_closer_they_stand() -> None:
    def stripes(step: int) -> F64:
        return drawn(lambda _x, y: y % step < step / 2)

    found = [judged(stripes(step))[Side.LEFT].busy for step in (40, 20, 10)]
    assert found == sorted(found)
    assert found[0] < 0.3 < found[-1]
