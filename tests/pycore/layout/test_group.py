"""One picture across several panels: windows that tile it, shares, where the panels hang, refusals."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import FieldError
from pycore.layout.group import group_size_mm, panel_centres_mm, panel_jobs, panel_of
from pycore.layout.window import CropWindow, picture_window

from ..worked import worked_job

THIN: dict[str, Any] = {"thickness_mm": 0}

GROUPS = st.fixed_dictionaries(
    {
        "panels": st.integers(2, 5),
        "gap_mm": st.floats(0, 300),
        "hung": st.sampled_from(["across", "down"]),
        "across_gap": st.sampled_from(["behind", "joined"]),
    }
)
FILLS = st.sampled_from(["mirror", "run-on"])


def faces(job: Job, width_px: int, height_px: int) -> list[CropWindow]:
    """What each panel's face shows of the picture, by the rule for single canvases."""
    return [
        picture_window(one, width_px=width_px, height_px=height_px).face
        for one in panel_jobs(job, width_px=width_px, height_px=height_px)
    ]


@settings(max_examples=60, deadline=None)
@given(
    group=GROUPS,
    fills=st.tuples(FILLS, FILLS, FILLS, FILLS),
    face=st.tuples(st.floats(50, 900), st.floats(50, 900)),
    depth=st.floats(6, 60),
    size=st.tuples(st.integers(400, 9000), st.integers(400, 9000)),
    turn=st.sampled_from([0, 90, 180, 270]),
)
def test_faces_tile_the_window_with_the_gap_between_them(
    group: dict[str, Any],
    fills: tuple[str, str, str, str],
    face: tuple[float, float],
    depth: float,
    size: tuple[int, int],
    turn: int,
) -> None:
    sides = {
        side: {"fill": fill} for side, fill in zip(("top", "right", "bottom", "left"), fills, strict=True)
    }
    job = check_job(
        {
            "group": group,
            "face": {"width_mm": face[0], "height_mm": face[1]},
            "bars": {"depth_mm": depth},
            "sides": sides,
            "picture": {"turn": turn},
        }
    )
    whole = picture_window(job, width_px=size[0], height_px=size[1])
    found = faces(job, *size)
    across = group["hung"] == "across"
    starts = [(one.x if across else one.y) for one in found]
    lengths = [(one.width if across else one.height) for one in found]
    # Derived: a face and its canvas's thickness on both sides; a gap counts where the picture runs on behind.
    zone = (face[0] if across else face[1]) + 2 * 0.45
    gap = group["gap_mm"] if group["across_gap"] == "behind" else 0.0
    for place in range(1, len(found)):
        between = starts[place] - (starts[place - 1] + lengths[place - 1])
        assert between == pytest.approx(lengths[0] * gap / zone, abs=1e-9)
    first, last = starts[0], starts[-1] + lengths[-1]
    begin, span = (whole.face.x, whole.face.width) if across else (whole.face.y, whole.face.height)
    assert (first, last) == pytest.approx((begin, begin + span), abs=1e-9)
    # Square to it all faces lie alike, and each is as fine as the group.
    crosswise = {round((one.y if across else one.x), 9) for one in found}
    assert len(crosswise) == 1
    for one in panel_jobs(job, width_px=size[0], height_px=size[1]):
        use = picture_window(one, width_px=size[0], height_px=size[1])
        assert use.effective_ppi == pytest.approx(whole.effective_ppi, rel=1e-9)
        assert not use.reshaped
        # And sides on which it runs on stay within the group's window.
        assert use.window.x >= whole.window.x - 1e-9
        assert use.window.y >= whole.window.y - 1e-9
        assert use.window.x + use.window.width <= whole.window.x + whole.window.width + 1e-9
        assert use.window.y + use.window.height <= whole.window.y + whole.window.height + 1e-9


def test_panels_are_ordinary_jobs_with_names() -> None:
    job = check_job({"name": "Low tide", "group": {"panels": 3}, "bars": {"depth_mm": 20}})
    panels = panel_jobs(job, width_px=6000, height_px=2000)
    assert [one.name for one in panels] == ["Low tide, 1 of 3", "Low tide, 2 of 3", "Low tide, 3 of 3"]
    for one in panels:
        assert one.group == Job().group
        assert check_job(one.model_dump(mode="json", exclude_none=True)) == one
        assert one.bars == job.bars


def test_a_longest_name_still_takes_the_panel() -> None:
    job = check_job({"name": "n" * 2000, "group": {"panels": 2}})
    for one in panel_jobs(job, width_px=600, height_px=400):
        assert check_job(one.model_dump(mode="json", exclude_none=True)).name.endswith(" of 2")


