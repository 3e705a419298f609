"""Inside and outside of a boundary mesh."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.gamut.inside import InsideTest
from pycore.colour.gamut.mesh import GamutMesh, cube_surface, gamut_mesh
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.spaces.arrays import BoolArray
from pycore.contract.job import Intent

CUBE, TRIANGLES = cube_surface(4)
BOX = InsideTest(GamutMesh(lab_d50=CUBE * 20.0 + 40.0, triangles=TRIANGLES, device=CUBE))


@given(st.tuples(*[st.floats(20.0, 80.0)] * 3))
def test_a_box(place: tuple[float, float, float]) -> None:
    # derived: the box reaches from 40 to 60 on each axis; on its faces (within 1e-5) either answer is right
    if min(abs(one - 40.0) for one in place) > 1e-5 and min(abs(one - 60.0) for one in place) > 1e-5:
        assert bool(BOX(np.array([place]))[0]) == all(40.0 < one < 60.0 for one in place)


@given(st.tuples(*[st.floats(20.0, 80.0)] * 3))
def test_how_far_above_or_below_a_box(place: tuple[float, float, float]) -> None:
    lightness, *others = place
    # derived, as above
    if min(min(abs(one - 40.0), abs(one - 60.0)) for one in place) > 1e-5:
        held = all(40.0 < one < 60.0 for one in others)
        away = max(40.0 - lightness, lightness - 60.0, 0.0) if held else np.inf
        found = BOX.upright_distance(np.array([place]), furthest=15.0)[0]
        assert found == pytest.approx(away if away <= 15.0 else np.inf, abs=1e-9)


@pytest.mark.parametrize("name", ["illustrative-matte", "cmyk-v2"])
def test_the_gamut_begins_where_it_is_said_to(profiles: dict[str, bytes], name: str) -> None:
    inside = InsideTest(gamut_mesh(parse_profile(profiles[name]), intent=Intent.RELATIVE))
    points = np.random.default_rng(9).uniform([0.0, -90.0, -90.0], [100.0, 90.0, 90.0], (20_000, 3))
    distance = inside.upright_distance(points, furthest=100.0)
    assert ((distance == 0.0) == inside(points)).all()
    # Chosen: so many that every corner of the gamut is met.
    apart = np.flatnonzero((distance > 0.0) & (distance < np.inf))
    assert len(apart) > 1000

    def meets(share: float, beyond: float) -> BoolArray:
        away = np.array([1.0, 0.0, 0.0]) * (share * distance[apart, np.newaxis] + beyond)
        return inside(points[apart] + away) | inside(points[apart] - away)

    # Of four inks the mesh has folds of no thickness, at which a line may cross it and be outside still.
    assert meets(1.0, 1e-6).mean() >= (0.995 if name == "cmyk-v2" else 1.0)
    for share in (0.2, 0.6, 0.99):
        assert not meets(share, 0.0).any()


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
