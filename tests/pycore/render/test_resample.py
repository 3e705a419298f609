"""Resampling: in linear light, once, the same whoever asks, and not at all where it is not needed."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from pycore.colour.icc.tone_curves import decode_table
from pycore.layout.quarter_turns import turned_size
from pycore.picture.orientation import turned
from pycore.picture.tones import U8, tones
from pycore.render.resample import BLOCK_ROWS, Area, Resampler, Sharpening, resample

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

_SRGB = tones(decode_table(None), channels=3)


def _noise(width: int, height: int, seed: int = 1) -> Image.Image:
    values = np.random.default_rng(seed).integers(0, 256, (height, width, 3), dtype=np.uint8)
    return Image.fromarray(values)


def _resampled(image: Image.Image, area: Area, width: int, height: int, *, turn: int = 0) -> U8:
    out = np.zeros((height, width, 3), np.uint8)
    shares = list(resample(image, area, out, turn=turn, tones=_SRGB))
    assert shares[-1] == 1.0
    return out


def _whole(image: Image.Image, turn: int = 0) -> Area:
    width, height = turned_size(image.size, turn)
    return Area(left=0, top=0, right=width, bottom=height)


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_without_scaling_the_bytes_are_handed_on(turn: int) -> None:
    image = _noise(150, 130)
    width, height = turned_size(image.size, turn)
    assert (
        _resampled(image, _whole(image, turn), width, height, turn=turn) == np.asarray(turned(image, turn))
    ).all()
    part = Area(left=7, top=11, right=67, bottom=111)
    expected = np.asarray(turned(image, turn))[11:111, 7:67]
    assert (_resampled(image, part, 60, 100, turn=turn) == expected).all()


def test_a_fine_checkerboard_keeps_its_brightness() -> None:
    """Derived: half black, half white is half the light: sRGB 188.

    1.055 * 0.5 ** (1 / 2.4) - 0.055 = 0.7354, times 255 = 187.5; averaging the codes would give 127 or 128.
    """
    board = np.indices((400, 400)).sum(axis=0) % 2 * 255
    image = Image.fromarray(np.stack([board] * 3, axis=2).astype(np.uint8))
    small = _resampled(image, _whole(image), 100, 100)
    assert np.abs(small[10:-10, 10:-10].astype(int) - 188).max() <= 1


def test_one_colour_stays_itself_at_any_scale() -> None:
    for code in (0, 1, 2, 77, 254, 255):
        image = Image.new("RGB", (40, 30), (code, code, code))
        for width, height in ((40, 31), (13, 9), (200, 150)):
            assert (_resampled(image, _whole(image), width, height) == code).all()


def _keys(x: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Published: Keys (1981), equation 15, the cubic convolution kernel with a = -1/2."""
    x = np.abs(x)
    near = 1.5 * x**3 - 2.5 * x**2 + 1
    far = -0.5 * x**3 + 2.5 * x**2 - 4 * x + 2
    return np.where(x < 1, near, np.where(x < 2, far, 0.0))


def _direct_matrix(start: float, stop: float, count: int, size: int) -> npt.NDArray[np.float64]:
    """Weights of each source pixel for each wanted one: the kernel widened by the scale, summing to 1."""
    scale = (stop - start) / count
    widened = max(scale, 1.0)
    centres = start + (np.arange(count) + 0.5) * scale
    weights = _keys((np.arange(size)[np.newaxis] + 0.5 - centres[:, np.newaxis]) / widened)
    shares: npt.NDArray[np.float64] = weights / weights.sum(axis=1, keepdims=True)
    return shares


def _between(
    image: Image.Image, area: Area, width: int, height: int
) -> tuple[npt.NDArray[np.int_], npt.NDArray[np.int_]]:
    """The least and the greatest of the four pixels around each wanted one."""
    values = np.asarray(image).astype(int)
    x = area.left + (np.arange(width) + 0.5) * (area.right - area.left) / width - 0.5
    y = area.top + (np.arange(height) + 0.5) * (area.bottom - area.top) / height - 0.5
    columns = [np.clip(np.floor(x).astype(int) + k, 0, values.shape[1] - 1) for k in (0, 1)]
    rows = [np.clip(np.floor(y).astype(int) + k, 0, values.shape[0] - 1) for k in (0, 1)]
    four = np.stack([values[row[:, np.newaxis], column] for row in rows for column in columns])
    return four.min(axis=0), four.max(axis=0)


