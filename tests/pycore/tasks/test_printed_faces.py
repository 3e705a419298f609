"""Print files of random jobs: every face shows the part of the picture that plain arithmetic gives it."""

from __future__ import annotations

import io
import random
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image
from pypdf import PdfReader

from pycore.contract.check import check_job
from pycore.layout.grid import pixel_grid
from pycore.layout.plan import plan_sheets
from pycore.printing.report import FileKind
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.tasks.open_picture import OpenPicture, open_picture
from pycore.tasks.print_file import print_files

_WIDE, _HIGH = 900, 600
Pair = tuple[float, float]


@cache
def _picture() -> OpenPicture:
    """Red says how far to the right a place lies, green how far down."""
    y, x = np.mgrid[0:_HIGH, 0:_WIDE]
    values = np.stack([(x + 0.5) / _WIDE * 255, (y + 0.5) / _HIGH * 255, np.full(x.shape, 128)], axis=2)
    out = io.BytesIO()
    Image.fromarray(np.floor(values + 0.5).astype(np.uint8)).save(out, "TIFF")
    return run_to_end(open_picture(out.getvalue(), file="places.tif"))


def _random_job(seed: int) -> dict[str, Any]:
    draw = random.Random(seed)
    crop = {name: round(draw.uniform(0, 0.2), 3) for name in ("x", "y")}
    crop |= {name: round(draw.uniform(0.6, 0.8), 3) for name in ("width", "height")}
    return {
        "face": {"width_mm": draw.randint(80, 200), "height_mm": draw.randint(80, 200)},
        "bars": {"depth_mm": 10},
        "canvas": {"thickness_mm": 0, "stretch_percent": [draw.choice((0, 5)), draw.choice((0, 3))]},
        "print": {"ppi": 72, "marks": False},
        "picture": {"turn": (0, 90, 180, 270)[seed % 4], "crop": crop},
        "group": {
            "panels": 1 + seed % 3,
            "hung": draw.choice(("across", "down")),
            "gap_mm": 30,
            "across_gap": draw.choice(("behind", "joined")),
        },
    }


def _upright(u: float, v: float, turn: int) -> Pair:
    """A place of the picture turned clockwise, in shares from its upper left, as a place of the picture."""
    return {0: (u, v), 90: (v, 1 - u), 180: (1 - u, 1 - v), 270: (1 - v, u)}[turn]


@pytest.mark.parametrize("seed", range(12))
def test_each_face_shows_its_part_of_the_picture(seed: int, tmp_path: Path) -> None:
    """Derived: the faces, with the gaps between them where the picture runs on behind these, are one shape.

    The largest window of that shape stands in the middle of the crop; of the picture that is turned first.
    """
    tree = _random_job(seed)
    job, group, crop = check_job(tree), tree["group"], tree["picture"]["crop"]
    places = {panel: tmp_path / f"{panel}.tif" for panel in range(1, group["panels"] + 1)}
    steps = print_files(job, _picture(), ProfileStore(), kind=FileKind.TIFF, date="2031-04-30", places=places)
    run_to_end(steps)
    size = (_WIDE, _HIGH) if tree["picture"]["turn"] % 180 == 0 else (_HIGH, _WIDE)
    face = (tree["face"]["width_mm"], tree["face"]["height_mm"])
    hung = 0 if group["hung"] == "across" else 1
    step = face[hung] + (group["gap_mm"] if group["across_gap"] == "behind" else 0)
    whole = [*face]
    whole[hung] += step * (group["panels"] - 1)
    cropped = (crop["width"] * size[0], crop["height"] * size[1])
    per_mm = min(cropped[axis] / whole[axis] for axis in (0, 1))
    first = [crop["xy"[axis]] * size[axis] + (cropped[axis] - whole[axis] * per_mm) / 2 for axis in (0, 1)]
    grid = pixel_grid(job, ppi=72)
    for number, file in enumerate(places.values()):
        found = tifffile.imread(file)[grid.rows[2] : grid.rows[3], grid.columns[2] : grid.columns[3]]
        rows, columns = found.shape[:2]
        for row in np.linspace(0.05, 0.95, 5) * rows:
            for column in np.linspace(0.05, 0.95, 5) * columns:
                place = [(int(column) + 0.5) / columns * face[0], (int(row) + 0.5) / rows * face[1]]
                place[hung] += step * number
                turned = [(first[axis] + place[axis] * per_mm) / size[axis] for axis in (0, 1)]
                right, down = _upright(turned[0], turned[1], tree["picture"]["turn"])
                # Half a step in the picture, half a step in the file, and a little for the pixels' lattice.
                assert found[int(row), int(column), :2] == pytest.approx([right * 255, down * 255], abs=1.2)


