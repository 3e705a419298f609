"""The calls for a photographed wall as the page makes them."""

from __future__ import annotations

import base64
import io
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.session import Session
from pycore.errors import FieldError, PictureError
from pycore.progress import map_progress, run_to_end

from .test_session import A4, answer, picture

#: The browser tests make these calls inside Pyodide, and tests/parity finds a sheet there.
pytestmark = pytest.mark.once

ROOM = Path(__file__).resolve().parents[3] / "demo_data" / "room.jpg"


def whole(found: Any, parts: Any) -> bytes:
    return b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in parts)


def offer_in(found: Any) -> dict[str, Any]:
    """What a client page carries for its viewer."""
    page = whole(found, found.reply.parts).decode()
    offer: dict[str, Any] = json.loads(page.split('id="offer">')[1].split("</script>")[0])
    return offer


@pytest.fixture(scope="module")
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


@pytest.fixture(scope="module")
def opened(session: Session) -> Any:
    return answer(session, "open_wall", {"file": "room.jpg"}, ROOM.read_bytes())


@pytest.fixture(scope="module")
def placed(session: Session, opened: Any) -> dict[str, Any]:
    found: Any = answer(session, "find_reference", {"reference": {"size": "a4"}}).reply
    references = [{"size": "a4", "corners": [list(one) for one in found.corners]}]
    return {"job": A4, "references": references, "at_mm": [450, 180]}


def test_the_photograph_is_kept_without_metadata_and_with_its_lens(session: Session, opened: Any) -> None:
    reply = opened.reply
    copy = whole(opened, reply.parts)
    with Image.open(io.BytesIO(copy)) as image:
        assert image.size == reply.photo_px == (1200, 900)
        assert not image.getexif()
        assert "exif" not in image.info
    # Derived: 26 mm on the diagonal of 36 x 24 mm, here of 1500 pixels.
    assert reply.focal_px == pytest.approx(26 / np.hypot(36, 24) * 1500)
    again: Any = answer(session, "open_wall", {"file": reply.file, "focal_px": reply.focal_px}, copy)
    assert whole(again, again.reply.parts) == copy
    assert again.reply.focal_px == reply.focal_px


def test_the_search_for_a_reference_tells_how_far_it_is(session: Session, opened: Any) -> None:
    told: list[float] = []
    steps = map_progress(
        session.call("find_reference", {"reference": {"size": "a4"}}), lambda step: told.append(step.done)
    )
    run_to_end(steps)
    assert told == sorted(told)
    assert told[0] == 0
    assert told[-1] < 1
    # It takes seconds in a browser: no step of it is long.
    assert max(np.diff(told)) < 0.15


def test_corners_a_hand_has_marked_move_to_the_edges(session: Session, placed: dict[str, Any]) -> None:
    corners = np.array(placed["references"][0]["corners"])
    rough = (corners + np.array([[2, -1.5], [-2, 1], [1.5, 1.5], [-1, 2]])).tolist()
    found: Any = answer(session, "find_reference", {"reference": {"size": "a4", "corners": rough}}).reply
    assert found.snapped
    # Regression: well within the pixel that the stated uncertainty allows.
    assert np.abs(np.array(found.corners) - corners).max() < 0.2
    assert found.size_mm == (210, 297)


def test_the_camera_and_the_plane_are_one(session: Session, placed: dict[str, Any]) -> None:
    found: Any = answer(session, "measure_wall", placed).reply
    camera = np.array(found.camera)
    plane = camera[:, [0, 1, 3]]
    assert plane / plane[2, 2] == pytest.approx(np.array(found.report.wall_to_photo), rel=1e-9)
    assert found.light.white[0] == pytest.approx(0.72, abs=0.06)


def test_the_canvas_comes_as_the_screen_wants_it(session: Session) -> None:
    found = answer(session, "wall_canvas", {"job": A4})
    reply: Any = found.reply
    assert reply.texture.pixels.state == "srgb_encoded"
    assert found.buffers[0].shape[2] == 4
    assert (np.asarray(found.buffers[0])[..., 3] == 255).all()


def test_a_still_leaves_out_what_stands_in_front(session: Session, placed: dict[str, Any]) -> None:
    found = answer(session, "hang", placed)
    reply: Any = found.reply
    assert reply.report.file.endswith("-on-the-wall.jpg")
    drawn = np.asarray(Image.open(io.BytesIO(whole(found, reply.parts))))
    room = np.asarray(Image.open(ROOM))
    mask = io.BytesIO()
    Image.new("L", (1200, 900), 255).save(mask, "PNG")
    kept = answer(session, "hang", placed, mask.getvalue())
    same = np.asarray(Image.open(io.BytesIO(whole(kept, kept.reply.parts))))  # type: ignore[attr-defined]  # its own reply
    # Regression: JPEG alone changes less than 2 of 255 levels where the piece would hang, the piece over 10.
    corners = np.array(reply.report.face_px).astype(int)
    (left, top), (right, bottom) = corners.min(axis=0), corners.max(axis=0)
    by_mask, by_piece = (
        np.abs(one.astype(int) - room)[top:bottom, left:right].mean() for one in (same, drawn)
    )
    assert by_mask < 2
    assert by_piece > 10


def test_the_client_page_holds_a_reduced_copy_only_where_it_is_asked_for(
    session: Session, placed: dict[str, Any]
) -> None:
    viewer = b'"use strict";\n'
    asked = {"variants": [{"label": "", "job": A4}], "date": "2031-04-30"}
    assert "wall" not in offer_in(answer(session, "client", asked, viewer))
    wall = {**{name: placed[name] for name in ("references", "at_mm")}, "is_free": False, "floor_mm": -900}
    found = answer(session, "client", {**asked, "wall": wall}, viewer)
    offered = offer_in(found)["wall"]
    measured: Any = answer(session, "measure_wall", placed).reply
    assert (offered["isFree"], offered["floorMm"], offered["atMm"]) == (False, -900, [450, 180])
    # The copy of 1200 pixels is not larger than what the client gets, so its camera is the same.
    assert np.array(offered["camera"]) == pytest.approx(np.array(measured.camera))
    data = base64.b64decode(offered["photo"].split(",")[1])
    with Image.open(io.BytesIO(data)) as image:
        assert "exif" not in image.info
        assert list(image.size) == offered["px"]


def test_nothing_is_measured_without_a_photograph(placed: dict[str, Any]) -> None:
    with pytest.raises(PictureError, match="No photograph of a wall is open"):
        answer(Session(), "measure_wall", placed)


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        ([[100, 100], [300, 300], [300, 100], [100, 300]], "cross"),
        ([[100, 100], [200, 100], [300, 100], [100, 300]], "one line"),
        ([[100, 100], [100, 100], [300, 300], [100, 300]], "in one place"),
        ([[100, 100], [110, 100], [110, 600], [100, 600]], "edge-on"),
    ],
)
def test_corners_of_no_rectangle_are_refused(
    session: Session, placed: dict[str, Any], corners: Any, said: str
) -> None:
    wrong = {**placed, "references": [{"size": "a4", "corners": corners}]}
    with pytest.raises(FieldError, match=said):
        answer(session, "measure_wall", wrong)
