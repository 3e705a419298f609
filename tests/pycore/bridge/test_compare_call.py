"""The call for variants side by side as the page makes it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.compare.variants import (
    Variant,
    bring_in_variants,
    depth_variants,
    fill_variants,
    finish_variants,
    profile_variants,
)
from pycore.contract.check import check_job, job_tree
from pycore.contract.job import Job
from pycore.errors import FieldError, GeometryError, PictureError
from pycore.layout.grid import Box
from pycore.layout.report import layout_report

from .test_session import answer, picture

A4 = check_job({"face": {"width_mm": 297, "height_mm": 210}, "bars": {"depth_mm": 20}})


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def asked(variants: list[Variant], *, preview_px: int = 60_000) -> dict[str, Any]:
    return {
        "variants": [{"label": one.label, "job": job_tree(one.job)} for one in variants],
        "viewing": "black",
        "screen": "srgb",
        "preview_px": preview_px,
    }


def compared(session: Session, variants: list[Variant]) -> tuple[Any, Answer]:
    found = answer(session, "compare", asked(variants))
    return found.reply, found


def test_depths_share_one_texture_and_one_look(session: Session) -> None:
    reply, found = compared(session, depth_variants(A4, [18, 38, 50]))
    assert (len(reply.textures), len(reply.folds), len(reply.looks)) == (1, 3, 1)
    assert [(one.texture, one.fold, one.look) for one in reply.variants] == [(0, 0, 0), (0, 1, 0), (0, 2, 0)]
    # One buffer of pixels travels, and no more than the preview asked for.
    pixels = [one for one in found.buffers if one.ndim == 3 and one.shape[2] == 4 and one.dtype == np.uint8]
    assert len(pixels) == 1
    assert pixels[0].shape[0] * pixels[0].shape[1] <= 60_000


def test_fills_have_a_texture_each_and_share_the_fold(session: Session) -> None:
    reply, _ = compared(session, fill_variants(A4, ["mirror", "run-on", "drawn-out", "plain"]))
    assert (len(reply.textures), len(reply.folds), len(reply.looks)) == (4, 1, 1)
    assert len({tuple(texture.pixels.shape) for texture in reply.textures}) == 1


def test_what_depends_on_depth_has_a_texture_for_each(session: Session) -> None:
    job = check_job({**job_tree(A4), "sides": {"fill": "fade"}})
    reply, _ = compared(session, depth_variants(job, [18, 38]))
    assert (len(reply.textures), len(reply.folds)) == (2, 2)


def test_finishes_share_the_texture(session: Session) -> None:
    reply, _ = compared(session, finish_variants(A4, ["tucked", "lapped", "trimmed"]))
    assert (len(reply.textures), len(reply.folds), len(reply.looks)) == (1, 3, 1)


@pytest.mark.parametrize("fill", ["mirror", "run-on"])
def test_the_layout_is_the_session_s_own(session: Session, fill: str) -> None:
    job = check_job({**job_tree(A4), "sides": {"fill": fill}})
    reply, _ = compared(session, depth_variants(job, [18, 38, 50]))
    for one in reply.variants:
        shown: Any = answer(session, "show", {"job": job_tree(one.job)}).reply
        assert one.layout == shown.layout
        assert one.lost_share == shown.layout.use.cut_away_share
        # derived: width x height x weight per square metre.
        across, down = one.layout.flat.canvas_mm
        assert one.weight_g == pytest.approx(across * down / 1e6 * 380, rel=1e-12)
    assert reply.variants[0].layout.flat == layout_report(reply.variants[0].job).flat


def test_the_ink_of_a_shallower_variant_ends_earlier_on_the_texture(session: Session) -> None:
    reply, _ = compared(session, depth_variants(A4, [18, 50]))
    shallow, deep = (one.inked for one in reply.variants)
    texture = reply.textures[0]
    assert deep == texture.inked
    face = texture.face
    height, width, _ = texture.pixels.shape
    # derived: ink reaches depth + 6 mm of ink-over past the edge; the canvas is 297.9 + 2 (50 + 25) mm wide.
    per_mm = width / 447.9
    for box, reach_mm in ((shallow, 24), (deep, 56)):
        assert face.left - box.left == pytest.approx(reach_mm * per_mm, abs=1)
        assert box.bottom - face.bottom == pytest.approx(reach_mm * per_mm, abs=1)
    assert height < width


def test_a_mapped_fold_lands_on_the_texture_where_its_own_would(session: Session) -> None:
    """The texture coordinates of the front edges are those of the texture's face, whatever the depth."""
    reply, found = compared(session, depth_variants(A4, [18, 38, 50]))
    texture = reply.textures[0]
    height, width, _ = texture.pixels.shape
    for one in reply.variants:
        fold = reply.folds[one.fold]
        uv = found.buffers[fold.uv.place]
        flat = found.buffers[fold.positions.place][0]
        # Flat: x and y in mm from the face's lower-left corner; the wood's edges at 0 and 297, 0 and 210.
        for column, wanted in ((0, texture.face.left), (297, texture.face.right)):
            at = np.abs(flat[:, 0] - column) < 1e-3
            np.testing.assert_allclose(uv[at, 0] * width, wanted, atol=1e-3)
        for row, wanted in ((210, texture.face.top), (0, texture.face.bottom)):
            at = np.abs(flat[:, 1] - row) < 1e-3
            np.testing.assert_allclose(uv[at, 1] * height, wanted, atol=1e-3)
        assert uv.min() >= 0
        assert uv.max() <= 1
        # The turn-over ends 19 mm beyond the ink.
        assert uv[:, 0].min() * width < one.inked.left


