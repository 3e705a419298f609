"""Inside and outside of a boundary mesh."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.gamut.inside import InsideTest
from pycore.colour.gamut.mesh import GamutMesh, cube_surface, gamut_mesh
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.contract.job import Intent

CUBE, TRIANGLES = cube_surface(4)
BOX = InsideTest(GamutMesh(lab_d50=CUBE * 20.0 + 40.0, triangles=TRIANGLES, device=CUBE))


@given(st.tuples(*[st.floats(20.0, 80.0)] * 3))
def test_a_box(place: tuple[float, float, float]) -> None:
    # derived: the box reaches from 40 to 60 on each axis; on its faces (within 1e-5) either answer is right
    if min(abs(one - 40.0) for one in place) > 1e-5 and min(abs(one - 60.0) for one in place) > 1e-5:
        assert bool(BOX(np.array([place]))[0]) == all(40.0 < one < 60.0 for one in place)


def test_the_way_round_of_the_triangles_does_not_matter() -> None:
    turned = InsideTest(GamutMesh(lab_d50=CUBE, triangles=TRIANGLES[:, ::-1], device=CUBE))
    assert turned(np.array([[0.5, 0.5, 0.5], [0.5, 0.5, 1.5]])).tolist() == [True, False]


@pytest.mark.parametrize("name", ["illustrative-matte", "cmyk-v2", "matrix-v4"])
def test_every_printed_colour_is_inside(profiles: dict[str, bytes], name: str) -> None:
    profile = parse_profile(profiles[name])
    inside = InsideTest(gamut_mesh(profile, intent=Intent.RELATIVE))
    channels = 4 if name == "cmyk-v2" else 3
    # Away from the faces of the device cube, whose curved images the flat triangles cut.
    device = np.random.default_rng(4).uniform(0.05, 0.95, (4000, channels))
    to_lab = make_transform(profile, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    assert inside(to_lab(device)).mean() > 0.995


def test_the_share_inside_is_the_volume(profiles: dict[str, bytes]) -> None:
    mesh = gamut_mesh(parse_profile(profiles["illustrative-matte"]), intent=Intent.RELATIVE)
    steps = np.linspace(-99.0, 99.0, 67)
    points = np.stack(
        [one.ravel() for one in np.meshgrid(np.arange(1.0, 100.0, 3.0), steps, steps, indexing="ij")], axis=1
    )
    # derived: each point stands for a box of 3 by 3 by 3; 1 % is three times the error of such a count
    assert InsideTest(mesh)(points).sum() * 27.0 == pytest.approx(mesh.volume, rel=0.01)


def test_no_colours_give_no_answers() -> None:
    assert BOX(np.zeros((0, 3))).tolist() == []
