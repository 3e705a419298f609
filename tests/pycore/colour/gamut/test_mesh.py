"""The boundary of a gamut as a mesh."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.gamut.mesh import GamutMesh, cube_surface, gamut_mesh
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.spaces.arrays import IndexArray
from pycore.contract.job import Intent
from pycore.errors import ProfileError


def edges(triangles: IndexArray) -> IndexArray:
    return np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])


@given(st.integers(2, 9))
def test_the_cube_is_closed(nodes: int) -> None:
    points, triangles = cube_surface(nodes)
    # derived: 6 (n - 1)^2 squares; Euler's formula for a sphere: points = edges - faces + 2
    assert len(triangles) == 12 * (nodes - 1) ** 2
    assert len(points) == 6 * (nodes - 1) ** 2 + 2
    found = {tuple(edge) for edge in edges(triangles).tolist()}
    assert len(found) == 3 * len(triangles)
    assert all((b, a) in found for a, b in found)


def test_the_cube_holds_one_unit() -> None:
    points, triangles = cube_surface(5)
    a, b, c = (points[triangles[:, index]] for index in range(3))
    assert np.sum(a * np.cross(b, c)) / 6.0 == pytest.approx(1.0)


@pytest.mark.parametrize("name", ["illustrative-matte", "cmyk-v2", "matrix-v4"])
def test_gamuts_are_closed_and_right_side_out(profiles: dict[str, bytes], name: str) -> None:
    mesh = gamut_mesh(parse_profile(profiles[name]), intent=Intent.RELATIVE)
    found = {tuple(edge) for edge in edges(mesh.triangles).tolist()}
    assert len(found) == 3 * len(mesh.triangles)
    assert all((b, a) in found for a, b in found)
    assert mesh.volume > 0.0


def test_the_volume_of_srgb() -> None:
    # common practice: about 832,000 to 833,000 cubic Lab units under D50 are given for sRGB; the mesh with 25
    # points an edge cuts corners by less than 0.2 %
    device, triangles = cube_surface(25)
    lab_d50 = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )(device)
    volume = abs(GamutMesh(lab_d50=lab_d50, triangles=triangles, device=device).volume)
    assert volume == pytest.approx(832_500, rel=0.002)


def test_the_canvas_is_no_screen(profiles: dict[str, bytes]) -> None:
    mesh = gamut_mesh(parse_profile(profiles["illustrative-matte"]), intent=Intent.RELATIVE)
    # regression: that of the shipped file, to half of the digit that `tuckfold profile` prints
    assert mesh.volume == pytest.approx(312_316, abs=0.5)
    absolute = gamut_mesh(parse_profile(profiles["illustrative-matte"]), intent=Intent.ABSOLUTE)
    assert absolute.lab_d50[:, 0].max() == pytest.approx(95.3, abs=0.05)
    assert absolute.volume < mesh.volume


@pytest.mark.native
@pytest.mark.parametrize("name", ["illustrative-matte", "cmyk-v2", "matrix-v4"])
def test_another_library_measures_the_same_volume(profiles: dict[str, bytes], name: str) -> None:
    # Large, and read here so that no process waits for it that does not run this test.
    import trimesh

    mesh = gamut_mesh(parse_profile(profiles[name]), intent=Intent.RELATIVE)
    # (a*, b*, L*) is right-handed.
    theirs = trimesh.Trimesh(mesh.lab_d50[:, [1, 2, 0]], mesh.triangles, process=False)
    assert theirs.is_watertight
    assert mesh.volume == pytest.approx(theirs.volume, rel=1e-9)
    # derived: no solid is larger than its convex hull
    assert mesh.volume < theirs.convex_hull.volume


def test_grey_has_no_solid(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="RGB or CMYK, which span a solid of colours; it is grey"):
        gamut_mesh(parse_profile(profiles["grey-v2"]), intent=Intent.RELATIVE)