def test_one_panel_is_the_job_itself() -> None:
    job = worked_job(sides={"fill": "run-on"})
    assert panel_jobs(job, width_px=600, height_px=400) == [job]
    use = picture_window(job, width_px=600, height_px=400)
    # Derived: face, twice the thickness and twice the depth are 476.9 x 376.9 mm; the height is all used.
    assert use.window.height == 1
    assert use.window.width == pytest.approx(476.9 / 376.9 * 400 / 600, abs=1e-12)
    assert use.face.width == pytest.approx(use.window.width * 400.9 / 476.9, abs=1e-12)


def test_shares_of_a_triptych() -> None:
    """Derived: 3 x 100 + 2 x 50 = 400 mm of picture, 4 : 1; of 4000 x 1000 pixels 2/8 lies behind gaps."""
    job = check_job(
        {
            "face": {"width_mm": 100, "height_mm": 100},
            "group": {"panels": 3, "gap_mm": 50},
            "canvas": THIN,
        }
    )
    use = picture_window(job, width_px=4000, height_px=1000)
    assert use.cut_away_share == pytest.approx(0.25, abs=1e-12)
    # Derived: 4000 px on 400 mm = 10 px a mm = 254 ppi.
    assert use.effective_ppi == pytest.approx(254, abs=1e-9)
    assert use.run_on_share == 0


def test_running_on_shows_what_lies_behind_a_gap() -> None:
    """Derived: bars of 20 mm take 2 x 20 of each 50 mm gap: 10 mm lost twice, of 440 x 140 mm."""
    job = check_job(
        {
            "face": {"width_mm": 100, "height_mm": 100},
            "bars": {"depth_mm": 20},
            "sides": {"fill": "run-on"},
            "group": {"panels": 3, "gap_mm": 50},
            "canvas": THIN,
        }
    )
    use = picture_window(job, width_px=4400, height_px=1400)
    assert use.cut_away_share == pytest.approx(20 / 440, abs=1e-12)
    assert use.run_on_share == pytest.approx((420 * 140 - 3 * 100 * 100) / (440 * 140), abs=1e-12)


@pytest.mark.parametrize("hung", ["across", "down"])
def test_no_gap_behind_or_joined_is_the_same(hung: str) -> None:
    sides = {"fill": "run-on"}
    behind, joined = (
        check_job({"group": {"panels": 4, "gap_mm": 0, "hung": hung, "across_gap": way}, "sides": sides})
        for way in ("behind", "joined")
    )
    assert faces(behind, 900, 700) == faces(joined, 900, 700)


def test_middles_on_the_wall() -> None:
    """Derived: 200 + 2 x 0.5 mm of canvas and a gap of 30: 231 mm from middle to middle; 3 x 201 + 2 x 30."""
    parts: dict[str, Any] = {
        "face": {"width_mm": 200, "height_mm": 300},
        "canvas": {"thickness_mm": 0.5},
    }
    across = check_job({**parts, "group": {"panels": 3, "gap_mm": 30}})
    assert panel_centres_mm(across) == [(-231, 0), (0, 0), (231, 0)]
    assert group_size_mm(across) == pytest.approx((663, 301))
    down = check_job({**parts, "group": {"panels": 2, "gap_mm": 30, "hung": "down"}})
    # Derived: 301 + 30 = 331; the first hangs above.
    assert panel_centres_mm(down) == [(0, 165.5), (0, -165.5)]


def test_the_crop_is_the_groups() -> None:
    crop = {"x": 0.1, "y": 0.2, "width": 0.8, "height": 0.2}
    job = check_job(
        {
            "face": {"width_mm": 100, "height_mm": 100},
            "group": {"panels": 4, "gap_mm": 0},
            "canvas": THIN,
            "picture": {"crop": crop},
        }
    )
    found = faces(job, 1000, 1000)
    # Derived: four squares of a fifth of the picture each.
    assert [one.x for one in found] == pytest.approx([0.1, 0.3, 0.5, 0.7])
    assert not picture_window(job, width_px=1000, height_px=1000).reshaped


def test_more_panels_than_pixels_is_refused() -> None:
    job = check_job({"group": {"panels": 5}, "face": {"width_mm": 50, "height_mm": 5000}})
    with pytest.raises(FieldError) as refused:
        panel_jobs(job, width_px=3, height_px=3)
    assert refused.value.field == "picture.crop"


def test_a_panel_that_is_not_there_is_refused() -> None:
    with pytest.raises(FieldError, match="1 to 2"):
        panel_of(check_job({"group": {"panels": 2}}), 3, width_px=600, height_px=400)
