"""Colours brought into the gamut: they fit, keep their hue, and leave the others alone."""

import numpy as np
import pytest
from PIL import Image

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.bring_in import bring_in_table, fit_bring_in
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.colour.spaces.arrays import ByteArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.lab import chroma_hue
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..conversion import Conversion


def painted() -> ByteArray:
    """Every hue from pale to vivid and from dark to light, with greys between."""
    across, down = np.meshgrid(np.linspace(0.0, 6.0, 240, endpoint=False), np.linspace(0.05, 0.95, 80))
    phase = across[..., None] + np.array([0.0, 2.0, 4.0])
    wheel = np.clip(np.abs((phase % 6.0) - 3.0) - 1.0, 0.0, 1.0)
    strength = 0.5 + 0.5 * np.sin(9.0 * down)[..., None]
    encoded = np.clip(down[..., None] + strength * (wheel - 0.5), 0.0, 1.0)
    pixels: ByteArray = np.rint(255.0 * encoded).astype(np.uint8)
    return pixels


PIXELS = painted()
WHOLE = [Region(name="face", left=0, top=0, right=PIXELS.shape[1], bottom=PIXELS.shape[0])]


@pytest.mark.parametrize("source", ["srgb", "matrix-v4"])
@pytest.mark.parametrize("compensated", [True, False])
def test_brought_in(gamut: DeviceGamut, profiles: dict[str, bytes], source: str, compensated: bool) -> None:
    space = Standard.SRGB if source == "srgb" else parse_profile(profiles[source])
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": compensated}
    colours = picture_colours(PIXELS, WHOLE)
    bring_in = fit_bring_in(colours, space, gamut, **options, threshold_de=2.0, strength=1.0)
    table = bring_in_table(bring_in, space, gamut, **options)
    brought = np.asarray(Image.fromarray(PIXELS).filter(table))
    request = clip_request(space, gamut, **options)
    before, after = (request(one.reshape(-1, 3) / 255.0) for one in (PIXELS, brought))
    assert (clipping(gamut, before).difference > 2.0).mean() > 0.3
    # The aims: at most 0.5 % still clips; hue turns by at most 3 degrees at the 99th percentile where there
    # is chroma over 10; what lies well inside moves by at most 0.5 dE00.
    assert (clipping(gamut, after).difference > 2.0).mean() <= 0.005
    (chroma, hue), (chroma_after, hue_after) = chroma_hue(before), chroma_hue(after)
    hued = (chroma > 10.0) & (chroma_after > 10.0)
    turn = np.degrees(np.abs(np.angle(np.exp(1j * (hue_after - hue)))))[hued]
    assert np.percentile(turn, 99) <= 3.0
    middle = np.array([55.0, 0.0, 0.0])
    well_inside = gamut.inside(middle + (before - middle) * 1.5)
    assert well_inside.sum() > 200
    assert delta_e_2000(before, after)[well_inside].max() <= 0.5


def test_strength(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    colours = picture_colours(PIXELS, WHOLE)
    request = clip_request(Standard.SRGB, gamut, **options)
    wanted = request(colours.rgb_encoded)
    moved = [
        fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=one)(wanted)
        for one in (0, 0.5, 1)
    ]
    assert np.array_equal(moved[0], wanted)
    # derived: half the strength goes half the way
    assert np.abs(moved[1] - (wanted + moved[2]) / 2.0).max() < 1e-9


def test_a_picture_that_fits_is_left_alone(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    pixels = np.random.default_rng(9).integers(120, 150, (20, 20, 3), dtype=np.uint8)
    whole = [Region(name="face", left=0, top=0, right=20, bottom=20)]
    bring_in = fit_bring_in(
        picture_colours(pixels, whole), Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0
    )
    table = bring_in_table(bring_in, Standard.SRGB, gamut, **options)
    assert np.array_equal(np.asarray(Image.fromarray(pixels).filter(table)), pixels)


@pytest.mark.parametrize("strength", [-0.1, 1.1, float("nan")])
def test_strength_is_a_share(gamut: DeviceGamut, strength: float) -> None:
    with pytest.raises(FieldError, match="a number from 0 to 1"):
        fit_bring_in(
            picture_colours(PIXELS, WHOLE),
            Standard.SRGB,
            gamut,
            intent=Intent.RELATIVE,
            black_point_compensation=True,
            threshold_de=2.0,
            strength=strength,
        )