@pytest.mark.once  # tests/parity: what is brought in
def test_looks_travel_with_their_own_buffers(session: Session) -> None:
    variants = bring_in_variants(A4, [0, 1])
    reply, found = compared(session, variants)
    assert (len(reply.textures), len(reply.folds), len(reply.looks)) == (1, 1, 2)
    for look, variant in zip(reply.looks, variants, strict=True):
        params = {"job": job_tree(variant.job), "viewing": "black", "screen": "srgb", "fine": True}
        alone: Any = answer(session, "look", params)
        assert (found.buffers[look.printed.place] == alone.buffers[alone.reply.printed.place]).all()
    nothing, everything = (one.outside_share for one in reply.variants)
    assert everything < nothing


def test_the_share_outside_is_of_all_that_is_seen(session: Session) -> None:
    reply, _ = compared(session, depth_variants(A4, [6, 100]))
    for one in reply.variants:
        params = {"job": job_tree(one.job)}
        clip: Any = answer(session, "clip", params).reply
        parts = clip.parts
        width, height, depth = 297.9, 210.9, one.job.bars.depth_mm
        # derived: the face, then top, right, bottom and left.
        areas = [width * height, width * depth, depth * height, width * depth, depth * height]
        expected = sum(part.share * area for part, area in zip(parts, areas, strict=True)) / sum(areas)
        assert one.outside_share == pytest.approx(expected, abs=0.002)
        assert one.outside_share == clip.outside_share
        assert expected > 0.05


def test_progress_rises_and_the_call_can_be_stopped(session: Session) -> None:
    variants = fill_variants(A4, ["mirror", "run-on", "drawn-out"])
    steps = session.call("compare", asked(variants))
    done, labels = [], []
    while True:
        try:
            progress = next(steps)
        except StopIteration:
            break
        done.append(progress.done)
        labels.append(progress.label)
    assert done == sorted(done)
    assert done[0] == 0
    assert done[-1] < 1
    assert {"Proofing mirror", "Proofing run-on", "Proofing drawn-out"} <= set(labels)
    stopped = session.call("compare", asked(variants))
    next(stopped)
    next(stopped)
    stopped.close()
    # Whatever was under way, the session goes on.
    assert len(compared(session, variants)[0].variants) == 3


def test_comparing_leaves_what_is_shown_and_opens_nothing(session: Session) -> None:
    answer(session, "show", {"job": job_tree(A4)})
    compared(session, depth_variants(A4, [18, 38]))
    shown: Any = answer(session, "show", {"job": job_tree(A4)}).reply
    assert (shown.texture, shown.fold) == (None, None)


def refusal(session: Session, variants: list[Variant]) -> FieldError:
    with pytest.raises(FieldError) as caught:
        compared(session, variants)
    return caught.value


def test_too_few_too_many_and_twice_the_same(session: Session) -> None:
    one = Variant(label="one", job=A4)
    deeper = Variant(label="deeper", job=depth_variants(A4, [38, 50])[0].job)
    assert refusal(session, [one]).expected == "2 to 4 values to compare"
    assert refusal(session, [one] * 5).got == "5"
    twice = refusal(session, [one, deeper, Variant(label="again", job=A4)])
    assert (twice.field, twice.got) == ("variants", "again as one")


def test_a_wrong_variant_is_named(session: Session) -> None:
    params = asked(depth_variants(A4, [18, 38]))
    params["variants"][1]["job"]["bars"]["depth_mm"] = 300
    with pytest.raises(FieldError, match="38 mm") as caught:
        answer(session, "compare", params)
    assert caught.value.field == "bars.depth_mm"


def test_a_variant_that_cannot_be_made_is_named(session: Session) -> None:
    narrow = Job(face=Job().face.model_copy(update={"height_mm": 60}))
    with pytest.raises(GeometryError, match="“90 mm”") as caught:
        compared(session, depth_variants(narrow, [18, 90]))
    assert caught.value.field == "bars.depth_mm"
    assert "“mine.icc”" in str(refusal(session, profile_variants(A4, ["illustrative-matte", "mine.icc"])))


def test_without_a_picture_nothing_is_compared() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        compared(Session(), depth_variants(A4, [18, 38]))


def test_boxes_hold_their_face(session: Session) -> None:
    reply, _ = compared(session, depth_variants(A4, [6, 18, 38, 50]))
    face = reply.textures[0].face
    for one in reply.variants:
        box: Box = one.inked
        assert box.left < face.left < face.right < box.right
        assert box.top < face.top < face.bottom < box.bottom


def test_a_group_s_panels_share_a_texture_across_depths(session: Session) -> None:
    job = check_job({**job_tree(A4), "group": {"panels": 3, "gap_mm": 20}})
    reply, found = compared(session, depth_variants(job, [18, 38]))
    assert len(reply.textures) == 1
    rows, columns, _ = reply.textures[0].pixels.shape
    assert rows * columns <= 60_000
    for one in reply.variants:
        # derived: the pitch is 297 + 2 x 0.45 + 20 mm.
        assert [panel.centre_mm[0] for panel in one.panels] == pytest.approx([-317.9, 0, 317.9])
        assert [(panel.top_px, panel.bottom_px) for panel in one.panels] == [
            (place * rows // 3, (place + 1) * rows // 3) for place in range(3)
        ]
        shown: Any = answer(session, "show", {"job": job_tree(one.job)}).reply
        assert one.layout == shown.layout
        assert one.weight_g == pytest.approx(3 * one.layout.flat.weight_g)
        uv = found.buffers[reply.folds[one.fold].uv.place]
        assert 0 <= uv.min() < uv.max() <= 1
