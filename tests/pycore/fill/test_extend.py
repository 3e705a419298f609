"""Running on past an edge, against numpy.pad and OpenCV."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.colour.icc.tone_curves import decode_table
from pycore.fill.extend import draw_out, reflect
from pycore.fill.facing import U8
from pycore.picture.tones import tones


def _noise(rows: int, columns: int, channels: int) -> U8:
    return np.random.default_rng(rows * 31 + columns).integers(
        0, 256, (rows, columns, channels), dtype=np.uint8
    )


def _roomy(picture: U8, more: int) -> U8:
    return np.concatenate([picture, np.zeros((more, *picture.shape[1:]), np.uint8)])


@settings(max_examples=60)
@given(st.integers(1, 40), st.integers(1, 9), st.sampled_from([1, 3, 4]), st.integers(0, 200))
def test_reflect_is_numpys_symmetric(rows: int, columns: int, channels: int, more: int) -> None:
    picture = _noise(rows, columns, channels)
    canvas = _roomy(picture, more)
    reflect(canvas, start=0, edge=rows, end=rows + more)
    assert (canvas == np.pad(picture, ((0, more), (0, 0), (0, 0)), mode="symmetric")).all()


@pytest.mark.native
@pytest.mark.parametrize("more", [1, 10, 20])
def test_reflect_is_opencvs_border_reflect(more: int) -> None:
    picture = _noise(20, 13, 3)
    canvas = _roomy(picture, more)
    reflect(canvas, start=0, edge=20, end=20 + more)
    assert (canvas == cv2.copyMakeBorder(picture, 0, more, 0, 0, cv2.BORDER_REFLECT)).all()


def test_only_what_is_asked_for_is_written() -> None:
    canvas = np.full((10, 2, 1), 7, np.uint8)
    canvas[3:5] = [[[1], [2]], [[3], [4]]]
    reflect(canvas, start=3, edge=5, end=7)
    assert canvas[..., 0].tolist() == [[7, 7]] * 3 + [[1, 2], [3, 4], [3, 4], [1, 2]] + [[7, 7]] * 3


@pytest.mark.native
@pytest.mark.parametrize("more", [1, 30])
def test_draw_out_of_one_row_is_replicate(more: int) -> None:
    picture = _noise(20, 13, 3)
    canvas = _roomy(picture, more)
    draw_out(canvas, edge=20, end=20 + more, band=1, tones=tones(None, channels=3))
    assert (canvas == np.pad(picture, ((0, more), (0, 0), (0, 0)), mode="edge")).all()
    assert (canvas == cv2.copyMakeBorder(picture, 0, more, 0, 0, cv2.BORDER_REPLICATE)).all()


def test_a_drawn_band_is_averaged_in_linear_light() -> None:
    """Derived: black and white side by side average to half the light, 188.

    sRGB encodes 0.5 as 187.5 (IEC 61966-2-1: 1.055 * 0.5 ** (1 / 2.4) - 0.055 = 0.73536, times 255 =
    187.52). Encoded values would average to 127.5.
    """
    canvas = np.array([0, 255, 0, 0, 0], np.uint8).reshape(5, 1, 1).repeat(3, axis=2)
    draw_out(canvas, edge=2, end=5, band=2, tones=tones(decode_table(None), channels=3))
    assert canvas[2:, 0].tolist() == [[255, 255, 255], [188, 188, 188], [188, 188, 188]]


def test_a_gradient_does_not_step_at_the_edge() -> None:
    """Derived: of a gradient the mean of n rows lies n / 2 rows in; the first is the edge row itself."""
    canvas = _roomy(np.arange(60, 160, 2, dtype=np.uint8).reshape(50, 1, 1), 40)
    draw_out(canvas, edge=50, end=90, band=20, tones=tones(None, channels=1))
    past = canvas[49:, 0, 0].astype(int)
    assert past[:4].tolist() == [158, 158, 157, 156]
    assert np.diff(past).tolist() == [0, *[-1] * 19, *[0] * 20]
    # A side less deep than the band shows no more than its own part of it.
    shallow = canvas.copy()
    draw_out(shallow, edge=50, end=57, band=20, tones=tones(None, channels=1))
    assert (shallow[:57] == canvas[:57]).all()


def test_a_band_of_one_colour_is_that_colour() -> None:
    canvas = np.full((60, 256, 3), 0, np.uint8)
    canvas[:50] = np.arange(256, dtype=np.uint8)[np.newaxis, :, np.newaxis]
    draw_out(canvas, edge=50, end=60, band=37, tones=tones(decode_table(None), channels=3))
    assert (canvas[50:] == canvas[:1]).all()
