"""`tuckfold wall` end to end, on a rendered room whose camera is known."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main
from tests.pycore.wall.cameras import Scene, scene
from tests.pycore.wall.rooms import Room, render

pytestmark = pytest.mark.native

ROOM = scene(lens_mm=28, yaw_deg=25, pitch_deg=4, wide_mm=1500, look_at_mm=(350, 200), size_px=(800, 600))
AT = (450.0, 200.0)


def corners_of(one: Scene) -> str:
    return " ".join(f"{x:.6f},{y:.6f}" for x, y in one.corners_px)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A white picture, and the room as a PNG and as a telephone's JPEG that was held upright."""
    path = tmp_path_factory.mktemp("wall")
    Image.fromarray(np.full((200, 300, 3), 255, np.uint8)).save(path / "white.png")
    photo = render(ROOM, Room())
    photo.save(path / "room.png")
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8769)[0xA405] = 28
    exif.get_ifd(0x8825)[1] = "N"
    # Orientation 6: the upright picture is the filed one, turned clockwise.
    photo.transpose(Image.Transpose.ROTATE_90).save(path / "phone.jpg", exif=exif, quality=95)
    return path


def wall(folder: Path, photo: str, *more: str) -> int:
    at = [] if "--at" in more else ["--at", "450,200"]
    return main(["wall", str(folder / "white.png"), str(folder / photo), *at, "--json", *more])


def found(folder: Path, capsys: pytest.CaptureFixture[str], photo: str, *more: str) -> dict[str, Any]:
    assert wall(folder, photo, "--out", str(folder / "still.png"), *more) == 0
    report: dict[str, Any] = json.loads(capsys.readouterr().out)
    return report


