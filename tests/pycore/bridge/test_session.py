"""The session as the page drives it: calls, what is sent again, errors that leave the work as it was."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.contract.job import Job
from pycore.errors import FieldError, GeometryError, PictureError
from pycore.printing.file_names import file_stem
from pycore.progress import Progress, run_to_end

A4 = {"face": {"width_mm": 297, "height_mm": 210}, "bars": {"depth_mm": 20}}


def answer(session: Session, method: str, params: dict[str, Any], buffer: bytes | None = None) -> Answer:
    found = run_to_end(session.call(method, params, buffer))
    assert isinstance(found, Answer)
    return found


def picture(width: int = 400, height: int = 300) -> bytes:
    ramp = np.zeros((height, width, 3), np.uint8)
    ramp[..., 0] = np.linspace(0, 255, width).astype(np.uint8)
    ramp[..., 1] = np.linspace(0, 255, height).astype(np.uint8)[:, np.newaxis]
    out = io.BytesIO()
    Image.fromarray(ramp).save(out, "PNG")
    return out.getvalue()


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "hello", {})
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def show(session: Session, **job: Any) -> Any:
    return answer(session, "show", {"job": {**A4, **job}, "preview_px": 100_000})


def test_hello_gives_every_default() -> None:
    reply: Any = answer(Session(), "hello", {}).reply
    assert reply.job == Job()


def test_open_gives_size_and_a_small_copy(session: Session) -> None:
    found = answer(session, "open", {"file": "ramp.png"}, picture(800, 600))
    reply: Any = found.reply
    assert (reply.info.width_px, reply.info.height_px, reply.info.format) == (800, 600, "PNG")
    # Derived: at most 480 along a side: 480 x 360.
    assert found.buffers[0].shape == (360, 480, 4)
    assert reply.thumbnail.shape == [360, 480, 4]


def test_the_first_show_sends_everything(session: Session) -> None:
    found = show(session)
    reply = found.reply
    assert reply.texture is not None
    assert reply.fold is not None
    texture = found.buffers[reply.texture.pixels.place]
    assert texture.shape == tuple(reply.texture.pixels.shape)
    assert texture.dtype == np.uint8
    assert np.all(texture[..., 3] == 255)
    assert len({id(buffer) for buffer in found.buffers}) == 5


def test_the_texture_lies_on_the_mesh_by_its_front_edges(session: Session) -> None:
    found = show(session)
    texture, fold = found.reply.texture, found.reply.fold
    height, width, _ = texture.pixels.shape
    uv, flat = found.buffers[fold.uv.place], found.buffers[fold.positions.place][0]
    left = np.abs(flat[:, 0]) < 1e-4
    # Half a thousandth of a pixel in float32 at these sizes.
    assert uv[left, 0] * width == pytest.approx(texture.face.left, abs=5e-4)
    top = np.abs(flat[:, 1] - 210) < 1e-4
    assert uv[top, 1] * height == pytest.approx(texture.face.top, abs=5e-4)


@pytest.mark.parametrize(
    ("change", "texture", "fold"),
    [
        ({"name": "Low tide"}, False, False),
        ({"sides": {"fill": "plain"}}, True, False),
        ({"wrap": {"finish": "lapped"}}, True, True),
        ({"bars": {"depth_mm": 21}}, True, True),
    ],
)
def test_only_what_changed_is_sent_again(
    session: Session, change: dict[str, Any], texture: bool, fold: bool
) -> None:
    show(session)
    reply = show(session, **change).reply
    assert (reply.texture is not None, reply.fold is not None) == (texture, fold)
    again = show(session, **change).reply
    assert (again.texture, again.fold) == (None, None)


def test_fresh_sends_all_again(session: Session) -> None:
    show(session)
    reply: Any = answer(session, "show", {"job": A4, "preview_px": 100_000, "fresh": True}).reply
    assert reply.texture is not None
    assert reply.fold is not None


def test_another_picture_is_another_texture(session: Session) -> None:
    show(session)
    answer(session, "open", {"file": "other.png"}, picture(500, 300))
    assert show(session).reply.texture is not None


def test_a_refused_job_changes_nothing(session: Session) -> None:
    before = show(session)
    with pytest.raises(FieldError) as caught:
        show(session, bars={"depth_mm": 3})
    assert caught.value.field == "bars.depth_mm"
    with pytest.raises(GeometryError):
        show(session, face={"width_mm": 60, "height_mm": 60})
    after = show(session)
    assert (after.reply.texture, after.reply.fold) == (None, None)
    assert after.reply.layout == before.reply.layout


def test_a_bad_picture_leaves_the_open_one(session: Session) -> None:
    before = show(session).reply.layout
    with pytest.raises(PictureError):
        answer(session, "open", {"file": "not.jpg"}, b"no picture at all")
    again = show(session).reply
    assert again.layout == before
    assert again.texture is None


def test_print_before_a_picture_is_refused() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        answer(Session(), "print", {"job": A4, "kind": "tiff", "date": "2031-04-30"})


def test_print_yields_progress_and_the_file_in_parts(session: Session) -> None:
    params = {"job": {**A4, "name": "Low tide", "print": {"ppi": 72}}, "kind": "png", "date": "2031-04-30"}
    steps = session.call("print", params)
    done: list[float] = []
    while True:
        try:
            step = next(steps)
        except StopIteration as end:
            found = end.value
            break
        assert isinstance(step, Progress)
        done.append(step.done)
    assert len(done) > 3
    assert done == sorted(done)
    reply: Any = found.reply
    data = b"".join(found.buffers[part.place].tobytes() for part in reply.parts)
    assert len(data) == reply.report.bytes
    with Image.open(io.BytesIO(data)) as image:
        # Derived: 297.9 + 2 (20 + 25) = 387.9 mm, 300.9 mm; x 72 / 25.4 = 1099.56, 852.94: 1100 x 853.
        assert image.size == (1100, 853) == (reply.report.width_px, reply.report.height_px)
    assert reply.report.file == "Low-tide-297x210mm.png"


def test_a_stopped_print_leaves_the_session_usable(session: Session) -> None:
    steps = session.call("print", {"job": A4, "kind": "tiff", "date": "2031-04-30"})
    next(steps)
    steps.close()
    assert show(session).reply.texture is not None


def test_an_unknown_method_is_a_fault_of_the_page(session: Session) -> None:
    with pytest.raises(ValueError, match="unheard of"):
        answer(session, "unheard of", {})


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("", "300x200mm"),
        ("../../etc", "etc-300x200mm"),
        ("Ebbe & Flut", "Ebbe-Flut-300x200mm"),
        ("潮", "潮-300x200mm"),
    ],
)
def test_file_names_are_plain(name: str, stem: str) -> None:
    assert file_stem(Job(name=name)) == stem


def test_a_closed_picture_is_in_nothing_that_is_made(session: Session) -> None:
    answer(session, "close", {})
    shown = show(session).reply
    assert shown.texture is None
    assert shown.layout.use is None
    with pytest.raises(PictureError, match="No picture is open"):
        answer(session, "print", {"job": A4, "kind": "png", "date": "2031-05-02"})
    answer(session, "open", {"file": "ramp.png"}, picture())
    assert show(session).reply.texture is not None


def test_a_face_is_proposed_for_the_open_picture(session: Session) -> None:
    reply: Any = answer(session, "propose_face", {"job": A4, "unit": "mm"}).reply
    face = reply.face
    # Derived: 400 x 300 pixels are 4 : 3; half a millimetre of the shorter side is under 0.3 percent.
    assert face.width_mm / face.height_mm == pytest.approx(4 / 3, rel=0.003)
    tiny = {**A4, "sheet": {"width_mm": 100, "height_mm": 100}}
    none: Any = answer(session, "propose_face", {"job": tiny, "unit": "inch"}).reply
    assert none.face is None
