"""The largest round face of the picture's shape, against every face tried one by one."""

from __future__ import annotations

from typing import Any

import pytest

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import GeometryError
from pycore.fold.smallest_face import smallest_face_mm
from pycore.fold.spec import fold_spec
from pycore.layout.largest_face import LengthUnit, largest_face
from pycore.layout.sheet import fit_sheet
from pycore.layout.window import picture_window
from pycore.tasks.propose_face import SPARE_MM, propose_face

MM, INCH = LengthUnit.MM, LengthUnit.INCH

JOBS: dict[str, dict[str, Any]] = {
    "the defaults": {},
    "deep bars": {"bars": {"depth_mm": 45}, "wrap": {"turnover_mm": 40}},
    "uneven margins": {"sheet": {"width_mm": 420, "height_mm": 594, "margin_mm": [40, 3, 25, 60]}},
    "stretch": {"canvas": {"stretch_percent": [2.5, -1], "thickness_mm": 0.6}},
    "sides that run on": {"sides": {"fill": "run-on", "left": {"fill": "plain"}}},
    "a group": {"group": {"panels": 3, "gap_mm": 35}, "sheet": {"width_mm": 594, "height_mm": 841}},
    "trimmed": {"wrap": {"finish": "trimmed", "over": "left-right"}},
    "a roll": {"sheet": {"width_mm": 610}},
    "a turned picture": {"picture": {"turn": 90}},
    "a sheet too small": {"sheet": {"width_mm": 120, "height_mm": 130}},
}
IN_INCHES = ("the defaults", "stretch", "a group")
PICTURES = {"landscape": (600, 400), "portrait": (451, 600), "square": (500, 500), "panorama": (700, 233)}
#: Derived from the contract of the function: a round step, and the step of the side that follows.
STEPS = {MM: (10.0, 1.0), INCH: (25.4, 1.27)}


def folds(job: Job) -> bool:
    """Whether the corners of a face can be folded."""
    try:
        fold_spec(job)
    except GeometryError:
        return False
    return True


def sized(job: Job, width_mm: float, height_mm: float) -> Job:
    """The job with another face."""
    face = job.face.model_copy(update={"width_mm": width_mm, "height_mm": height_mm})
    return job.model_copy(update={"face": face})


def tried(job: Job, size: tuple[int, int], unit: LengthUnit) -> tuple[float, float] | None:
    """The largest of all faces with one round side whose other side loses least, each tried by itself."""
    step, fine = STEPS[unit]
    longest = max(job.sheet.width_mm, job.sheet.height_mm or 2000)
    best: tuple[float, float] | None = None
    for count in range(1, int(longest / step) + 1):
        for axis in (0, 1):
            length = count * step
            other = following(job, size, length, axis, fine) if length >= 50 else None
            if other is None:
                continue
            face = (length, other) if axis == 0 else (other, length)
            of_size = sized(job, *face)
            fit = fit_sheet(of_size)
            slack = fit.slack_mm[:1] if job.sheet.height_mm is None else fit.slack_mm
            if not (fit.fits and min(slack) >= SPARE_MM - 1e-9 and folds(of_size)):
                continue
            if best is None or face[0] * face[1] > best[0] * best[1] + 1e-6:
                best = face
    return best


def following(job: Job, size: tuple[int, int], length: float, axis: int, fine: float) -> float | None:
    """The other side, found by halving: too short while the window is cut along its own axis."""

    def is_short(other: float) -> bool:
        face = (length, other) if axis == 0 else (other, length)
        window = picture_window(sized(job, *face), width_px=size[0], height_px=size[1]).window
        return (window.height if axis == 0 else window.width) < 1 - 1e-12

    first, last = 50.0, 2000.0
    if not is_short(first) or is_short(last):
        return None
    # Halved until both ends round to the same step.
    while int(first / fine + 0.5) != int(last / fine + 0.5) and last - first > 1e-10:
        middle = (first + last) / 2
        first, last = (middle, last) if is_short(middle) else (first, middle)
    found = round(int(first / fine + 0.5) * fine, 6)
    return found if found >= 50 else None


# Every face one by one takes a minute here, and many inside Pyodide.
@pytest.mark.native
@pytest.mark.slow
@pytest.mark.parametrize(("kind", "unit"), [*((kind, MM) for kind in JOBS), *((k, INCH) for k in IN_INCHES)])
@pytest.mark.parametrize("picture", PICTURES)
def test_no_face_tried_one_by_one_is_larger(kind: str, picture: str, unit: LengthUnit) -> None:
    job = check_job({**JOBS[kind], "picture": {**JOBS[kind].get("picture", {})}})
    size = PICTURES[picture]
    smallest = smallest_face_mm(job)
    assert smallest is not None
    found = largest_face(job, picture_px=size, unit=unit, smallest_mm=smallest, spare_mm=SPARE_MM)
    expected = tried(job, size, unit)
    if expected is None:
        # Then at most a face that crops, because the shape is too slender for its short side.
        assert found is None or found.cropped_share > 0.005
    else:
        assert found is not None
        # Half of the last digit that is kept.
        assert (found.width_mm, found.height_mm) == pytest.approx(expected, abs=5e-7)


