"""The calls about colour as the page makes them."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bridge.session import Session
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.errors import FieldError, PictureError, ProfileError

from .test_session import A4, answer, picture

PROOF = {"viewing": "black", "screen": "srgb", "fine": False}


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def test_the_invented_canvas_is_described(session: Session) -> None:
    reply: Any = answer(session, "profile", {"file": "illustrative-matte"}).reply
    assert reply.illustration
    assert reply.device == "RGB"
    # From memory, and how the profile was made: a matte canvas's white L* about 95, black 18 to 22.
    assert reply.white_lab[0] == pytest.approx(95, abs=1.5)
    assert 17 < reply.black_lab[0] < 23


def test_a_profile_is_opened_and_then_meant_by_name(session: Session) -> None:
    reply: Any = answer(session, "profile", {"file": "mine.icc"}, illustrative_profile()).reply
    assert (reply.file, reply.illustration) == ("mine.icc", False)
    job = {**A4, "colour": {"profile": "mine.icc"}}
    assert answer(session, "clip", {"job": job}).reply is not None


def test_a_bad_profile_leaves_the_former_one(session: Session) -> None:
    answer(session, "profile", {"file": "mine.icc"}, illustrative_profile())
    with pytest.raises(ProfileError):
        answer(session, "profile", {"file": "mine.icc"}, illustrative_profile()[:1000])
    job = {**A4, "colour": {"profile": "mine.icc"}}
    assert answer(session, "clip", {"job": job}).reply is not None


def test_a_look_carries_the_tables(session: Session) -> None:
    found = answer(session, "look", {"job": A4, **PROOF})
    reply: Any = found.reply
    assert reply.filed is None
    table = found.buffers[reply.printed.place]
    assert table.shape == (33, 33, 33, 4)
    values = table.view(np.float16).astype(float)
    # White stays the screen's white when only the canvas's black is simulated; red clips and grey does not.
    assert values[-1, -1, -1, :3] == pytest.approx(1, abs=0.01)
    assert values[0, 0, -1, 3] * reply.clip_full_de > 2
    assert values[16, 16, 16, 3] == 0
    assert found.buffers[reply.scale.place].shape == (64, 3)


def test_a_wider_screen_has_a_table_for_what_is_filed_too(session: Session) -> None:
    found = answer(session, "look", {"job": A4, "viewing": "canvas", "screen": "display-p3", "fine": False})
    reply: Any = found.reply
    filed = found.buffers[reply.filed.place].view(np.float16).astype(float)
    # sRGB's red in Display P3, by the primaries of IEC 61966-2-1 and SMPTE EG 432-1: 0.917, 0.200, 0.139.
    assert filed[0, 0, -1, :3] == pytest.approx([0.917, 0.200, 0.139], abs=2e-3)


def test_clip_gives_parts_groups_and_labels(session: Session) -> None:
    found = answer(session, "clip", {"job": A4})
    reply: Any = found.reply
    assert [part.name for part in reply.parts] == ["face", "top", "right", "bottom", "left"]
    labels = found.buffers[reply.labels.place]
    assert labels.max() == len(reply.groups)
    assert reply.parts[0].share == pytest.approx(reply.parts[0].share_before)


@pytest.mark.once  # tests/parity: what is brought in
def test_clip_says_what_it_was_before_bringing_in(session: Session) -> None:
    reply: Any = answer(session, "clip", {"job": {**A4, "colour": {"bring_in": 1}}}).reply
    assert reply.parts[0].share_before > 0.05
    assert reply.parts[0].share < 0.005


def test_intents_name_a_recommendation_among_the_rows(session: Session) -> None:
    reply: Any = answer(session, "intents", {"job": A4}).reply
    assert len(reply.rows) == 7
    assert reply.rows[reply.recommended].label.split()[0] in {"perceptual", "relative", "saturation"}


def test_the_solid_is_closed_and_holds_points(session: Session) -> None:
    found = answer(session, "solid", {"job": A4})
    reply: Any = found.reply
    triangles = found.buffers[reply.triangles.place]
    edges = np.sort(
        np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1
    )
    _, counts = np.unique(edges, axis=0, return_counts=True)
    assert np.all(counts == 2)
    assert len(found.buffers[reply.point_lab.place]) == len(found.buffers[reply.point_share.place]) > 20


def test_without_a_picture_nothing_is_proofed() -> None:
    for method in ("look", "clip", "intents", "solid"):
        with pytest.raises(PictureError, match="No picture is open"):
            answer(Session(), method, {"job": A4, **(PROOF if method == "look" else {})})


def test_a_profile_that_is_not_open_is_a_field_error(session: Session) -> None:
    with pytest.raises(FieldError) as caught:
        answer(session, "look", {"job": {**A4, "colour": {"profile": "gone.icc"}}, **PROOF})
    assert caught.value.field == "colour.profile"


def test_converting_writes_the_canvas_profile(session: Session) -> None:
    job = {**A4, "print": {"ppi": 72, "convert": "convert"}}
    reply: Any = answer(session, "print", {"job": job, "kind": "tiff", "date": "2031-04-30"}).reply
    assert reply.report.profile_name == "Illustrative matte canvas (invented, not measured)"
    assert "file-for-no-canvas" in [note.code for note in reply.notes]
