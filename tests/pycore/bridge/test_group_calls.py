"""Groups of panels as the page asks for them: one stacked texture, places, a file each, pooled colours."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.errors import FieldError
from pycore.progress import run_to_end

#: Derived: no thickness and 50.8 ppi make two pixels of a mm: faces of 120 pixels on canvases of 220.
JOB: dict[str, Any] = {
    "face": {"width_mm": 60, "height_mm": 60},
    "bars": {"depth_mm": 10},
    "wrap": {"turnover_mm": 15},
    "canvas": {"thickness_mm": 0},
    "print": {"ppi": 50.8, "marks": False},
}
TRIO = {"panels": 3, "gap_mm": 0, "across_gap": "joined"}


def answer(session: Session, method: str, **params: Any) -> Answer:
    found = run_to_end(session.call(method, params, params.pop("buffer", None)))
    assert isinstance(found, Answer)
    return found


@pytest.fixture(scope="module")
def pixels() -> np.ndarray[Any, Any]:
    """A colour of its own in every column: 3 x 120 pixels wide."""
    columns = np.arange(360)
    return np.stack(
        [np.tile(columns % 256, (120, 1)), np.tile(columns // 2, (120, 1)), np.full((120, 360), 40)], 2
    )


@pytest.fixture
def session(pixels: np.ndarray[Any, Any]) -> Session:
    out = io.BytesIO()
    Image.fromarray(pixels.astype(np.uint8)).save(out, "PNG")
    session = Session()
    answer(session, "open", file="columns.png", buffer=out.getvalue())
    return session


def show(session: Session, **group: Any) -> Answer:
    return answer(session, "show", job={**JOB, "group": {**TRIO, **group}}, preview_px=3 * 220 * 220)


def test_a_group_is_one_texture_and_one_fold(session: Session) -> None:
    found = show(session, gap_mm=30)
    reply: Any = found.reply
    rows, columns = reply.texture.pixels.shape[:2]
    assert rows % 3 == 0
    assert [(one.top_px, one.bottom_px) for one in reply.panels] == [
        (place * rows // 3, (place + 1) * rows // 3) for place in range(3)
    ]
    # Derived: 60 mm and a gap of 30.
    assert [one.centre_mm for one in reply.panels] == [(-90, 0), (0, 0), (90, 0)]
    assert reply.fold is not None
    assert reply.layout.wall_mm == (240, 60)
    assert reply.layout.plan is not None
    stacked = found.buffers[reply.texture.pixels.place]
    assert stacked.shape[:2] == (rows, columns)
    # Each panel shows a part of its own: the red of the first column of each face.
    face = reply.texture.face
    reds = [int(stacked[place * rows // 3 + face.top, face.left, 1]) for place in range(3)]
    assert reds == sorted(reds)
    assert reds[1] - reds[0] > 30


def test_only_what_changed_is_sent_again(session: Session) -> None:
    show(session)
    unchanged: Any = show(session).reply
    assert unchanged.texture is None
    assert unchanged.fold is None
    joined: Any = show(session, gap_mm=40, across_gap="behind").reply
    assert joined.texture is not None
    assert joined.fold is None
    fewer: Any = show(session, panels=2).reply
    assert fewer.texture is not None
    assert fewer.fold is not None


def printed(session: Session, panel: int, **group: Any) -> tuple[Any, np.ndarray[Any, Any]]:
    found = answer(
        session,
        "print",
        job={**JOB, "name": "Columns", "group": {**TRIO, **group}},
        kind="png",
        date="2031-04-30",
        panel=panel,
    )
    reply: Any = found.reply
    data = b"".join(found.buffers[part.place].tobytes() for part in reply.parts)
    with Image.open(io.BytesIO(data)) as image:
        return reply, np.asarray(image)


def test_joined_faces_are_neighbours_in_the_picture(session: Session, pixels: np.ndarray[Any, Any]) -> None:
    """At a pixel a pixel nothing is resampled: the three faces set side by side are the picture itself."""
    faces = [printed(session, panel)[1][50:170, 50:170, :3] for panel in (1, 2, 3)]
    assert np.array_equal(np.concatenate(faces, axis=1), pixels)


def test_the_picture_runs_on_behind_the_gap(session: Session, pixels: np.ndarray[Any, Any]) -> None:
    """Derived: 60 + 60 + 60 mm are the picture's 360 columns: the second face is its last third."""
    reply, canvas = printed(session, 2, panels=2, gap_mm=60, across_gap="behind")
    assert np.array_equal(canvas[50:170, 50:170, :3], pixels[:, 240:])
    assert reply.report.file == "Columns-60x60mm-2of2.png"


def test_inner_run_on_of_joined_panels_shows_the_neighbours_strip(session: Session) -> None:
    runs_on = {"sides": {"fill": "mirror", "left": {"fill": "run-on"}, "right": {"fill": "run-on"}}}
    found = [
        answer(
            session,
            "print",
            job={**JOB, **runs_on, "group": TRIO},
            kind="png",
            date="2031-04-30",
            panel=panel,
        )
        for panel in (1, 2)
    ]
    first, second = (
        np.asarray(Image.open(io.BytesIO(b"".join(part.tobytes() for part in one.buffers)))).astype(int)
        for one in found
    )
    # The first panel's right side, 20 pixels, is what the second's face begins with.
    assert np.abs(first[50:170, 170:190, :3] - second[50:170, 50:70, :3]).max() <= 1


def test_a_panel_that_is_not_there_is_refused(session: Session) -> None:
    with pytest.raises(FieldError) as refused:
        printed(session, 4)
    assert refused.value.field == "panel"


def test_colours_are_pooled_over_all_panels(session: Session) -> None:
    found = answer(session, "clip", job={**JOB, "group": TRIO})
    reply: Any = found.reply
    assert [part.name for part in reply.parts] == ["face", "top", "right", "bottom", "left"]
    labels = found.buffers[reply.labels.place]
    # One label for each pixel of all three canvases.
    assert labels.shape[0] % 3 == 0
    assert labels.shape[0] > 2 * labels.shape[1]
    share = np.mean([part.share for part in reply.parts])
    assert 0 <= share <= 1