@pytest.mark.parametrize("unit", [MM, INCH])
@pytest.mark.parametrize("size", [(6000, 4000), (4000, 6000), (3000, 3000), (10_000, 1000), (1, 20_000)])
def test_what_is_found_fits_and_folds_and_leaves_room(size: tuple[int, int], unit: LengthUnit) -> None:
    smallest = smallest_face_mm(Job())
    assert smallest is not None
    found = largest_face(Job(), picture_px=size, unit=unit, smallest_mm=smallest, spare_mm=SPARE_MM)
    assert found is not None
    job = sized(Job(), found.width_mm, found.height_mm)
    fit = fit_sheet(job)
    assert fit.fits
    assert fit.turned == found.turned
    assert min(fit.slack_mm) >= SPARE_MM - 1e-9
    assert fold_spec(job).width_mm == found.width_mm
    cut = picture_window(job, width_px=size[0], height_px=size[1]).cut_away_share
    assert found.cropped_share == pytest.approx(cut, abs=1e-9)


def test_rounding_loses_less_than_stated() -> None:
    """Derived: half a step of the side that follows, 0.5 mm or 0.635 mm of a face of 233 or 220 mm."""
    for unit, most in ((MM, 0.5 / 200), (INCH, 0.64 / 200)):
        found = largest_face(Job(), picture_px=(6000, 4000), unit=unit)
        assert found is not None
        assert found.cropped_share < most
        assert not found.crops


def test_a_slender_picture_gets_the_shortest_side_there_may_be() -> None:
    """Derived: a portrait's corners need 2 (20 + 25) mm across; 1 : 10 of 380 mm is less."""
    smallest = smallest_face_mm(Job())
    found = largest_face(Job(), picture_px=(100, 1000), unit=MM, smallest_mm=smallest or (0, 0), spare_mm=3)
    assert found is not None
    assert (found.width_mm, found.height_mm) == (90.0, 380.0)
    assert found.cropped_share > 0.5
    assert found.crops


def test_a_roll_bounds_the_length() -> None:
    found = largest_face(check_job({"sheet": {"width_mm": 1118}}), picture_px=(9000, 1000), unit=MM)
    assert found is not None
    # Derived: ROLL_LONGEST_MM, 2000 mm.
    assert found.width_mm == 2000.0


def test_no_face_where_the_sheet_is_too_small() -> None:
    tiny = check_job({"sheet": {"width_mm": 120, "height_mm": 130}})
    assert largest_face(tiny, picture_px=(600, 400), unit=MM) is None


def test_without_a_picture_the_face_keeps_its_shape() -> None:
    found = propose_face(check_job({"face": {"width_mm": 300, "height_mm": 200}}), None, unit=MM)
    assert found is not None
    # Derived: half a millimetre of the shorter side.
    assert abs(found.width_mm / found.height_mm - 1.5) < 1.5 * 0.5 / 200


@pytest.mark.parametrize("finish", ["tucked", "lapped", "trimmed"])
@pytest.mark.parametrize("corners", ["whole", "cut-back"])
@pytest.mark.parametrize("over", ["top-bottom", "left-right"])
def test_the_smallest_face_is_where_folding_begins(finish: str, corners: str, over: str) -> None:
    wrap = {"finish": finish, "corners": corners, "over": over, "turnover_mm": 30, "setback_mm": 2}
    if finish == "trimmed":
        wrap["tab_mm"] = 5
    tree = {"bars": {"depth_mm": 18}, "wrap": wrap}
    smallest = smallest_face_mm(check_job(tree))
    assert smallest is not None
    width, height = (max(50.0, length) for length in smallest)
    assert folds(check_job({**tree, "face": {"width_mm": width, "height_mm": height}}))
    for part in (
        {"width_mm": width - 0.01, "height_mm": height},
        {"width_mm": width, "height_mm": height - 0.01},
    ):
        if min(part.values()) >= 50:
            assert not folds(check_job({**tree, "face": part}))


def test_no_face_helps_a_set_back_that_is_too_large() -> None:
    """Derived: d tan(45 deg + e) < d + r fails for d 60, r 2, e = atan(5 / 60)."""
    job = check_job({"bars": {"depth_mm": 60}, "wrap": {"turnover_mm": 2, "ink_over_mm": 0, "setback_mm": 5}})
    assert smallest_face_mm(job) is None
    assert propose_face(job, None, unit=MM) is None
