"""Bringing in through tables: between their nodes what lies inside the gamut stays, too."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import make_device_gamut
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.convert import Converter
from pycore.colour.link.device_link import make_link
from pycore.colour.link.proof import clip_request, seen_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.bring_in import fit_bring_in
from pycore.colour.mapping.bring_pixels import PixelBringer
from pycore.colour.mapping.node_moves import bring_in_shift
from pycore.colour.mapping.picture_colours import picture_colours
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

from ..conversion import Conversion
from ..make_profiles import lab_table_profile
from .test_bring_in import PIXELS, WHOLE

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

OPTIONS: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": False}


@pytest.mark.parametrize("name", ["illustrative-matte", "curves-lab-v4"])
def test_what_lies_inside_stays_between_the_nodes(profiles: dict[str, bytes], name: str) -> None:
 regression: where moves may grow by any amount from one node to the next, 1.9"""Beside the lightest yellow a cell holds a node inside, and another one that is moved by 13 dE00."""
 regression: where moves may grow by any amount from one node to the next, 1.9canvas = parse_profile(profiles[name])
 regression: where moves may grow by any amount from one node to the next, 1.9gamut = make_device_gamut(canvas)
 regression: where moves may grow by any amount from one node to the next, 1.9bring_in = fit_bring_in(
 regression: where moves may grow by any amount from one node to the next, 1.9    picture_colours(PIXELS, WHOLE), Standard.SRGB, gamut, **OPTIONS, threshold_de=2.0, strength=1.0
 regression: where moves may grow by any amount from one node to the next, 1.9)
 regression: where moves may grow by any amount from one node to the next, 1.9chance = np.random.default_rng(17)
 regression: where moves may grow by any amount from one node to the next, 1.9vivid = chance.random((40_000, 3))
 regression: where moves may grow by any amount from one node to the next, 1.9vivid[:20_000] = [0.85, 0.85, 0.0] + vivid[:20_000] * [0.15, 0.15, 0.6]
 regression: where moves may grow by any amount from one node to the next, 1.9words = np.rint(vivid * 65535.0).astype(np.uint16)
 regression: where moves may grow by any amount from one node to the next, 1.9request = clip_request(Standard.SRGB, gamut, **OPTIONS)
 regression: where moves may grow by any amount from one node to the next, 1.9inside = gamut.inside(request(words / 65535.0))
 regression: where moves may grow by any amount from one node to the next, 1.9assert inside.sum() > 3000

 regression: where moves may grow by any amount from one node to the next, 1.9words = words[inside][None]
 regression: where moves may grow by any amount from one node to the next, 1.9# The aim. Without a bound at the nodes the furthest is 3.6 on one canvas and 7 on the other.
 regression: where moves may grow by any amount from one node to the next, 1.9kept = PixelBringer(bring_in, Standard.SRGB, gamut, **OPTIONS)(words)[0] / 65535.0
 regression: where moves may grow by any amount from one node to the next, 1.9assert delta_e_2000(request(words[0] / 65535.0), request(kept)).max() <= 1.0
 regression: where moves may grow by any amount from one node to the next, 1.9if name == "curves-lab-v4":
 regression: where moves may grow by any amount from one node to the next, 1.9    # Its tables of six nodes make up to 1.6 of 0.7, with or without tables of pixels.
 regression: where moves may grow by any amount from one node to the next, 1.9    return
 regression: where moves may grow by any amount from one node to the next, 1.9shift = bring_in_shift(bring_in, Standard.SRGB, gamut, **OPTIONS)
 regression: where moves may grow by any amount from one node to the next, 1.9plain, brought = (Converter(Standard.SRGB, canvas, **OPTIONS, shift=one) for one in (None, shift))
 regression: where moves may grow by any amount from one node to the next, 1.9printed, moved = (gamut.to_lab(one.to_words(words)[0] / 65535.0) for one in (plain, brought))
 regression: where moves may grow by any amount from one node to the next, 1.9assert delta_e_2000(printed, moved).max() <= 1.0

 regression: where moves may grow by any amount from one node to the next, 1.9ends = 0.6 + 0.4 * chance.random((100, 1, 3))
 regression: where moves may grow by any amount from one node to the next, 1.9yellow = np.array([1.0, 1.0, 0.0])
 regression: where moves may grow by any amount from one node to the next, 1.9ramps = yellow + np.linspace(0.0, 1.0, 512)[:, None] * (ends - yellow)
 regression: where moves may grow by any amount from one node to the next, 1.9ramp_lab = gamut.to_lab(
 regression: where moves may grow by any amount from one node to the next, 1.9    brought.to_words(np.rint(ramps * 65535.0).astype(np.uint16)).reshape(-1, 3) / 65535.0
 regression: where moves may grow by any amount from one node to the next, 1.9)
 regression: where moves may grow by any amount from one node to the next, 1.9ramp_lab = ramp_lab.reshape(100, 512, 3)
 regression: where moves may grow by any amount from one node to the next, 1.9step = delta_e_2000(ramp_lab[:, 1:].reshape(-1, 3), ramp_lab[:, :-1].reshape(-1, 3))
 regression: where moves may grow by any amount from one node to the next, 1.9# regression: where moves may grow by any amount from one node to the next, 1.9
 regression: where moves may grow by any amount from one node to the next, 1.9assert step.max() <= 1.4


@pytest.mark.parametrize("name", ["srgb", "uneven"])
def test_the_screen_shows_what_is_printed(profiles: dict[str, bytes], name: str) -> None:
 regression: where moves may grow by any amount from one node to the next, 1.9"""The screen's table has half of the nodes; a source's own may leave a channel with six."""
 regression: where moves may grow by any amount from one node to the next, 1.9space = Standard.SRGB if name == "srgb" else parse_profile(lab_table_profile((33, 2, 33)))
 regression: where moves may grow by any amount from one node to the next, 1.9canvas = parse_profile(profiles["illustrative-matte"])
 regression: where moves may grow by any amount from one node to the next, 1.9gamut = make_device_gamut(canvas)
 regression: where moves may grow by any amount from one node to the next, 1.9bring_in = fit_bring_in(
 regression: where moves may grow by any amount from one node to the next, 1.9    picture_colours(PIXELS, WHOLE), space, gamut, **OPTIONS, threshold_de=2.0, strength=1.0
 regression: where moves may grow by any amount from one node to the next, 1.9)
 regression: where moves may grow by any amount from one node to the next, 1.9shift = bring_in_shift(bring_in, space, gamut, **OPTIONS)
 regression: where moves may grow by any amount from one node to the next, 1.9link = make_link(space, gamut, Standard.SRGB, **OPTIONS, viewing=Viewing.BLACK, shift=shift)
 regression: where moves may grow by any amount from one node to the next, 1.9shown = link.shown(PIXELS)[..., :3].reshape(-1, 3) / 255.0
 regression: where moves may grow by any amount from one node to the next, 1.9printed = Converter(space, canvas, **OPTIONS, shift=shift).to_words(PIXELS).reshape(-1, 3) / 65535.0
 regression: where moves may grow by any amount from one node to the next, 1.9seen = seen_transform(gamut, Standard.SRGB, viewing=Viewing.BLACK)(printed)
 regression: where moves may grow by any amount from one node to the next, 1.9to_lab = make_transform(
 regression: where moves may grow by any amount from one node to the next, 1.9    Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
 regression: where moves may grow by any amount from one node to the next, 1.9)
 regression: where moves may grow by any amount from one node to the next, 1.9apart = delta_e_2000(to_lab(shown), to_lab(seen))
 regression: where moves may grow by any amount from one node to the next, 1.9# Beside a steep boundary there is more between the nodes; half a step of 8 bits alone is 0.7.
 regression: where moves may grow by any amount from one node to the next, 1.9assert np.percentile(apart, 99) <= 1.0