@pytest.mark.parametrize("face", [{"width_mm": 200, "height_mm": 200}, {"width_mm": 200, "height_mm": 120}])
def test_the_marks_of_panels_stand_where_the_plan_lays_them(face: dict[str, int], tmp_path: Path) -> None:
    """Derived: three canvases of 290.9 mm leave 0.15 mm beside the block on a roll of 873 mm.

    So the margin of 3 mm takes the first panel's left and the last panel's right trim corners, and of the
    second none but those at the roll's ends. Lower ones lie in a block of the same width.
    """
    sheet = {"width_mm": 873, "margin_mm": [0, 3, 0, 3]}
    tree = {"face": face, "group": {"panels": 3}, "print": {"ppi": 100}, "sheet": sheet}
    job = check_job(tree)
    plan = plan_sheets(job)
    assert plan is not None
    assert not plan.turned
    places = {panel: tmp_path / f"{panel}.tif" for panel in (1, 2, 3)}
    steps = print_files(job, _picture(), ProfileStore(), kind=FileKind.TIFF, date="2031-04-30", places=places)
    run_to_end(steps)
    corners, per_mm = [], 100 / 25.4
    for one, file in zip(plan.sheets[0], places.values(), strict=True):
        marked = np.all(np.asarray(tifffile.imread(file)) < 128, axis=2, keepdims=True)[..., 0]
        # Past the ink and at the canvas's edges; ink begins 19 mm from them.
        marked[70:-70, 70:-70] = False
        columns = one.position_mm[0] + (np.arange(marked.shape[1]) + 0.5) / per_mm
        assert not marked[:, (columns < 3) | (columns > 870)].any()
        corners.append((bool(marked[:15, 0].all()), bool(marked[:15, -1].all())))
    assert corners == [(False, True), (True, True), (True, False)]


def test_each_panel_s_number_stands_on_it_however_long_the_name_is(tmp_path: Path) -> None:
    """The text below the face loses its end where the face is narrow; the word above it keeps the number."""
    tree = {"name": "Low tide " * 12, "face": {"width_mm": 60, "height_mm": 90}, "group": {"panels": 3}}
    places = {panel: tmp_path / f"{panel}.pdf" for panel in (1, 2, 3)}
    steps = print_files(
        check_job(tree), _picture(), ProfileStore(), kind=FileKind.PDF, date="2031-04-30", places=places
    )
    run_to_end(steps)
    for panel, file in places.items():
        above, below = PdfReader(file).pages[0].extract_text().split("\n")[:2]
        assert above == f"TOP, {panel} of 3"
        assert below.startswith("Low tide")
        assert "of 3" not in below


def test_a_picture_of_the_printer_s_own_values_is_told_of(tmp_path: Path) -> None:
    """The colours are kept, and the printing program would convert them once more."""
    store, out = ProfileStore(), io.BytesIO()
    Image.new("RGB", (40, 30)).save(out, "TIFF", icc_profile=store.profile("illustrative-matte").data)
    picture = run_to_end(open_picture(out.getvalue(), file="converted.tif"))
    steps = print_files(
        check_job(_random_job(0)), picture, store, kind=FileKind.TIFF, date="2031-04-30",
        places={1: tmp_path / "print.tif"},
    )  # fmt: skip
    (printed,) = run_to_end(steps)
    assert "already-converted" in [note.code for note in printed.notes]


def test_colours_are_brought_in_where_the_file_keeps_the_pictures_space(tmp_path: Path) -> None:
    """The most vivid place is out of the canvas's gamut: brought in, it has less colour."""
    canvases = []
    for amount in (0, 1):
        asked = {"print": {"ppi": 72, "marks": False, "convert": "keep"}, "colour": {"bring_in": amount}}
        out, job = tmp_path / f"{amount}.tif", check_job({"face": {"width_mm": 90, "height_mm": 60}, **asked})
        making = print_files(
            job, _picture(), ProfileStore(), kind=FileKind.TIFF, date="2031-04-30", places={1: out}
        )
        run_to_end(making)
        canvases.append(tifffile.imread(out).astype(int))
    before, after = (np.ptp(one, axis=2) for one in canvases)
    vivid = before >= np.quantile(before[before > 0], 0.99)
    assert after[vivid].max() < before[vivid].min()
