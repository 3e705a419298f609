"""The converter against LittleCMS, on every public profile at hand: greys, darks, colours, inks."""

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.link.convert import Converter
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

from ..public_profiles import PRINTERS, SOURCES, device_and_lab, difference, grey_ramp, printer, seen

pytestmark = [pytest.mark.native, pytest.mark.slow]

INTENTS = (Intent.RELATIVE, Intent.PERCEPTUAL)


def converter(source: str, target: str, intent: Intent) -> Converter:
    first = SOURCES[source] if source in SOURCES else printer(source)
    return Converter(
        parse_profile(first.read_bytes()),
        parse_profile(printer(target).read_bytes()),
        intent=intent,
        black_point_compensation=True,
    )


@pytest.mark.parametrize("intent", INTENTS)
@pytest.mark.parametrize("name", PRINTERS)
def test_a_grey_ramp_in_8_bits(name: str, intent: Intent) -> None:
    target, ramp = printer(name), np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    expected, lab = device_and_lab(SOURCES["srgb"], target, ramp / 255.0, intent=intent)
    made = converter("srgb", name, intent).to_bytes(ramp[None], row=0, column=0)[0]
    lab_made = seen(target, made / 255.0)
    apart = delta_e_2000(lab_made, lab)
    # The aim. Rounding to 8 bits alone costs a mean of 0.1 to 0.15.
    assert apart.mean() <= 0.2
    assert apart.max() <= 0.5
    assert np.abs(made - np.rint(np.clip(expected, 0.0, 1.0) * 255.0)).max() <= 1
    # LittleCMS prints four digits.
    assert np.diff(lab_made[:, 0]).min() >= -2e-4


@pytest.mark.parametrize("intent", INTENTS)
@pytest.mark.parametrize("source", ["srgb", "linear", "lightness"])
@pytest.mark.parametrize("name", PRINTERS)
def test_a_grey_ramp_in_16_bits(name: str, source: str, intent: Intent) -> None:
    target, words = printer(name), np.rint(grey_ramp(1021) * 65535.0).astype(np.uint16)
    _, lab = device_and_lab(SOURCES[source], target, words / 65535.0, intent=intent)
    made = converter(source, name, intent).to_words(words[None])[0]
    apart = difference(target, made / 65535.0, lab)
    # The aim.
    assert apart.mean() <= 0.02
    assert apart.max() <= 0.1


@pytest.mark.parametrize("source", SOURCES)
@pytest.mark.parametrize("name", PRINTERS)
def test_darks_edges_and_colours(name: str, source: str) -> None:
    chance = np.random.default_rng(77)
    edges = np.array([[first, second, step] for first in (0, 1) for second in (0, 1) for step in (0, 0.5, 1)])
    values = np.concatenate([chance.random((1500, 3)), 0.05 * chance.random((1500, 3)), edges])
    words = np.rint(values * 65535.0).astype(np.uint16)
    target = printer(name)
    _, lab = device_and_lab(SOURCES[source], target, words / 65535.0, intent=Intent.RELATIVE)
    apart = difference(
        target, converter(source, name, Intent.RELATIVE).to_words(words[None])[0] / 65535.0, lab
    )
    # regression: the first table's nodes; far below one step of 8 bits, which is 0.3
    assert apart.mean() <= 0.02
    assert np.percentile(apart, 99) <= 0.1
    assert apart.max() <= 0.3


@pytest.mark.parametrize("intent", INTENTS)
@pytest.mark.parametrize("target", ["illustrative-matte", "rgb-argyll"])
@pytest.mark.parametrize("source", ["default_cmyk", "fogra39-argyll"])
def test_inks_go_straight_to_the_canvas(source: str, target: str, intent: Intent) -> None:
    """Many of their colours lie outside of sRGB, where a way through it would clip them."""
    pure = np.eye(4)
    pairs = np.clip(pure[:3] + np.roll(pure[:3], 1, axis=0), 0.0, 1.0)
    values = np.concatenate([pure, pairs, grey_ramp(101, 4), np.random.default_rng(78).random((1500, 4))])
    words = np.rint(values * 65535.0).astype(np.uint16)
    _, lab = device_and_lab(printer(source), printer(target), words / 65535.0, intent=intent)
    made = converter(source, target, intent).to_words(words[None])[0]
    apart = difference(printer(target), made / 65535.0, lab)
    # derived: cyan through sRGB was off by 8.7. regression: the table of four inks holds the profile's own
    # nodes
    assert apart[:7].max() <= 0.1
    assert apart.mean() <= 0.05
    assert np.percentile(apart, 99) <= 0.3


def test_dithering_keeps_a_ramp_of_16_bits() -> None:
    """Between two levels of 8 bits the mean of a patch is that of 16 bits; rounding alone would step."""
    made = converter("srgb", "illustrative-matte", Intent.RELATIVE)
    words = np.rint(np.linspace(20_000.0, 21_000.0, 65)).astype(np.uint16)
    fine = made.to_words(np.repeat(words[None, :, None], 3, axis=2))[0] / 257.0
    patches = np.broadcast_to(words[:, None, None, None], (65, 32, 32, 3)).reshape(65 * 32, 32, 3)
    coarse = made.to_bytes(np.ascontiguousarray(patches), row=0, column=0).reshape(65, -1, 3).mean(axis=1)
    # derived: the pattern's 1024 places stand evenly between two levels, to a few hundredths
    assert np.abs(coarse - fine).max() <= 0.04
    assert np.abs(np.rint(fine) - fine).max() > 0.4
