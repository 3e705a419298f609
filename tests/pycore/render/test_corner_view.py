"""A corner drawn from the fold: what is seen, where it lies on the flat sheet, and what covers what."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.contract.check import check_job
from pycore.fold.facets import corners
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.fold.visible import printed_point
from pycore.render.corner_pick import CORNERS
from pycore.render.corner_view import Material, Seen, corner_view, shown_face_mm, telling_moment


def spec_of(finish: str, **wrap: object) -> FoldSpec:
    return fold_spec(check_job({"bars": {"depth_mm": 20}, "wrap": {"finish": finish, **wrap}}))


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("finish", ["tucked", "lapped", "trimmed"])
def test_what_is_seen_is_what_the_fold_shows(finish: str, corner: str) -> None:
    """Derived: the fold's own inverse map tells which flat places are seen; the picture shows those alone."""
    spec = spec_of(finish)
    view = corner_view(spec, corner=corner, seen=Seen.FRONT)
    printed = np.argwhere(view.material == Material.PRINT)
    assert not np.any(view.material == Material.WOOD)
    at = corners(spec)[corner]
    signs = np.where(at.origin > 0, 1.0, -1.0)
    seen_names = set()
    for row, column in printed[:: len(printed) // 60]:
        flat = np.array([view.across_mm[row, column], view.down_mm[row, column]], float)
        across, down = flat
        # On the box: face, or a side folded back by what reaches past the edge.
        if across <= 0 and down <= 0:
            place = np.array([*(at.origin + flat * signs), 0.0])
        elif across > 0 and down > 0:
            # Half of a corner square is the flap of a lapped corner.
            assert finish == "lapped"
            continue
        elif across > 0:
            place = np.array([*(at.origin + signs * np.array([0.0, down])), -across])
        else:
            place = np.array([*(at.origin + signs * np.array([across, 0.0])), -down])
        name, found = printed_point(spec, place)
        seen_names.add(name)
        # derived: float32 of some hundred mm is exact to 0.00003 mm.
        assert found == pytest.approx(at.origin + flat * signs, abs=1e-3)
    assert "face" in seen_names
    assert len(seen_names) == 3


def test_only_a_lapped_corner_shows_its_square() -> None:
    squares = {}
    for finish in ("tucked", "lapped", "trimmed"):
        view = corner_view(spec_of(finish), corner="top-right", seen=Seen.FRONT)
        square = (view.across_mm > 0.1) & (view.down_mm > 0.1) & (view.material == Material.PRINT)
        squares[finish] = int(square.sum())
    assert squares["tucked"] == squares["trimmed"] == 0
    assert squares["lapped"] > 1000


def test_a_set_back_shows_a_sliver_of_the_fold() -> None:
    view = corner_view(spec_of("tucked", setback_mm=3), corner="top-right", seen=Seen.FRONT)
    square = (view.across_mm > 0.1) & (view.down_mm > 0.1) & (view.material == Material.PRINT)
    assert square.sum() > 200


def test_lengths_are_true_to_scale() -> None:
    """Derived: along a row of the face the place on the sheet moves by equal steps; none of it is missing."""
    view = corner_view(spec_of("tucked"), corner="top-right", seen=Seen.FRONT)
    face = (view.material == Material.PRINT) & (view.across_mm <= 0) & (view.down_mm <= 0)
    row = int(np.argmax(face.sum(axis=1)))
    steps = np.diff(view.across_mm[row][face[row]].astype(float))
    assert steps == pytest.approx(np.full(len(steps), steps.mean()), rel=1e-3)
    assert float(view.across_mm[face].min()) == pytest.approx(-38.0, abs=0.5)


def test_from_behind_the_back_shows_wood_and_bare_canvas_while_it_is_folded() -> None:
    for finish in ("tucked", "lapped", "trimmed"):
        spec = spec_of(finish)
        view = corner_view(spec, corner="top-left", seen=Seen.BACK, moment=telling_moment(spec))
        shares = {kind: float((view.material == kind).mean()) for kind in (1, 2, 3)}
        assert min(shares.values()) > 0.005, finish


def test_the_upper_layer_hides_the_lower() -> None:
    """Derived: on the back of a folded tucked corner the over turn-over lies on the under turn-over."""
    view = corner_view(spec_of("tucked"), corner="top-right", seen=Seen.BACK)
    # On the flat sheet the under turn-over beside the corner has across > 20 and down just under 0.
    beside = (view.across_mm > 21) & (view.down_mm > -24) & (view.down_mm < -1)
    assert not np.any(beside & (view.material == Material.PRINT))
    above = (view.down_mm > 21) & (view.across_mm > -24) & (view.across_mm < -1)
    assert np.any(above & (view.material == Material.PRINT))


def test_what_is_cut_out_fades_and_what_is_not_there_is_clear() -> None:
    view = corner_view(spec_of("tucked"), corner="bottom-right", seen=Seen.FRONT)
    reach = shown_face_mm(spec_of("tucked"), seen=Seen.FRONT)
    assert np.all(view.opacity[view.material == Material.NOTHING] == 0)
    near = (view.material == Material.PRINT) & (np.minimum(view.across_mm, view.down_mm) > -0.5 * reach)
    assert np.all(view.opacity[near] == 1)
    edge = (view.material == Material.PRINT) & (np.minimum(view.across_mm, view.down_mm) < -0.98 * reach)
    assert np.all(view.opacity[edge] < 0.1)
