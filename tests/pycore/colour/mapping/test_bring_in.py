"""Colours brought into the gamut: they fit, keep their hue, and leave the others alone."""

from functools import lru_cache
from typing import Any, Final

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping, make_device_gamut
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_answer
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.bring_in import fit_bring_in
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.colour.spaces.adapt import bradford, xy_to_xyz
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.ipt import lab_to_lpt, lpt_to_lab
from pycore.colour.spaces.lab import D50_XYZ, chroma_hue, lab_to_xyz
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..bringer import bringer
from ..conversion import Conversion
from ..public_profiles import PRINTERS, printer

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once


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
    brought = bringer(bring_in, space, gamut, **options)(PIXELS)
    request = clip_request(space, gamut, **options)
    before, after = (request(one.reshape(-1, 3) / 255.0) for one in (PIXELS, brought))
    assert (clipping(gamut, before).difference > 2.0).mean() > 0.3
    # The aims: at most 0.5 % still clips; the eye's hue turns by at most 3 degrees at the 99th percentile
    # where there is chroma over 10; what lies well inside moves by at most 0.5 dE00.
    assert (clipping(gamut, after).difference > 2.0).mean() <= 0.005
    (chroma, hue), (chroma_after, hue_after) = chroma_hue(lab_to_lpt(before)), chroma_hue(lab_to_lpt(after))
    hued = (chroma > 10.0) & (chroma_after > 10.0)
    turn = np.degrees(np.abs(np.angle(np.exp(1j * (hue_after - hue)))))[hued]
    assert np.percentile(turn, 99) <= 3.0
    middle = np.array([55.0, 0.0, 0.0])
    well_inside = gamut.inside(middle + (before - middle) * 1.5)
    assert well_inside.sum() > 200
    assert delta_e_2000(before, after)[well_inside].max() <= 0.5


@pytest.mark.parametrize("name", ["illustrative-matte", "cmyk-v2", "curves-lab-v4"])
@pytest.mark.parametrize("compensated", [True, False])
def test_what_lies_inside_stays(profiles: dict[str, bytes], name: str, compensated: bool) -> None:
    gamut = make_device_gamut(parse_profile(profiles[name]))
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": compensated}
    colours = picture_colours(PIXELS, WHOLE)
    bring_in = fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0)
    chance = np.random.default_rng(13)
    darks = chance.random((3000, 3)) * 0.2
    wanted = clip_request(Standard.SRGB, gamut, **options)(np.concatenate([chance.random((9000, 3)), darks]))
    inside = gamut.inside(wanted)
    assert 0.1 < inside.mean() < 0.9
    moved = delta_e_2000(wanted, bring_in(wanted))
    # The aim: 1. What is brought in from outside moves by much more.
    assert moved[inside].max() <= 1.0
    assert moved[~inside].max() > 5.0


@pytest.mark.parametrize("name", ["illustrative-matte", "curves-lab-v4"])
def test_beside_what_lies_inside_nothing_is_moved_far(profiles: dict[str, bytes], name: str) -> None:
    """The boundary is hollow beside the lightest yellow and the darkest blue: a gradient must not break."""
    gamut = make_device_gamut(parse_profile(profiles[name]))
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    colours = picture_colours(PIXELS, WHOLE)
    bring_in = fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0)
    vivid = np.random.default_rng(16).random((60_000, 3))
    vivid[:20_000] = [0.85, 0.85, 0.0] + vivid[:20_000] * [0.15, 0.15, 0.6]
    wanted = clip_request(Standard.SRGB, gamut, **options)(vivid)
    up = np.array([0.05, 0.0, 0.0])
    wanted, beside = np.concatenate([wanted, wanted]), np.concatenate([wanted + up, wanted - up])
    edge = gamut.inside(wanted) & ~gamut.inside(beside)
    assert edge.sum() > 50
    assert delta_e_2000(wanted, bring_in(wanted))[edge].max() <= 1.0
    # derived: 0.7 and 6 for each L*, of which there are 0.05 at most. Without a bound it is 4 on one canvas
    # and 26 on the other.
    assert delta_e_2000(beside, bring_in(beside))[edge].max() <= 1.05


def test_ramps_stay_ramps(gamut: DeviceGamut) -> None:
    """From grey to each corner of the cube chroma never falls, and from black to white lightness never."""
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": False}
    colours = picture_colours(PIXELS, WHOLE)
    bring_in = fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0)
    request = clip_request(Standard.SRGB, gamut, **options)
    share = np.linspace(0.0, 1.0, 201)[:, None]
    for corner in range(1, 7):
        end = np.array([corner & 1, corner >> 1 & 1, corner >> 2], dtype=np.float64)
        # The same hue all the way: the picture's own ramp would turn it.
        far = lab_to_lpt(request(end[None]))
        ramp = np.concatenate([np.full((201, 1), far[0, 0]), share * far[:, 1:]], axis=1)
        chroma, _ = chroma_hue(lab_to_lpt(bring_in(lpt_to_lab(ramp))))
        # regression: where the sampled edge and the true one part, a hundredth of the way is allowed
        assert np.diff(chroma).min() > -0.01 * chroma.max()
    lightness = bring_in(request(np.repeat(share, 3, axis=1)))[:, 0]
    assert np.diff(lightness).min() >= -1e-9
    assert lightness[0] == pytest.approx(gamut.black, abs=0.5)


