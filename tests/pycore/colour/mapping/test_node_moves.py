"""Bringing in through tables: between their nodes what lies inside the gamut stays, too."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import make_device_gamut
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.convert import Converter
from pycore.colour.link.device_link import FINE_NODES, make_link
from pycore.colour.link.proof import clip_request, seen_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.bring_in import fit_bring_in
from pycore.colour.mapping.node_moves import boundary_values, bring_in_shift
from pycore.colour.mapping.picture_colours import picture_colours
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

from ..bringer import bringer
from ..conversion import Conversion
from ..make_profiles import lab_table_profile
from .test_bring_in import PIXELS, WHOLE

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

OPTIONS: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": False}


@pytest.mark.parametrize("name", ["illustrative-matte", "curves-lab-v4"])
def test_what_lies_inside_stays_between_the_nodes(profiles: dict[str, bytes], name: str) -> None:
    """Beside the lightest yellow a cell holds a node inside, and another one that is moved by 13 dE00."""
    canvas = parse_profile(profiles[name])
    gamut = make_device_gamut(canvas)
    bring_in = fit_bring_in(
        picture_colours(PIXELS, WHOLE), Standard.SRGB, gamut, **OPTIONS, threshold_de=2.0, strength=1.0
    )
    chance = np.random.default_rng(17)
    vivid = chance.random((40_000, 3))
    vivid[:20_000] = [0.85, 0.85, 0.0] + vivid[:20_000] * [0.15, 0.15, 0.6]
    words = np.rint(vivid * 65535.0).astype(np.uint16)
    request = clip_request(Standard.SRGB, gamut, **OPTIONS)
    inside = gamut.inside(request(words / 65535.0))
    assert inside.sum() > 3000

    words = words[inside][None]
    # The aim. Without a bound at the nodes the furthest is 3.6 on one canvas and 7 on the other.
    kept = bringer(bring_in, Standard.SRGB, gamut, **OPTIONS)(words)[0] / 65535.0
    assert delta_e_2000(request(words[0] / 65535.0), request(kept)).max() <= 1.0
    if name == "curves-lab-v4":
        # Its tables of six nodes make up to 1.6 of 0.7, with or without tables of pixels.
        return
    shift = bring_in_shift(bring_in, Standard.SRGB, gamut, **OPTIONS)
    plain, brought = (Converter(Standard.SRGB, canvas, **OPTIONS, shift=one) for one in (None, shift))
    printed, moved = (gamut.to_lab(one.to_words(words)[0] / 65535.0) for one in (plain, brought))
    assert delta_e_2000(printed, moved).max() <= 1.0

    ends = 0.6 + 0.4 * chance.random((100, 1, 3))
    yellow = np.array([1.0, 1.0, 0.0])
    ramps = yellow + np.linspace(0.0, 1.0, 512)[:, None] * (ends - yellow)
    ramp_lab = gamut.to_lab(
        brought.to_words(np.rint(ramps * 65535.0).astype(np.uint16)).reshape(-1, 3) / 65535.0
    )
    ramp_lab = ramp_lab.reshape(100, 512, 3)
    step = delta_e_2000(ramp_lab[:, 1:].reshape(-1, 3), ramp_lab[:, :-1].reshape(-1, 3))
    # regression: 1.2; where moves may grow by any amount from one node to the next, 1.9
    assert step.max() <= 1.4


@pytest.mark.parametrize("source", ["srgb", "matrix-v4"])
def test_what_lies_on_the_boundary_stays(profiles: dict[str, bytes], source: str) -> None:
    """It looks into cells that have no node inside; a pure power of light is steep in the dark."""
    space = Standard.SRGB if source == "srgb" else parse_profile(profiles[source])
    gamut = make_device_gamut(parse_profile(profiles["illustrative-matte"]))
    bring_in = fit_bring_in(
        picture_colours(PIXELS, WHOLE), space, gamut, **OPTIONS, threshold_de=2.0, strength=1.0
    )
    words = np.rint(boundary_values(space, gamut, **OPTIONS) * 65535.0).astype(np.uint16)[None]
    assert words.shape[1] > 10_000
    request = clip_request(space, gamut, **OPTIONS)
    kept = bringer(bring_in, space, gamut, **OPTIONS)(words)[0] / 65535.0
    assert delta_e_2000(request(words[0] / 65535.0), request(kept)).max() <= 1.0


@pytest.mark.parametrize("name", ["srgb", "uneven"])
def test_the_screen_shows_what_is_printed(profiles: dict[str, bytes], name: str) -> None:
    """The screen's table has even steps; a source's own may leave a channel with six nodes."""
    space = Standard.SRGB if name == "srgb" else parse_profile(lab_table_profile((33, 2, 33)))
    canvas = parse_profile(profiles["illustrative-matte"])
    gamut = make_device_gamut(canvas)
    bring_in = fit_bring_in(
        picture_colours(PIXELS, WHOLE), space, gamut, **OPTIONS, threshold_de=2.0, strength=1.0
    )
    shift = bring_in_shift(bring_in, space, gamut, **OPTIONS)
    link = make_link(
        space, gamut, Standard.SRGB, **OPTIONS, viewing=Viewing.BLACK, shift=shift, nodes=FINE_NODES
    )
    values = PIXELS.reshape(-1, 3) / 255.0
    places = np.stack([axis.place_of(values[:, one]) for one, axis in enumerate(link.axes)], axis=1)
    shown = interpolate(link.table, places, method=Interpolation.TETRAHEDRAL)[:, :3]
    printed = Converter(space, canvas, **OPTIONS, shift=shift).to_words(PIXELS).reshape(-1, 3) / 65535.0
    seen = seen_transform(gamut, Standard.SRGB, viewing=Viewing.BLACK)(printed)
    to_lab = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    apart = delta_e_2000(to_lab(shown), to_lab(seen))
    # regression: 0.1 and 0.26; with half of the nodes the first is 0.5
    assert np.percentile(apart, 99) <= 0.2
    assert apart.max() <= 0.5
