"""The fold in figures: what the command line prints is what the modules say."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from pycore.contract.check import check_job
from pycore.errors import FieldError, GeometryError
from pycore.fold.polygons import area
from pycore.fold.report import fold_report

from ..worked import worked_job

Fold = Callable[..., Any]


def facet(report: dict[str, Any], name: str) -> dict[str, Any]:
    return next(one for one in report["facets"] if one["name"] == name)


def test_folded_worked_job() -> None:
    """Derived: 29 facets; the gusset (0, 0), (38, 0), (38, 38) goes round by (p, q) -> (-q, 0, -p)."""
    report = fold_report(worked_job(), at=1.0)
    assert report["at"] == 1
    assert len(report["facets"]) == 29
    gusset = facet(report, "top-right folded corner, under half")
    positions = {
        tuple(flat): tuple(round(x, 9) + 0.0 for x in place)
        for flat, place in zip(gusset["flat_mm"], gusset["position_mm"], strict=True)
    }
    assert positions == {
        (400, 300): (400, 300, 0),
        (438, 300): (400, 300, -38),
        (438, 338): (362, 300, -38),
    }
    assert gusset["layer"] == 1
    assert gusset["visible_mm"] == []
    assert facet(report, "top side")["layer"] == 3


def test_figures_are_plain_data_and_add_up() -> None:
    report = json.loads(json.dumps(fold_report(worked_job(), at=1.0), allow_nan=False))
    sheet = sum(area(np.array(one["flat_mm"])) for one in report["facets"])
    seen = sum(area(np.array(part)) for one in report["facets"] for part in one["visible_mm"])
    # Derived: 526 x 426; 400 x 300 + 2 x 38 (400 + 300).
    assert (sheet, seen) == pytest.approx((224076, 173200), abs=1e-6)
    assert report["layers"] == {
        "face": 1,
        "under side": 1,
        "over side": 1,
        "folded corner": 3,
        "back": 1,
        "back corner": 5,
    }
    # Derived: five layers of 0.45 mm.
    assert report["bulk_mm"]["back corner"] == pytest.approx(2.25, abs=1e-12)
    assert [stage["name"] for stage in report["stages"]] == ["under", "tuck", "over-back"]
    assert [note["code"] for note in report["notes"]] == ["bulk"]


def test_flat_report_lies_flat() -> None:
    for one in fold_report(check_job({"wrap": {"finish": "lapped", "corners": "cut-back"}}), at=0)["facets"]:
        place = np.array(one["position_mm"])
        assert place[:, :2] == pytest.approx(np.array(one["flat_mm"]), abs=1e-9)
        assert place[:, 2] == pytest.approx(0, abs=1e-9)


def test_part_way_report() -> None:
    """Derived: half of the first of three stages turns the under pair by 45 deg; 38 / sqrt 2 = 26.8701."""
    side = facet(fold_report(worked_job(), at=1 / 6), "right side")
    deepest = min(side["position_mm"], key=lambda place: place[2])
    assert (deepest[0], deepest[2]) == pytest.approx((426.8701, -26.8701), abs=5e-5)


@pytest.mark.parametrize(
    ("at", "got"), [(-0.01, "-0.01"), (1.5, "1.5"), (float("nan"), "nan"), (float("inf"), "inf")]
)
def test_moments_past_flat_and_folded_are_refused(at: float, got: str) -> None:
    with pytest.raises(
        FieldError, match=rf"must be a number from 0 \(flat\) to 1 \(folded\); you gave {got}"
    ) as e:
        fold_report(worked_job(), at=at)
    assert e.value.field == "at"


def test_sizes_that_cannot_be_folded_are_refused() -> None:
    """Derived: trimmed, 2 x 60 mm of turn-over on the under pair's 110."""
    job = check_job(
        {"face": {"height_mm": 110}, "wrap": {"finish": "trimmed", "turnover_mm": 60, "tab_mm": 9}}
    )
    with pytest.raises(GeometryError, match="at least 120 mm") as caught:
        fold_report(job, at=1)
    assert caught.value.field == "face.height_mm"
