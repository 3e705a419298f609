"""Pixels turned into a printer's values."""

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.convert import Converter
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..conversion import Conversion
from ..make_profiles import lab_table_profile, lifted_profile, xyz_table_profile

OPTIONS: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}

#: Every kind of table: legacy and curve tables, either connection space, a matrix, RGB and inks.
TARGETS = ["illustrative-matte", "cmyk-v2", "curves-lab-v4", "curves-xyz-v4", "matrix-v4"]


@pytest.mark.parametrize(
    ("source", "name", "intent"),
    [
        *(("srgb", name, Intent.RELATIVE) for name in TARGETS),
        *((source, "cmyk-v2", Intent.PERCEPTUAL) for source in ("matrix-v4", "curves-lab-v4", "grey-v2")),
        *(("cmyk-v2", "illustrative-matte", intent) for intent in (Intent.RELATIVE, Intent.ABSOLUTE)),
        ("srgb", "illustrative-matte", Intent.ABSOLUTE),
        ("curves-xyz-v4", "curves-lab-v4", Intent.SATURATION),
    ],
)
def test_all_depths_follow_the_engine(
    profiles: dict[str, bytes], source: str, name: str, intent: Intent
) -> None:
    target = parse_profile(profiles[name])
    space = Standard.SRGB if source == "srgb" else parse_profile(profiles[source])
    options: Conversion = {"intent": intent, "black_point_compensation": True}
    converter = Converter(space, target, **options)
    pixels = np.random.default_rng(10).integers(0, 256, (40, 50, converter.inputs), dtype=np.uint8)
    exact = make_transform(space, target, **options)(pixels.reshape(-1, converter.inputs) / 255.0)
    exact = exact.reshape(40, 50, converter.channels)
    wide = pixels.astype(np.uint16) * np.uint16(257)
    fine = converter.to_words(wide) / 65535.0
    # regression: tables of 65 nodes, of four inks 25; a step of 8 bits is 0.004
    assert np.abs(fine - exact).mean() < 0.0005
    assert np.percentile(np.abs(fine - exact), 99) < 0.006
    coarse = converter.to_bytes(pixels, row=0, column=0) / 255.0
    # derived: as well rounded as can be, half a step
    assert np.abs(coarse - fine).max() < 0.5 / 255.0 + 1e-5
    floats = converter.to_words((pixels / 255.0).astype(np.float32))
    assert np.array_equal(floats, converter.to_words(wide))


@pytest.mark.parametrize("intent", [Intent.RELATIVE, Intent.ABSOLUTE])
@pytest.mark.parametrize(
    ("source", "target"),
    [
        ("srgb", "lifted"),
        ("srgb", "matrix-v4"),
        ("lifted", "curves-lab-v4"),
        ("scanner", "curves-lab-v4"),
        ("uneven", "illustrative-matte"),
        ("uneven", "curves-xyz-v4"),
        ("uneven", "lifted"),
    ],
)
def test_sixteen_bits_are_true_to_the_profile(
    profiles: dict[str, bytes], source: str, target: str, intent: Intent
) -> None:
    """Where curves do not begin at nothing, where a table holds light, and where a printer has no table.

    And where a source's own table is so uneven that its cells cannot all be divided often.
    """
    made = profiles | {"lifted": lifted_profile(), "scanner": xyz_table_profile(9)}
    made["uneven"] = lab_table_profile((17, 2, 9))
    space = Standard.SRGB if source == "srgb" else parse_profile(made[source])
    printer = parse_profile(made[target])
    options: Conversion = {"intent": intent, "black_point_compensation": True}
    see = make_transform(printer, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    chance = np.random.default_rng(13)
    greys = np.repeat(np.linspace(0.0, 1.0, 1021)[:, None], 3, axis=1)
    colours = np.concatenate([greys, chance.random((1500, 3)), 0.05 * chance.random((1500, 3))])
    words = np.rint(colours * 65535.0).astype(np.uint16)
    exact = make_transform(space, printer, **options)(words / 65535.0)
    found = Converter(space, printer, **options).to_words(words[None])[0] / 65535.0
    apart = delta_e_2000(see(found), see(exact))
    # The aim, as against other engines on public profiles.
    assert apart[:1021].mean() <= 0.02
    assert apart[:1021].max() <= 0.1
    assert apart.max() <= 0.3


def test_white_is_bare_canvas(profiles: dict[str, bytes]) -> None:
    white = np.full((1, 1, 3), 255, dtype=np.uint8)
    converter = Converter(Standard.SRGB, parse_profile(profiles["illustrative-matte"]), **OPTIONS)
    assert converter.to_bytes(white, row=0, column=0).tolist() == [[[255, 255, 255]]]
    wide = white.astype(np.uint16) * np.uint16(257)
    # derived: a curve of 1024 entries puts L* 100 near a node, to 0.02 of 1 / 1023 of a step of 0.04
    assert converter.to_words(wide).min() >= 65530
    # 65530 is 0.02 of a step below white: of fifty pixels one may be darkened.
    dithered = converter.to_bytes(np.broadcast_to(wide, (64, 64, 3)), row=0, column=0)
    assert (dithered < 255).mean() < 0.03


def test_strips_join_without_a_seam(profiles: dict[str, bytes]) -> None:
    converter = Converter(Standard.SRGB, parse_profile(profiles["cmyk-v2"]), **OPTIONS)
    pixels = np.random.default_rng(11).integers(0, 65536, (37, 29, 3), dtype=np.uint16)
    whole = converter.to_bytes(pixels, row=5, column=9)
    upper = converter.to_bytes(pixels[:17], row=5, column=9)
    lower = converter.to_bytes(pixels[17:, 8:], row=22, column=17)
    assert np.array_equal(whole[:17], upper)
    assert np.array_equal(whole[17:, 8:], lower)
    elsewhere = converter.to_bytes(pixels, row=6, column=9)
    assert not np.array_equal(whole, elsewhere)
    # Each is one of the two levels beside the value of 16 bits.
    assert np.abs(whole - converter.to_words(pixels) / 257.0).max() <= 1.0


def test_colours_that_were_met_before_are_the_same(profiles: dict[str, bytes]) -> None:
    """More colours than are kept, twice, in another order and with blocks enough for threads."""
    converter = Converter(Standard.SRGB, parse_profile(profiles["illustrative-matte"]), **OPTIONS)
    pixels = np.random.default_rng(12).integers(0, 256, (700, 500, 3), dtype=np.uint8)
    once = converter.to_bytes(pixels, row=0, column=0)
    turned = converter.to_bytes(pixels[::-1], row=0, column=0)
    assert np.array_equal(once, turned[::-1])
    black = np.zeros((3, 3, 3), np.uint8)
    fresh = Converter(Standard.SRGB, parse_profile(profiles["illustrative-matte"]), **OPTIONS)
    assert np.array_equal(fresh.to_bytes(black, row=0, column=0), converter.to_bytes(black, row=0, column=0))


def test_grey_is_no_canvas(profiles: dict[str, bytes]) -> None:
    with pytest.raises(FieldError, match="an RGB or CMYK printer; you gave 1 channel"):
        Converter(Standard.SRGB, parse_profile(profiles["grey-v2"]), **OPTIONS)
