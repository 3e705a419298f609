"""The pattern that rounds to 8 bits."""

import numpy as np
import pytest

from pycore.colour.link.dither import thresholds, words_to_bytes


@pytest.mark.parametrize("channel", range(4))
def test_steps_come_equally_often_everywhere(channel: int) -> None:
    for row, column in ((0, 0), (1000, 77), (9000, 12_345)):
        steps = thresholds((64, 64), row=row, column=column, channel=channel)
        counts = np.bincount(steps.ravel(), minlength=256)
        # derived: 4096 places over 256 steps are 16 each; the pattern is off by a few
        assert counts.min() >= 11
        assert counts.max() <= 21
        # And so in every square of 8 x 8: the mean is near the middle.
        means = steps.reshape(8, 8, 8, 8).mean(axis=(1, 3))
        assert np.abs(means - 127.5).max() < 12


def test_it_goes_on_past_every_canvas() -> None:
    whole = thresholds((3, 40), row=2**31, column=2**31, channel=1)
    part = thresholds((2, 30), row=2**31 + 1, column=2**31 + 10, channel=1)
    assert np.array_equal(whole[1:, 10:], part)


def test_channels_do_not_step_together() -> None:
    first, second = (thresholds((64, 64), row=0, column=0, channel=one) for one in (0, 1))
    assert abs(np.corrcoef(first.ravel(), second.ravel())[0, 1]) < 0.6


def test_levels_stay_and_what_lies_between_keeps_its_mean() -> None:
    levels = np.arange(256, dtype=np.uint16)
    exact = np.broadcast_to((levels * np.uint16(257))[:, None, None], (256, 50, 3))
    assert np.array_equal(words_to_bytes(exact, row=3, column=9)[:, 0, 0], levels)
    words = np.full((64, 64, 3), 31_000, np.uint16)
    # derived: 31000 / 257
    assert words_to_bytes(words, row=0, column=0).mean() == pytest.approx(120.62, abs=0.01)