def test_the_piece_lies_where_the_camera_sees_it(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    report = found(folder, capsys, "room.png", "--reference", "a4", "--corners", corners_of(ROOM))
    x, y = AT
    # derived: the front of a face of 300 x 200 mm stands 20 mm, the bar depth, in front of the wall.
    signs = [(-1, 1), (1, 1), (1, -1), (-1, -1)]
    front = np.array([(x + 150 * across, y + 100 * up, 20) for across, up in signs])
    assert np.abs(np.array(report["face_px"]) - ROOM.seen(front)).max() < 0.01
    true = ROOM.pose.wall_to_photo / ROOM.pose.wall_to_photo[2, 2]
    assert np.array(report["wall_to_photo"]) == pytest.approx(true, rel=1e-4, abs=1e-6)
    assert report["focal_px"] == pytest.approx(ROOM.pose.focal_px, rel=1e-4)
    assert report["references_mm"] == [[210.0, 297.0]]
    assert report["uncertainty_percent"] > 3
    assert [one["code"] for one in report["notes"]] == ["wall-unsure"]


def test_paper_white_in_the_print_looks_like_the_paper(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from skimage.color import deltaE_ciede2000, rgb2lab

    report = found(
        folder, capsys, "room.png", "--corners", corners_of(ROOM), "--colours", "filed", "--shadow", "0"
    )
    still = np.asarray(Image.open(folder / "still.png"))
    before = np.asarray(Image.open(folder / "room.png"))

    def patch(corners: list[list[float]]) -> Any:
        column, row = np.mean(corners, axis=0).astype(int)
        return rgb2lab(still[row - 9 : row + 9, column - 9 : column + 9].mean(axis=(0, 1)) / 255)

    # The measure that is asked for: at most 3 under uniform light.
    assert float(deltaE_ciede2000(patch(report["face_px"]), patch(report["corners_px"][0]))) <= 3
    changed = (still != before).any(axis=2)
    rows, columns = np.nonzero(changed)
    # derived: nothing changes but the box, whose corners on the wall lie within 40 pixels of its front.
    low, high = np.min(report["face_px"], axis=0) - 40, np.max(report["face_px"], axis=0) + 40
    assert low[0] < columns.min() < columns.max() < high[0]
    assert low[1] < rows.min() < rows.max() < high[1]


def test_a_telephones_upright_photograph_without_corners(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    report = found(folder, capsys, "phone.jpg")
    assert report["photo_px"] == [800, 600]
    assert report["focal_from"] == "exif"
    assert np.abs(np.array(report["corners_px"][0]) - ROOM.corners_px).max() < 1
    still = Image.open(folder / "still.png")
    assert not still.getexif()
    assert "exif" not in still.info


def test_what_stands_in_front_stays(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mask = np.zeros((600, 800), np.uint8)
    mask[:, 400:] = 255
    Image.fromarray(mask).save(folder / "mask.png")
    found(folder, capsys, "room.png", "--corners", corners_of(ROOM), "--in-front", str(folder / "mask.png"))
    still, before = (np.asarray(Image.open(folder / name)) for name in ("still.png", "room.png"))
    assert (still[:, 400:] == before[:, 400:]).all()
    assert (still[:, :400] != before[:, :400]).any()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--corners", "1,1 2,2 3,3"], "--corners must be four corners"),
        (["--corners", "300,200 400,300 400,200 300,300"], "edges that cross"),
        (["--corners", "300,200 350,200 400,200 350,300"], "three corners in one line"),
        (["--corners", "300,200 300,200 400,300 300,300"], "upper left and upper right in one place"),
        (["--corners", "300,200 500,200 500,206 300,206"], "a reference seen edge-on"),
        (["--corners", "70,70 670,220 520,520 220,370"], "corners that miss every such rectangle by"),
        (["--corners", corners_of(ROOM), "--reference", "0x297"], "--reference must be 20 to 5000 mm wide"),
        (["--corners", corners_of(ROOM), "--at", "90000,0"], "--at must be a place"),
        (
            ["--corners", corners_of(ROOM), "--set", "face.width_mm=2600", "--set", "face.height_mm=1800"],
            "The piece must be",
        ),
        (["--corners", corners_of(ROOM), "--out", "still.bmp"], "--out must be a name that ends in"),
        (
            ["--corners", corners_of(ROOM), "--room-light", "3"],
            "--room-light must be 0 to 1; you gave 3.",
        ),
        (["--reference", "a4", "--reference", "letter"], "--corners must be given once for each of 2"),
        (["--corners", corners_of(ROOM), "--in-front", "{folder}/white.png"], "--in-front must be a mask of"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(
    folder: Path,
    more: list[str],
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    given = [one.format(folder=folder) for one in more]
    out = [] if "--out" in given else ["--out", "still.png"]
    assert wall(folder, "room.png", *out, *given) == 2
    text = capsys.readouterr().err
    assert said in text
    assert text.count("\n") == 1
    assert os.listdir(tmp_path) == []


def test_a_heic_photograph_is_named(folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "photo.heic").write_bytes(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")
    assert wall(folder, "photo.heic", "--out", str(tmp_path / "still.png")) == 2
    text = capsys.readouterr().err
    assert "The photograph must be a JPEG, PNG, TIFF or WebP picture; it is a HEIC." in text
    assert os.listdir(tmp_path) == []


def test_a_photograph_without_exif_is_measured_by_its_perspective(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    report = found(folder, capsys, "room.png", "--corners", corners_of(ROOM))
    assert report["focal_from"] == "perspective"
    assert "wall-focal-refused" not in [one["code"] for one in report["notes"]]


def test_a_very_large_photograph_is_reduced_and_measured_in_its_own_pixels(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With a lower bound: one of 100 megapixels takes ten seconds, by the same way."""
    monkeypatch.setattr("pycore.wall.photograph.MOST_PX", 200_000)
    report = found(folder, capsys, "room.png", "--corners", corners_of(ROOM))
    assert report["photo_px"] == [800, 600]
    # derived: of 480,000 pixels 200,000 are kept, rows and columns alike.
    assert report["still_px"] == [516, 387]
    assert "wall-photo-reduced" in [one["code"] for one in report["notes"]]
    assert report["focal_px"] == pytest.approx(ROOM.pose.focal_px, rel=1e-4)
