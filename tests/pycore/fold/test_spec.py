"""Which sizes fold, and what the refusals say."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.contract.job import Corners, Finish, Job, OverPair
from pycore.errors import GeometryError
from pycore.fold.facets import flat_facets
from pycore.fold.polygons import area
from pycore.fold.spec import FoldSpec, check_spec, fold_spec

Worked = Callable[..., FoldSpec]

WHOLE = {"corners": Corners.WHOLE}
CUT_BACK = {"corners": Corners.CUT_BACK}


def test_a_job_gives_its_sizes() -> None:
    job = check_job(
        {
            "face": {"width_mm": 610, "height_mm": 420},
            "bars": {"depth_mm": 22},
            "wrap": {"turnover_mm": 31, "finish": "trimmed", "over": "left-right", "tab_mm": 9},
            "canvas": {"thickness_mm": 0.5},
        }
    )
    spec = fold_spec(job)
    assert (spec.width_mm, spec.height_mm, spec.depth_mm, spec.turnover_mm) == (610, 420, 22, 31)
    assert (spec.finish, spec.over, spec.corners) == (Finish.TRIMMED, OverPair.LEFT_RIGHT, Corners.WHOLE)
    assert (spec.tab_mm, spec.thickness_mm, spec.setback_mm) == (9, 0.5, 0)
    # Derived: 22 + 31; the over pair is left and right, whose face edges are as long as the face is high.
    assert spec.reach_mm == 53
    assert (spec.over_length_mm, spec.under_length_mm) == (420, 610)


def test_setback_is_an_angle_of_tucked_corners_alone(worked: Worked) -> None:
    # Derived: atan(1 / 38) = 1.5074 degrees.
    assert math.degrees(worked(setback_mm=1).setback_rad) == pytest.approx(1.5074, abs=5e-5)
    assert worked(setback_mm=1, finish=Finish.LAPPED).setback_rad == 0
    assert worked(setback_mm=1, finish=Finish.TRIMMED).setback_rad == 0


def test_corners_are_whole_only_with_a_turnover_to_fold(worked: Worked) -> None:
    assert worked().whole
    assert not worked(turnover_mm=0).whole
    assert not worked(**CUT_BACK).whole
    assert not worked(finish=Finish.TRIMMED).whole


# Derived, d 38, r 25, t 10: whole 2 (38 + 25) = 126; cut back 2 x 38 = 76; trimmed 2 max(10, 25) = 50;
# with r 60 > d: cut back and trimmed 120, and the under pair 120. A set-back of 5 mm slants the ends of a
# cut-back over pair by 5 / 6 of the reach of 6 + 20 at d 6: 2 x 26 x 5 / 6 = 43.3333.
BOUNDS = [
    (Finish.TUCKED, WHOLE, 126.0, "at least 126 mm"),
    (Finish.LAPPED, WHOLE, 126.0, "at least 126 mm"),
    (Finish.TUCKED, CUT_BACK, 76.0, "at least 76 mm"),
    (Finish.LAPPED, CUT_BACK, 76.0, "at least 76 mm"),
    (Finish.TRIMMED, WHOLE, 50.0, "at least 50 mm"),
    (Finish.LAPPED, CUT_BACK | {"turnover_mm": 60}, 120.0, "at least 120 mm"),
    (Finish.TRIMMED, {"turnover_mm": 60}, 120.0, "at least 120 mm"),
    (Finish.TRIMMED, {"turnover_mm": 0, "tab_mm": 19}, 38.0, "at least 38 mm"),
    (
        Finish.TUCKED,
        CUT_BACK | {"turnover_mm": 20, "depth_mm": 6, "setback_mm": 5},
        2 * 26 * 5 / 6,
        "at least 43.3333 mm",
    ),
]


@pytest.mark.parametrize(("finish", "fields", "least", "expected"), BOUNDS)
@pytest.mark.parametrize("over", OverPair)
def test_over_pair_has_room_for_its_corners(
    worked: Worked, finish: Finish, fields: dict[str, Any], least: float, expected: str, over: OverPair
) -> None:
    edge = "width_mm" if over is OverPair.TOP_BOTTOM else "height_mm"
    check_spec(worked(finish=finish, over=over, **fields, **{edge: least}))
    with pytest.raises(GeometryError, match=expected) as caught:
        check_spec(worked(finish=finish, over=over, **fields, **{edge: least - 1e-6}))
    assert caught.value.field == f"face.{edge}"
    assert caught.value.code == "geometry"
    assert "larger face" in caught.value.remedy


@pytest.mark.parametrize("finish", Finish)
@pytest.mark.parametrize("over", OverPair)
def test_under_pair_has_room_for_its_turnovers(worked: Worked, finish: Finish, over: OverPair) -> None:
    """Derived: 2 x 70 = 140, with an over pair long enough for any finish, 2 (38 + 70) = 216."""
    over_edge, under_edge = "width_mm", "height_mm"
    if over is OverPair.LEFT_RIGHT:
        over_edge, under_edge = under_edge, over_edge
    check_spec(worked(finish=finish, over=over, turnover_mm=70, **{over_edge: 216.0, under_edge: 140.0}))
    with pytest.raises(GeometryError, match=r"at least 140 mm.*you gave 139\.9 mm") as caught:
        check_spec(worked(finish=finish, over=over, turnover_mm=70, **{over_edge: 216.0, under_edge: 139.9}))
    assert caught.value.field == f"face.{under_edge}"


def test_setback_has_a_turnover_to_swing_in(worked: Worked) -> None:
    """Derived: d 38, r 6: tan(45 deg + e) < 44 / 38 gives e = 4.1850 deg, and 38 tan e = 2.7805 mm."""
    check_spec(worked(turnover_mm=6, setback_mm=2.780))
    with pytest.raises(
        GeometryError, match=r"under 2\.78 mm with a turn-over of 6 mm; you gave 2\.781 mm"
    ) as caught:
        check_spec(worked(turnover_mm=6, setback_mm=2.781))
    assert caught.value.field == "wrap.setback_mm"
    assert "cut the corners back" in caught.value.remedy
    check_spec(worked(turnover_mm=6, setback_mm=2.781, **CUT_BACK))


def test_a_job_that_cannot_be_folded_is_refused() -> None:
    """Derived: 2 (38 + 25) = 126 over the face's 100."""
    job = check_job({"face": {"width_mm": 100}, "bars": {"depth_mm": 38}})
    with pytest.raises(GeometryError, match="Face width must be at least 126 mm"):
        fold_spec(job)
    assert fold_spec(Job()).whole


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_what_is_allowed_has_facets_of_positive_area_on_the_sheet(
    specs: st.SearchStrategy[FoldSpec], data: st.DataObject
) -> None:
    spec = data.draw(specs)
    check_spec(spec)
    reach = spec.reach_mm
    for facet in flat_facets(spec):
        assert area(facet.flat) > -1e-9, facet.name
        assert facet.flat.min() >= -reach - 1e-9, facet.name
        assert (facet.flat <= (spec.width_mm + reach + 1e-9, spec.height_mm + reach + 1e-9)).all(), facet.name
