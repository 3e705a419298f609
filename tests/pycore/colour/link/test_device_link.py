"""The link against the engine evaluated exactly, and against LittleCMS's gamut check."""

import io

import numpy as np
import pytest
from PIL import Image, ImageCms

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.colour.link.device_link import CLIP_FULL_DE, make_link
from pycore.colour.link.proof import clip_request, proof_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.spaces.arrays import ByteArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..conversion import Conversion

PIXELS = np.random.default_rng(6).integers(0, 256, (100, 120, 3), dtype=np.uint8)


@pytest.mark.parametrize("viewing", Viewing)
@pytest.mark.parametrize(
    ("intent", "compensated"),
    [(Intent.RELATIVE, True), (Intent.RELATIVE, False), (Intent.PERCEPTUAL, False), (Intent.ABSOLUTE, False)],
)
def test_exactness(gamut: DeviceGamut, intent: Intent, compensated: bool, viewing: Viewing) -> None:
    options: Conversion = {"intent": intent, "black_point_compensation": compensated}
    link = make_link(Standard.SRGB, gamut, Standard.SRGB, **options, viewing=viewing)
    greys = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    pixels = np.concatenate([PIXELS.reshape(-1, 3), greys])
    linked = link.shown(pixels[None])[0]
    values = pixels / 255.0
    proof = proof_transform(Standard.SRGB, gamut, Standard.SRGB, **options, viewing=viewing)
    exact = proof(values)
    to_lab = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    apart = delta_e_2000(to_lab(exact), to_lab(linked[:, :3] / 255.0))
    # The aim for a display, which has 8 bits: mean 0.25, 99th percentile 0.8.
    assert apart.mean() < 0.25
    assert np.percentile(apart, 99) < 0.8
    # Greys as well as 8 bits allow, which turn greys to one side or the other.
    rounded = delta_e_2000(to_lab(exact), to_lab(np.rint(exact * 255.0) / 255.0))
    assert apart[-256:].mean() < rounded[-256:].mean() + 0.03
    # regression: where greys begin to clip the bend falls between two nodes
    assert apart[-256:].max() < 1.2
    wanted = clip_request(Standard.SRGB, gamut, **options)(values)
    # regression: cells across the boundary blur it; well below the threshold of 2 that it is compared with
    difference = linked[:, 3] / 255.0 * CLIP_FULL_DE
    assert np.percentile(np.abs(difference - clipping(gamut, wanted).difference), 99) < 0.8


def test_the_texture_agrees_with_the_core(gamut: DeviceGamut) -> None:
    link = make_link(
        Standard.SRGB,
        gamut,
        Standard.SRGB,
        intent=Intent.RELATIVE,
        black_point_compensation=False,
        viewing=Viewing.CANVAS,
    )
    texture = link.halves().view(np.float16).astype(np.float64)
    # As the stage does it: every value's place by the curve, then by tetrahedra; the texture has blue first.
    places = np.stack([link.curve()[PIXELS[..., one], one] for one in range(3)], axis=-1) / (link.nodes - 1)
    by_card = interpolate(
        texture.transpose(2, 1, 0, 3), places.reshape(-1, 3), method=Interpolation.TETRAHEDRAL
    )
    by_core = link.shown(PIXELS).reshape(-1, 4)
    # derived: the core rounds to a step, half floats to an eighth of one
    assert np.abs(np.clip(by_card, 0.0, 1.0) * 255.0 - by_core).max() < 0.7


def test_what_is_in_the_canvas_s_values_is_printed_as_it_is(gamut: DeviceGamut) -> None:
    link = make_link(
        parse_profile(illustrative_profile()),
        gamut,
        Standard.SRGB,
        intent=Intent.PERCEPTUAL,
        black_point_compensation=True,
        viewing=Viewing.CANVAS,
    )
    seen = make_transform(
        gamut.profile, Standard.SRGB, intent=Intent.ABSOLUTE, black_point_compensation=False
    )
    shown = link.shown(PIXELS).reshape(-1, 4)
    apart = np.abs(shown[:, :3] - seen(PIXELS.reshape(-1, 3) / 255.0) * 255.0)
    # regression: 33 nodes; half a step is rounding
    assert apart.mean() < 0.4
    assert not shown[:, 3].any()


def test_a_wide_display(gamut: DeviceGamut) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    narrow = make_link(Standard.SRGB, gamut, Standard.SRGB, **options, viewing=Viewing.BLACK)
    wide = make_link(Standard.SRGB, gamut, Standard.DISPLAY_P3, **options, viewing=Viewing.BLACK)
    # A saturated colour has a smaller share of red's excess over the others in a space with wider primaries.
    spread = [np.ptp(link.table[..., :3], axis=-1).max() for link in (narrow, wide)]
    assert spread[1] < spread[0]
    assert np.array_equal(narrow.table[..., 3], wide.table[..., 3])


def test_what_is_no_display_or_no_rgb_is_refused(gamut: DeviceGamut, profiles: dict[str, bytes]) -> None:
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    with pytest.raises(FieldError, match="srgb or display-p3; you gave lab"):
        make_link(Standard.SRGB, gamut, Standard.LAB, **options, viewing=Viewing.BLACK)
    with pytest.raises(FieldError, match="an RGB space; you gave a space of 4 channels"):
        make_link(parse_profile(profiles["cmyk-v2"]), gamut, Standard.SRGB, **options, viewing=Viewing.BLACK)


@pytest.mark.native
def test_littlecms_gamut_check(gamut: DeviceGamut) -> None:
    ramp = np.linspace(0, 255, 24).astype(np.uint8)
    red, green, blue = np.meshgrid(ramp, ramp, ramp, indexing="ij")
    pixels = np.stack([red, green, blue], axis=-1).reshape(24 * 24, 24, 3)
    screen = ImageCms.createProfile("sRGB")
    printer = ImageCms.ImageCmsProfile(io.BytesIO(illustrative_profile()))
    relative = ImageCms.Intent.RELATIVE_COLORIMETRIC

    def proofed(flags: ImageCms.Flags) -> ByteArray:
        transform = ImageCms.buildProofTransform(
            screen, screen, printer, "RGB", "RGB", relative, relative, flags
        )
        return np.asarray(ImageCms.applyTransform(Image.fromarray(pixels), transform))

    soft = ImageCms.Flags.SOFTPROOFING
    alarmed = np.any(proofed(soft) != proofed(soft | ImageCms.Flags.GAMUTCHECK), axis=-1).ravel()
    request = clip_request(Standard.SRGB, gamut, intent=Intent.RELATIVE, black_point_compensation=False)
    wanted = request(pixels.reshape(-1, 3) / 255.0)
    # LittleCMS alarms where its own round trip misses by more than 5 units of CIELAB, looked up in a table.
    ours = np.linalg.norm(wanted - gamut.reproduce(wanted), axis=1) > 5.0
    assert (ours == alarmed).mean() > 0.95