@pytest.mark.parametrize(
    ("area", "width", "height"),
    [
        (Area(left=3.3, top=5.75, right=87.1, bottom=63.2), 41, 30),
        (Area(left=0, top=0, right=97, bottom=71), 230, 170),
        (Area(left=20.25, top=10.5, right=60.75, bottom=40.125), 81, 200),
    ],
)
def test_it_is_the_cubic_convolution_in_linear_light(area: Area, width: int, height: int) -> None:
    """Against the kernel's own formula in double precision, across several blocks of rows."""
    image = _noise(97, 71)
    found = _resampled(image, area, width, height)
    light = _SRGB.light[0].astype(np.float64)[np.asarray(image)]
    down = _direct_matrix(area.top, area.bottom, height, 71)
    across = _direct_matrix(area.left, area.right, width, 97)
    direct = np.einsum("ij,jkc,lk->ilc", down, light, across)
    direct = np.clip(direct, 0, 1)
    codes = np.where(direct <= 0.0031308, 12.92 * direct, 1.055 * direct ** (1 / 2.4) - 0.055) * 255
    least, greatest = _between(image, area, width, height)
    is_within = (codes >= least) & (codes <= greatest)
    # derived: in noise most values lie between the four pixels around them; where the kernel does not
    # overshoot, nothing is held back. A reduced picture is never held back.
    assert is_within.mean() > 0.6
    is_plain = is_within | (area.right - area.left >= width)
    # Half a code, and a little for the bounds between codes being interpolated and kept to 1 / 65535.
    assert np.abs(found - codes)[is_plain].max() < 0.52
    # What overshoots ends between the kernel's own value and those four.
    held = np.clip(found, np.minimum(codes, least), np.maximum(codes, greatest))
    assert np.abs(found - held)[~is_plain].max(initial=0) < 0.52


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 3), st.integers(0, 40), st.sampled_from([0, 90, 180, 270]))
def test_a_row_is_the_same_whoever_asks(blocks: int, left: int, turn: int) -> None:
    """Rows of the first blocks come out alike when only they are asked for, at the same scale."""
    image = _noise(300, 260)
    wide, high = turned_size(image.size, turn)
    rows = 4 * BLOCK_ROWS
    scale = (high - 9.5) / rows
    whole = Area(left=left, top=9.5, right=wide, bottom=9.5 + scale * rows)
    part = Area(left=left, top=9.5, right=wide, bottom=9.5 + scale * blocks * BLOCK_ROWS)
    all_rows = _resampled(image, whole, 77, rows, turn=turn)
    some = _resampled(image, part, 77, blocks * BLOCK_ROWS, turn=turn)
    # The scale is computed anew from the part's own ends, so a value in a tie may fall the other way.
    assert np.abs(all_rows[: len(some)].astype(int) - some).max() <= 1
    assert (all_rows[: len(some)] != some).mean() < 1e-3


@pytest.mark.parametrize("sharpening", [None, Sharpening(amount=0.5, times=2)])
def test_blocks_come_out_alike_together_and_by_themselves(sharpening: Sharpening | None) -> None:
    """Hard edges lie in the lower part alone, so that the blocks above are not held."""
    height = 3 * BLOCK_ROWS + 11
    values = np.array(_noise(120, 160))
    values[:90] = values[:90] // 16 + 100
    resampler = Resampler(
        pixels=Image.fromarray(values),
        area=Area(left=2.3, top=1.7, right=118.1, bottom=158.9),
        width=170,
        height=height,
        turn=0,
        tones=_SRGB,
        sharpening=sharpening,
    )
    together, alone = np.zeros((2, height, 170, 3), np.uint8)
    assert resampler.piece(0, together) == height
    for first in range(0, height, BLOCK_ROWS):
        resampler.piece(first, alone[first : first + BLOCK_ROWS])
    assert (together == alone).all()


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_turning_comes_before_the_area(turn: int) -> None:
    image = _noise(90, 70)
    area = Area(left=4.5, top=8.25, right=55.5, bottom=60)
    upright = turned(image, turn)
    there = _resampled(image, area, 33, 44, turn=turn)
    assert (there == _resampled(upright, area, 33, 44)).all()


def test_channels_past_the_pictures_own_are_left_alone() -> None:
    out = np.full((10, 12, 4), 255, np.uint8)
    image = Image.new("RGB", (30, 30), (1, 2, 3))
    for _ in resample(image, _whole(image), out, turn=0, tones=_SRGB):
        pass
    assert (out == (1, 2, 3, 255)).all()


def test_cmyk_and_grey() -> None:
    for mode, value in (("CMYK", (10, 20, 30, 40)), ("L", (90,))):
        image = Image.new(mode, (30, 20), value if len(value) > 1 else value[0])
        out = np.zeros((9, 13, len(value)), np.uint8)
        for _ in resample(image, _whole(image), out, turn=0, tones=tones(None, channels=len(value))):
            pass
        assert (out == value).all()