@lru_cache(maxsize=len(PRINTERS))
def gamut_of(name: str) -> DeviceGamut:
    """A printer's; how much chroma it holds is sought once for each."""
    return make_device_gamut(parse_profile(printer(name).read_bytes()))


@pytest.mark.native
@pytest.mark.slow
@pytest.mark.parametrize("name", PRINTERS)
@pytest.mark.parametrize("compensated", [True, False])
def test_the_eye_s_hue_is_held(name: str, compensated: bool) -> None:
    """Ten saturated colours, blue and sky blue among them, on every printer at hand."""
    saturated = np.array(
        [
            *([0, 0, 255], [0, 128, 255], [255, 0, 0], [0, 255, 0], [0, 255, 255]),
            *([255, 0, 255], [255, 255, 0], [255, 128, 0], [128, 0, 255], [0, 255, 128]),
        ],
        dtype=np.uint8,
    )
    gamut = gamut_of(name)
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": compensated}
    pixels = PIXELS.copy()
    pixels[0, :10] = saturated
    bring_in = fit_bring_in(
        picture_colours(pixels, WHOLE), Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0
    )
    request = clip_request(Standard.SRGB, gamut, **options)
    wanted = request(saturated / 255.0)
    moved = bring_in(wanted)
    kept = request(bringer(bring_in, Standard.SRGB, gamut, **options)(saturated[None])[0] / 255.0)
    for brought in (moved, kept):
        turns = [
            np.abs((after - before + 180.0) % 360.0 - 180.0)
            for before, after in zip(hues(wanted), hues(brought), strict=True)
        ]
        # The aim: 6 degrees by IPT or Oklab. In CIELAB's hue blue turns by 20 to 28.
        assert np.minimum(*turns).max() <= 6.0
        assert turns[0].max() <= 3.0
    # Lightness is given up only where chroma gains more, and something was brought in at all.
    # regression: 17.5, a green that the printer's own table makes darker by 14.6 to 16.9
    assert np.abs(moved[:, 0] - wanted[:, 0]).max() <= 17.6
    assert delta_e_2000(wanted, moved).max() > 5.0
    # The lightest yellow stays yellow: a canvas holds little chroma at its own lightness, more below.
    (asked, left) = (np.hypot(one[:, 1], one[:, 2]) for one in (wanted, moved))
    # regression: 0.70, and a green's 0.41; along a line to a grey 0.17
    assert left[6] >= 0.68 * asked[6]
    assert left[3] >= 0.39 * asked[3]
    further = delta_e_2000(wanted, moved) - delta_e_2000(wanted, printed(gamut, wanted))
    # regression: 3.8; along a line to a grey 17.8
    assert further.max() <= 4.0
    # Of all hues, from white to full value to black, nothing stands out beside its neighbour.
    chart = request(all_hues().reshape(-1, 3))
    brought, plain = bring_in(chart), printed(gamut, chart)
    # regression: 1.43; with a lightness that leans by no more than 12, 1.4 to 3.0
    assert across(brought).max() <= 1.45 * across(plain).max()
    assert delta_e_2000(chart, brought).mean() <= delta_e_2000(chart, plain).mean()


#: Rows and columns of the chart of all hues.
_CHART: Final = (60, 180)


def all_hues() -> FloatArray:
    """The surface of the cube: hues across, from white over full value to black down; (60, 180, 3)."""
    rows, columns = _CHART
    hue, down = np.meshgrid(np.arange(columns) * 6.0 / columns, np.linspace(0.0, 2.0, rows))
    wheel = np.clip(np.abs((hue[..., None] + np.array([0.0, 4.0, 2.0])) % 6.0 - 3.0) - 1.0, 0.0, 1.0)
    chroma, value = np.minimum(down, 1.0)[..., None], np.minimum(2.0 - down, 1.0)[..., None]
    chart: FloatArray = value * (1.0 - chroma * (1.0 - wheel))
    return chart


def across(lab_d50: FloatArray) -> FloatArray:
    """Of the chart of all hues: how far each colour lies from the next hue's."""
    chart = lab_d50.reshape(*_CHART, 3)
    return delta_e_2000(chart.reshape(-1, 3), np.roll(chart, -1, axis=1).reshape(-1, 3))


def printed(gamut: DeviceGamut, wanted_lab: FloatArray) -> FloatArray:
    """What a printer's own table makes of colours."""
    return gamut.to_lab(np.clip(make_answer(gamut.profile, intent=Intent.RELATIVE)(wanted_lab), 0.0, 1.0))


