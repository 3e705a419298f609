"""Enlarging: hard edges do not ring, and photographs lose nothing by it."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image, ImageDraw, ImageFont

from pycore.colour.icc.tone_curves import decode_table
from pycore.contract.job import Enlarging
from pycore.picture.deep_tones import DeepTones, deep_tones, widened
from pycore.picture.tones import Tones, tones
from pycore.render.cell_bounds import MOST_CREST
from pycore.render.resample import Area, resample

_SRGB = tones(decode_table(None), channels=3)
_GREY = tones(decode_table(None)[:1], channels=1)  # type: ignore[index]  # sRGB has curves.


def enlarged(
    values: npt.NDArray[np.uint8],
    width: int,
    height: int,
    *,
    enlarging: Enlarging = Enlarging.PHOTOGRAPH,
    bits: int = 8,
) -> npt.NDArray[np.float64]:
    """All of a picture at another size, in levels of 8 bits."""
    channels = values.shape[2]
    eight = _GREY if channels == 1 else _SRGB
    tables: Tones | DeepTones = eight
    if bits == 16:
        deep_table = decode_table(None, entries=65536)
        assert deep_table is not None
        tables = deep_tones(deep_table[:channels], channels=channels)
    out = np.zeros((height, width, channels), np.uint8 if bits == 8 else np.uint16)
    pixels = Image.fromarray(values[..., 0] if channels == 1 else values)
    area = Area(left=0, top=0, right=values.shape[1], bottom=values.shape[0])
    for _ in resample(pixels, area, out, turn=0, tones=tables, enlarging=enlarging):
        pass
    return out / (1.0 if bits == 8 else 257.0)


def cubic(values: npt.NDArray[np.uint8], width: int, height: int) -> npt.NDArray[np.float64]:
    """Cubic convolution alone in linear light, by Pillow and the formula of sRGB."""
    channels = []
    for channel in range(values.shape[2]):
        light = Image.fromarray(_SRGB.light[0][values[..., channel]])
        large = np.clip(np.asarray(light.resize((width, height), Image.Resampling.BICUBIC)), 0, 1)
        codes = np.where(large <= 0.0031308, 12.92 * large, 1.055 * large.clip(1e-9) ** (1 / 2.4) - 0.055)
        channels.append(np.floor(codes * 255 + 0.5))
    return np.stack(channels, axis=2)


def _step(kind: str) -> npt.NDArray[np.uint8]:
    rows, columns = np.mgrid[0:32, 0:32]
    where = {
        "upright": columns < 16,
        "level": rows < 16,
        "slanting": 2 * columns + 3 * rows < 80,
        "corner": (columns < 16) & (rows < 16),
        "falling": columns >= 16,
    }[kind]
    return np.where(where, 40, 200).astype(np.uint8)[..., np.newaxis]


@pytest.mark.parametrize("kind", ["upright", "level", "slanting", "corner", "falling"])
@pytest.mark.parametrize("times", [2, 2.5, 3, 4, 6])
@pytest.mark.parametrize("bits", [8, 16])
def test_a_hard_step_overshoots_by_at_most_4_levels(kind: str, times: float, bits: int) -> None:
    """The bar is 4 levels; cubic convolution alone sends the 40 of an upright step to 0."""
    size = int(32 * times)
    found = enlarged(_step(kind), size, size, bits=bits)
    assert found.min() >= 36
    assert found.max() <= 204
    # The test can fail: without the bound it does.
    assert cubic(_step(kind), size, size).min() == 0


@pytest.mark.parametrize("difference", [8, 16, 24, 25, 40, 100, 160, 231, 232, 240, 255])
def test_a_step_between_any_two_levels_overshoots_by_at_most_4(difference: int) -> None:
    lower = np.arange(0, 256 - difference, 3)
    rows = np.repeat(lower, 8)[:, np.newaxis] + np.where(np.arange(12) < 6, 0, difference)
    found = enlarged(rows.astype(np.uint8)[..., np.newaxis], 36, 3 * len(rows))[12::24, :, 0]
    assert (found.min(axis=1) >= lower - 4).all()
    assert (found.max(axis=1) <= lower + difference + 4).all()


@pytest.mark.parametrize("times", [2, 3, 6])
def test_a_step_with_noise_on_it_does_not_ring_either(times: int) -> None:
    """Derived: noise of 2 levels may add its own half."""
    noise = np.random.default_rng(1).integers(-2, 3, (32, 32, 1))
    found = enlarged((_step("upright") + noise).astype(np.uint8), 32 * times, 32 * times)
    assert found.min() >= 36
    assert found.max() <= 204


@pytest.mark.parametrize("stroke", [2, 3])
@pytest.mark.parametrize(("ground", "line"), [(40, 200), (200, 40), (255, 30), (60, 170)])
def test_strokes_of_few_pixels_are_no_darker_and_no_lighter_than_broad_ones(
    stroke: int, ground: int, line: int
) -> None:
    """The bar of a step, 4 levels; cubic convolution alone sends the middle of two pixels of 40 to 0."""
    drawing = np.full((24, 40, 1), ground, np.uint8)
    drawing[4:20, 8 : 8 + stroke] = drawing[10 : 10 + stroke, 14:30] = line
    for times in (2, 3, 4.5, 6):
        size = int(40 * times), int(24 * times)
        found = enlarged(drawing, *size)
        assert found.min() >= min(ground, line) - 4
        assert found.max() <= max(ground, line) + 4
        assert np.ptp(cubic(drawing, *size)) > abs(ground - line) + 4


def test_lettering_leaves_its_two_colours_little() -> None:
    """Its soft outlines rise in steps, as a photograph does: two crests, across and down, are the most."""
    picture = Image.new("L", (260, 48), 200)
    ImageDraw.Draw(picture).text((4, 8), "Harbour light, 1897", fill=40, font=ImageFont.load_default(24))
    lettering = np.asarray(picture)[..., np.newaxis]
    found, alone = (image(lettering, 780, 144) for image in (enlarged, cubic))
    assert found.min() >= 40 - 2 * MOST_CREST
    assert found.max() <= 200 + 2 * MOST_CREST
    # regression: 1 in a hundred; of cubic convolution alone 4
    outside = [float(((one < 36) | (one > 204)).mean()) for one in (found, alone)]
    assert outside[0] <= 0.012
    assert outside[1] > 3 * outside[0]


@pytest.mark.parametrize("times", [2, 3.7, 6])
def test_drawings_stay_in_their_range_and_sharp(times: float) -> None:
    """Lettering: strokes of one and two pixels, whose edges turn in fewer pixels than a photograph's.

    No value leaves 40 to 200: a filter without negative weights does that.
    """
    drawing = np.full((24, 40, 1), 200, np.uint8)
    drawing[4:20, 6:8] = drawing[10, 12:30] = drawing[4:20, 33] = 40
    size = int(40 * times), int(24 * times)
    found = enlarged(drawing, *size, enlarging=Enlarging.DRAWING)
    assert found.min() >= 40
    assert found.max() <= 200
    edge = np.repeat(_step("upright")[:4], 6, axis=0)
    turns = [
        int(((one > 45) & (one < 195)).sum())
        for one in (
            enlarged(edge, 256, 8, enlarging=way)[4, :, 0]
            for way in (Enlarging.DRAWING, Enlarging.PHOTOGRAPH)
        )
    ]
    assert turns[0] < turns[1]


def _zone_plate(size: int, contrast: float) -> npt.NDArray[np.uint8]:
    """Rings whose frequency rises to half a cycle a pixel at the middle of each edge."""
    y, x = np.mgrid[0:size, 0:size] - (size - 1) / 2
    wave = np.cos(np.pi * (x * x + y * y) / size)
    plate: npt.NDArray[np.uint8] = np.floor(120 + contrast * wave + 0.5).astype(np.uint8)
    return plate[..., np.newaxis]


def responses(contrast: float) -> list[tuple[float, float, float]]:
    """Frequency in cycles a pixel, response of cubic convolution alone, and of this enlargement.

    The share of the true rings' amplitude that is found along a ring's breadth, three times enlarged.
    """
    size, times = 192, 3
    plate = _zone_plate(size, contrast)
    y, x = (np.mgrid[0 : size * times, 0 : size * times] + 0.5) / times - size / 2
    radius = np.hypot(x, y)
    truth = np.cos(np.pi * radius**2 / size)
    found = []
    for frequency in (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4):
        ring = np.abs(radius / size - frequency) < 0.02
        wave = truth[ring] - truth[ring].mean()
        row = [frequency]
        for image in (cubic, enlarged):
            shown = image(plate, size * times, size * times)[..., 0][ring]
            row.append(float(shown @ wave / (wave @ wave) / contrast))
        found.append((row[0], row[1], row[2]))
    return found


@pytest.mark.parametrize("contrast", [10, 30, 60])
def test_a_zone_plate_keeps_the_response_of_cubic_convolution(contrast: float) -> None:
    for frequency, cubic, ours in responses(contrast):
        assert ours == pytest.approx(cubic, rel=0.01), frequency


def test_channels_are_held_by_themselves() -> None:
    """A soft channel is left as it is beside a hard one, and a grey picture is that of one channel."""
    step = _step("slanting")
    waves = np.floor(128 + 30 * np.sin(np.arange(32 * 32).reshape(32, 32, 1))).astype(np.uint8)
    soft = (120 + waves // 16).astype(np.uint8)
    found = enlarged(np.concatenate([step, waves, soft], axis=2), 100, 100)
    for channel, alone in enumerate((step, waves, soft)):
        assert (found[..., channel] == enlarged(alone, 100, 100)[..., 0]).all()


def test_both_depths_agree() -> None:
    """Derived: half a level of rounding, and half a level where half a rise is rounded down."""
    noise = np.random.default_rng(4).integers(0, 256, (40, 40, 3), dtype=np.uint8)
    eight, sixteen = (enlarged(noise, 110, 110, bits=bits) for bits in (8, 16))
    assert np.abs(eight - sixteen).max() <= 1.0


def test_values_of_16_bits_and_their_8_bit_twin_are_enlarged_alike() -> None:
    noise = np.random.default_rng(4).integers(0, 256, (40, 40, 1), dtype=np.uint8)
    table = decode_table(None, entries=65536)
    assert table is not None
    tables = deep_tones(table[:1], channels=1)
    area, found = Area(left=0, top=0, right=40, bottom=40), []
    for pixels in (Image.fromarray(noise[..., 0]), widened(noise)):
        out = np.zeros((100, 90, 1), np.uint16)
        for _ in resample(pixels, area, out, turn=90, tones=tables):
            pass
        found.append(out)
    assert (found[0] == found[1]).all()
