"""The stages in workshop order and the closed forms of their angles."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish, OverPair
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import Angles, angles_at, stages_of

Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}
INSIDE = st.floats(0.001, 0.999)


def degrees(angles: Angles, field: str) -> float:
    return float(np.degrees(getattr(angles, field)[0]))


@pytest.mark.parametrize(
    ("fields", "names"),
    [
        ({"finish": TUCKED}, ["under", "tuck", "over-back"]),
        ({"finish": TUCKED} | CUT_BACK, ["under", "under-back", "tuck", "over-back"]),
        ({"finish": LAPPED}, ["over", "under", "wrap", "backs"]),
        ({"finish": LAPPED} | CUT_BACK, ["over", "over-back", "under", "wrap", "under-back"]),
        ({"finish": TRIMMED}, ["under", "tab", "under-back", "over", "over-back"]),
    ],
)
def test_stages_are_equal_and_in_order(worked: Worked, fields: dict[str, Any], names: list[str]) -> None:
    stages = stages_of(worked(**fields))
    assert [stage.name for stage in stages] == names
    bounds = np.linspace(0, 1, len(names) + 1)
    assert [stage.start for stage in stages] == pytest.approx(bounds[:-1], abs=1e-15)
    assert [stage.end for stage in stages] == pytest.approx(bounds[1:], abs=1e-15)
    assert all(stage.label for stage in stages)


def test_only_the_backs_of_whole_lapped_corners_are_hidden(worked: Worked) -> None:
    """Derived (fold proof): only there have the turn-overs no rigid way past one another."""
    hidden = {
        (finish, corners, stage.name)
        for finish in Finish
        for corners in Corners
        for stage in stages_of(worked(finish=finish, corners=corners))
        if stage.hidden
    }
    assert hidden == {(LAPPED, Corners.WHOLE, "backs")}


def test_labels_name_the_sides_that_move(worked: Worked) -> None:
    first = {over: stages_of(worked(over=over))[0].label for over in OverPair}
    assert "left and right" in first[OverPair.TOP_BOTTOM]
    assert "top and bottom" in first[OverPair.LEFT_RIGHT]


# Derived: tucked, psi 60: theta_o = 90 - 2 atan(cos 60) = 36.8699, rho = 2 atan(sin 60) = 81.7868. Lapped,
# chi 45: theta_u = 90 - 2 atan(cos 45) = 19.4712, and the same of rho at sigma 45.
WORKED_ANGLES = [
    ({}, 5 / 9, {"under": 90, "gusset": 60, "over": 36.8699, "under_back": 81.7868, "over_back": 0}),
    ({}, 5 / 6, {"under": 90, "gusset": 90, "over": 90, "under_back": 90, "over_back": 45}),
    ({"finish": LAPPED}, 3 / 8, {"under": 19.4712, "gusset": 45, "over": 90, "under_back": 0}),
    ({"finish": LAPPED}, 5 / 8, {"under": 90, "gusset": 135, "over": 90, "under_back": 0}),
    ({"finish": LAPPED}, 7 / 8, {"under": 90, "gusset": 180, "over_back": 45, "under_back": 19.4712}),
    ({"finish": TUCKED} | CUT_BACK, 5 / 12, {"under": 90, "gusset": 0, "over": 0, "under_back": 60}),
    ({"finish": LAPPED} | CUT_BACK, 0.3, {"over": 90, "over_back": 45, "under": 0, "under_back": 0}),
    ({"finish": TRIMMED}, 0.3, {"under": 90, "gusset": 45, "under_back": 0, "over": 0, "over_back": 0}),
]


@pytest.mark.parametrize(("fields", "at", "expected"), WORKED_ANGLES)
def test_worked_angles(worked: Worked, fields: dict[str, Any], at: float, expected: dict[str, float]) -> None:
    angles = angles_at(worked(**fields), np.array([at]))
    for field, value in expected.items():
        assert degrees(angles, field) == pytest.approx(value, abs=5e-5), field


def test_worked_setback(worked: Worked) -> None:
    """Derived: d 38, set-back 1, e = 1.507436 deg, k = 45 deg + e.

    With the under pair down psi = e + acos(cos 45 / sin k) = 1.507436 + acos(0.707107 / 0.725464).
    cos e = 0.999654, sin e = 0.026307, sin k = (0.999654 + 0.026307) / sqrt 2 = 0.725464, so
    acos(0.974696) = 12.9171 deg, psi = 14.4245 deg.
    """
    angles = angles_at(worked(setback_mm=1), np.array([1 / 3]))
    assert degrees(angles, "gusset") == pytest.approx(14.4245, abs=5e-4)
    assert degrees(angles, "under_back") == pytest.approx(
        2 * np.degrees(np.arctan(np.sin(np.radians(14.4245)))), abs=1e-3
    )


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_flat_has_no_angle_and_folded_has_right_ones(specs: Specs, data: st.DataObject) -> None:
    spec = data.draw(specs)
    angles = angles_at(spec, np.array([0.0, 1.0]))
    for field in dataclasses.fields(angles):
        flat, folded = np.degrees(getattr(angles, field.name))
        assert flat == 0, field.name
        # Lapped: the gusset's over half ends folded back on its side, 180 degrees from where it lay flat.
        right = 180 if field.name == "gusset" and spec.finish is LAPPED else 90
        assert folded == pytest.approx(right, abs=1e-12), field.name


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_nothing_is_unfolded_on_the_way(specs: Specs, data: st.DataObject) -> None:
    """Every angle only grows, and the sides never turn past upright."""
    angles = angles_at(data.draw(specs), np.linspace(0, 1, 501, dtype=np.float64))
    for field in dataclasses.fields(angles):
        value = getattr(angles, field.name)
        assert np.diff(value).min() > -1e-12, field.name
        assert np.isfinite(value).all(), field.name
    assert angles.under.max() <= np.pi / 2
    assert angles.over.max() <= np.pi / 2


@settings(max_examples=40, deadline=None)
@given(share=INSIDE)
def test_tuck_solves_both_vertices(worked: Worked, share: float) -> None:
    """Derived: at O cos psi cos theta_o + sin theta_o = 1; at P sin psi sin rho + cos rho = 1."""
    angles = angles_at(worked(), np.array([(1 + share) / 3]))
    psi, over, back = angles.gusset[0], angles.over[0], angles.under_back[0]
    assert psi == pytest.approx(share * np.pi / 2, abs=1e-12)
    assert np.cos(psi) * np.cos(over) + np.sin(over) == pytest.approx(1, abs=1e-12)
    assert np.sin(psi) * np.sin(back) + np.cos(back) == pytest.approx(1, abs=1e-12)
    assert angles.under[0] == pytest.approx(np.pi / 2, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(share=INSIDE)
def test_lap_solves_its_vertices(worked: Worked, share: float) -> None:
    """Derived: the same relation holds of theta_u and chi, and of rho and sigma."""
    spec = worked(finish=LAPPED)
    spread = angles_at(spec, np.array([(1 + share) / 4]))
    assert np.cos(spread.gusset) * np.cos(spread.under) + np.sin(spread.under) == pytest.approx(1, abs=1e-12)
    backs = angles_at(spec, np.array([(3 + share) / 4]))
    sigma, rho = backs.over_back, backs.under_back
    assert np.cos(sigma) * np.cos(rho) + np.sin(rho) == pytest.approx(1, abs=1e-12)
    assert sigma == pytest.approx(share * np.pi / 2, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(setback=st.floats(1e-9, 5, exclude_min=True), share=INSIDE, stage=st.integers(0, 1))
def test_setback_solves_the_corner(worked: Worked, setback: float, share: float, stage: int) -> None:
    """Derived: in space, too, the ridge is 45 degrees from the fold edge; both are built anew below."""
    spec = worked(setback_mm=setback, turnover_mm=60, height_mm=400, width_mm=600)
    angles = angles_at(spec, np.array([(stage + share) / 3]))
    e = spec.setback_rad
    k = np.pi / 4 + e
    under, over, psi = angles.under[0], angles.over[0], angles.gusset[0]
    # Axes: e1 out of the under side, e2 out of the over side, e3 up; Us turns about e2, Os about -e1.
    along = np.array([np.cos(under), 0, -np.sin(under)])
    normal = np.array([np.sin(under), 0, np.cos(under)])
    upright = np.cos(psi) * np.array([0, 1, 0]) - np.sin(psi) * normal
    ridge = np.cos(k) * along + np.sin(k) * upright
    edge = np.array([-np.sin(e), np.cos(e) * np.cos(over), -np.cos(e) * np.sin(over)])
    assert ridge @ edge == pytest.approx(np.sqrt(0.5), abs=1e-12)
    assert over == 0 if stage == 0 else under == pytest.approx(np.pi / 2, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(at=st.floats(0, 1), setback=st.floats(1e-8, 1e-4))
def test_small_setback_is_near_none(worked: Worked, at: float, setback: float) -> None:
    """Derived: the gusset opens by e + acos(cos 45 / sin k), about sqrt(2 e) for a small angle e."""
    plain = angles_at(worked(), np.array([at]))
    back = angles_at(worked(setback_mm=setback), np.array([at]))
    for field in dataclasses.fields(plain):
        apart = abs(getattr(plain, field.name) - getattr(back, field.name))[0]
        assert apart < 4 * np.sqrt(2 * setback / 38), field.name


@pytest.mark.parametrize("setback", [1e-8, 1e-6, 1e-4, 0.01, 0.1, 1, 5])
def test_setback_keeps_its_digits_at_the_ends_of_stages(worked: Worked, setback: float) -> None:
    """There its equations are singular, and a careless root turns 1e-16 into 1e-8, or 1e-6 mm at the edge.

    Derived: no angle runs faster than 100 stages' worth of right angles per unit of `at`: 1e-12 away it is
    within 1.6e-10 of where it ends.
    """
    for depth in np.linspace(6, 60, 28):
        spec = worked(setback_mm=setback, depth_mm=float(depth), **CUT_BACK)
        for name, field, start in (("under", "gusset", True), ("tuck", "over", False)):
            stage = next(one for one in stages_of(spec) if one.name == name)
            end = stage.start if start else stage.end
            angles = angles_at(spec, np.array([end, end + (1e-12 if start else -1e-12)]))
            exact, near = getattr(angles, field)
            assert exact == (0 if start else np.pi / 2), (depth, name)
            assert near == pytest.approx(exact, abs=1.6e-10), (depth, name)


@pytest.mark.parametrize(
    ("finish", "names"),
    [
        (TUCKED, ["under", "tuck"]),
        (LAPPED, ["over", "under", "wrap"]),
        (TRIMMED, ["under", "tab", "over"]),
    ],
)
def test_without_a_turnover_nothing_is_turned_over(worked: Worked, finish: Finish, names: list[str]) -> None:
    assert [stage.name for stage in stages_of(worked(finish=finish, turnover_mm=0.0))] == names