def hues(lab_d50: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Hue by IPT and by Oklab, in degrees, as colour-science has them."""
    import colour

    to_d65 = bradford(source_white=np.array(D50_XYZ), target_white=xy_to_xyz((0.3127, 0.3290)))
    xyz = lab_to_xyz(lab_d50) @ to_d65.T
    ipt, oklab = colour.XYZ_to_IPT(xyz), colour.XYZ_to_Oklab(xyz)
    by_ipt, by_oklab = (np.degrees(np.arctan2(one[:, 2], one[:, 1])) for one in (ipt, oklab))
    return by_ipt, by_oklab


@pytest.mark.native
def test_ipt_is_colour_science_s() -> None:
    import colour

    chance = np.random.default_rng(14)
    lab_d50 = chance.uniform([5, -40, -40], [95, 40, 40], (500, 3))
    to_d65 = bradford(source_white=np.array(D50_XYZ), target_white=xy_to_xyz((0.3127, 0.3290)))
    ipt = colour.XYZ_to_IPT(lab_to_xyz(lab_d50) @ to_d65.T)
    # derived: the paper's matrices are rounded to four digits, so its own white is that far from grey
    assert np.abs(lab_to_lpt(lab_d50)[:, 1:] / 100.0 - ipt[:, 1:]).max() < 2e-4


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
    # derived: half the strength goes half the way, along the straight line of one hue
    none, half, whole = (lab_to_lpt(one) for one in moved)
    assert np.abs(half - (none + whole) / 2.0).max() < 1e-6


def test_a_near_black_does_not_become_vivid(gamut: DeviceGamut) -> None:
    """What is lifted to the canvas's black keeps its chroma, or the noise of shadows would turn coloured."""
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": False}
    colours = picture_colours(PIXELS, WHOLE)
    bring_in = fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0)
    noise = np.random.default_rng(19).integers(0, 9, (500, 3)) / 255.0
    wanted = clip_request(Standard.SRGB, gamut, **options)(noise)
    (asked, _), (given, _) = (chroma_hue(one) for one in (wanted, bring_in(wanted)))
    assert wanted[:, 0].max() < 4.0
    # The aim: no more than is asked for. With IPT's pair kept it is 1.7 more here, and 7 on other canvases.
    assert (given - asked).max() < 0.1


def test_a_blue_that_is_no_light_stays_blue(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    colours = picture_colours(PIXELS, WHOLE)
    # ROMM RGB's: what it asks for below nothing is called green.
    blue = np.array([[16.6, 48.4, -143.8]])
    whole, hardly = (
        fit_bring_in(colours, Standard.SRGB, gamut, **options, threshold_de=2.0, strength=one)(blue)
        for one in (1.0, 0.001)
    )
    chroma, hue = chroma_hue(lab_to_lpt(whole))
    # The aim: between azure and violet, and no grey. Before it was called light: 209 degrees.
    assert 235.0 < np.degrees(hue)[0] % 360.0 < 260.0
    assert chroma[0] > 10.0
    # The way begins at what is asked for, also where that is no light.
    assert np.abs(hardly - blue).max() < 0.5


def test_a_picture_that_fits_is_left_alone(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    pixels = np.random.default_rng(9).integers(120, 150, (20, 20, 3), dtype=np.uint8)
    whole = [Region(name="face", left=0, top=0, right=20, bottom=20)]
    bring_in = fit_bring_in(
        picture_colours(pixels, whole), Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0
    )
    assert bring_in.does_nothing
    assert np.array_equal(bringer(bring_in, Standard.SRGB, gamut, **options)(pixels), pixels)


def test_a_picture_that_is_missed_by_less_than_the_threshold_is_left_alone(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    colours = picture_colours(PIXELS, WHOLE)
    lost = clipping(gamut, clip_request(Standard.SRGB, gamut, **options)(colours.rgb_encoded)).difference
    just = float(lost.max())
    for threshold, nothing in ((just, True), (just - 0.01, False)):
        bring_in = fit_bring_in(
            colours, Standard.SRGB, gamut, **options, threshold_de=threshold, strength=1.0
        )
        assert bring_in.does_nothing is nothing


@pytest.mark.parametrize("kind", [np.uint8, np.uint16])
def test_pixels_that_need_not_move_stay_to_the_last_bit(gamut: DeviceGamut, kind: type) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    bring_in = fit_bring_in(
        picture_colours(PIXELS, WHOLE), Standard.SRGB, gamut, **options, threshold_de=2.0, strength=1.0
    )
    move = bringer(bring_in, Standard.SRGB, gamut, **options)
    grey = np.arange(60, 200)[:, None] + np.random.default_rng(15).integers(-12, 12, (140, 3))
    dull: NDArray[Any] = (grey * (1 if kind is np.uint8 else 257)).astype(kind)[None]
    moved = move(dull)
    assert moved.dtype == kind
    assert np.array_equal(moved, dull)
    assert not np.array_equal(move(PIXELS.astype(kind)), PIXELS)


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
