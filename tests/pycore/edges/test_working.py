"""How many pixels are judged, and which side is where."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.edges.working import WorkingFace, from_edge, working_faces, working_px_per_mm

from ..worked import worked_job


def face(tree: dict[str, Any], *, width_px: int, height_px: int) -> WorkingFace:
    (only,) = faces(tree, width_px=width_px, height_px=height_px)
    return only


def faces(tree: dict[str, Any], *, width_px: int, height_px: int) -> list[WorkingFace]:
    def grey(job: Job, width: int, height: int) -> NDArray[np.uint8]:
        return np.full((height, width, 3), 128, np.uint8)

    return working_faces(worked_job(**tree), grey, width_px=width_px, height_px=height_px)


@pytest.mark.parametrize(
    ("wide", "high", "depth", "expected"),
    [
        (400, 300, 38, 1.0),  # Derived: 120 000 pixels on 120 000 mm2.
        (200, 150, 38, 2.0),  # Derived: four times as many a mm2.
        (400, 300, 6, 8 / 6),  # Derived: eight pixels on 6 mm, more than the 6 that 1 a mm would give.
        (
            4000,
            3000,
            20,
            (0.22 / 12) ** 0.5,
        ),  # Derived: eight on 20 mm make 1.92 million; 220 000 are the most.
    ],
)
def test_the_resolution_follows_the_sizes(wide: float, high: float, depth: float, expected: float) -> None:
    job = check_job({"face": {"width_mm": wide, "height_mm": high}, "bars": {"depth_mm": depth}})
    assert working_px_per_mm(job) == pytest.approx(expected, abs=1e-9)


def test_a_group_is_judged_panel_by_panel() -> None:
    group = {"panels": 2, "gap_mm": 30}
    tree = {"canvas": {"thickness_mm": 0}, "group": group}
    # Derived: a picture of the group's shape, 2 x 400 + 30 by 300 mm.
    left, right = faces(tree, width_px=8300, height_px=3000)
    # Derived: 120 000 pixels on twice the area.
    assert left.depth_px == pytest.approx(38 / 2**0.5, abs=1e-9)
    assert len(left.values) == len(right.values)


def test_the_fills_that_are_judged_move_nothing() -> None:
    plain = face({}, width_px=900, height_px=700)
    run_on = face({"sides": {"fill": "run-on"}}, width_px=900, height_px=700)
    assert plain.values.shape == run_on.values.shape


def test_from_edge_begins_at_the_edge() -> None:
    values = np.arange(12, dtype=np.float64).reshape(3, 4)
    assert from_edge(values, Side.TOP)[0].tolist() == [0, 1, 2, 3]
    assert from_edge(values, Side.RIGHT)[0].tolist() == [3, 7, 11]
    assert from_edge(values, Side.BOTTOM)[0].tolist() == [8, 9, 10, 11]
    assert from_edge(values, Side.LEFT)[0].tolist() == [0, 4, 8]
