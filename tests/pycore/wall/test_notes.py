"""Each note on a wall is there where it is due, and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.wall.fit_wall import FocalFrom, WallFit
from pycore.wall.light import RoomLight
from pycore.wall.notes import opened_notes, wall_notes
from pycore.wall.pose import Pose


def _codes(
    *,
    focal_from: FocalFrom = FocalFrom.EXIF,
    is_burnt: bool = False,
    unsure: float = 0.03,
    has_filed_focal: bool = True,
    is_reduced: bool = False,
    is_cut_off: bool = False,
) -> list[str]:
    pose = Pose(focal_px=1000, rotation=np.eye(3), shift_mm=np.array([0, 0, 2000.0]), centre_px=np.zeros(2))
    fit = WallFit(
        wall_to_photo=pose.wall_to_photo,
        camera=pose.camera,
        pose=pose,
        focal_from=focal_from,
        miss_px=0.0,
        unknowns=np.zeros(6),
        covariance=np.zeros((6, 6)),
        plane=lambda _: pose.wall_to_photo,
    )
    light = RoomLight(white=np.ones(3), middle_mm=(0, 0), fall=np.zeros(2), is_burnt=is_burnt)
    found = wall_notes(
        fit,
        light,
        unsure=unsure,
        has_filed_focal=has_filed_focal,
        is_reduced=is_reduced,
        is_cut_off=is_cut_off,
    )
    return [note.code for note in found]


def test_a_good_photograph_has_none() -> None:
    assert _codes() == []
    assert _codes(focal_from=FocalFrom.PERSPECTIVE, has_filed_focal=False) == []


def test_each_is_said_where_it_is_due() -> None:
    # Common practice: a size that is less sure than 3 percent is worth a better photograph.
    assert _codes(unsure=0.0301) == ["wall-unsure"]
    assert _codes(focal_from=FocalFrom.USUAL, has_filed_focal=False) == ["wall-frontal"]
    assert _codes(focal_from=FocalFrom.PERSPECTIVE) == ["wall-focal-refused"]
    assert _codes(is_burnt=True) == ["wall-paper-burnt"]
    assert _codes(is_cut_off=True) == ["wall-cut-off"]
    assert _codes(is_reduced=True) == ["wall-photo-reduced"]


@pytest.mark.parametrize(("is_px", "codes"), [((4000, 3000), []), ((4000, 2999), ["wall-photo-copy"])])
def test_a_smaller_copy_is_said(is_px: tuple[int, int], codes: list[str]) -> None:
    assert [note.code for note in opened_notes(was_px=(4000, 3000), is_px=is_px)] == codes
