"""Choices by eye: every option drawn, with its cost, or a reason why not."""

from __future__ import annotations

import io
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.colour.link.viewing import Viewing
from pycore.contract.check import check_job
from pycore.contract.job import Fill, Finish, Intent, Job
from pycore.conventions import Side
from pycore.errors import FieldError, GeometryError
from pycore.fold.layers import bulk_of
from pycore.fold.spec import fold_spec
from pycore.layout.window import picture_window
from pycore.picture.tones import U8
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.corner_view import PICTURE_HEIGHT_PX, PICTURE_WIDTH_PX
from pycore.tasks.choices import FillChoice, fill_choices, finish_choices, intent_choices
from pycore.tasks.colour import intents
from pycore.tasks.open_picture import OpenPicture, open_picture

QUICK = [fill for fill in Fill if fill is not Fill.CONTINUED]


def opened(pixels: np.ndarray[Any, Any], **options: Any) -> OpenPicture:
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG", **options)
    return run_to_end(open_picture(out.getvalue(), file="drawn.png"))


@lru_cache(maxsize=1)
def picture() -> OpenPicture:
    """Stripes aslant and a strong red field in the lower right."""
    rows, columns = np.mgrid[0:400, 0:600]
    pixels = np.zeros((400, 600, 3), np.uint8)
    pixels[..., 0] = columns * 255 // 599
    pixels[..., 1] = rows * 255 // 399
    pixels[..., 2] = 120
    pixels[(columns + rows) % 80 < 20] = (240, 240, 230)
    pixels[250:, 380:] = (255, 0, 40)
    return opened(pixels)


def job_of(**more: Any) -> Job:
    return check_job({"face": {"width_mm": 200, "height_mm": 150}, "bars": {"depth_mm": 20}} | more)


def drawn(picture: U8 | None) -> U8:
    """A picture that is not refused."""
    assert picture is not None
    return picture


def by_fill(job: Job, fills: Sequence[Fill] = QUICK) -> dict[Fill, FillChoice]:
    return {one.fill: one for one in run_to_end(fill_choices(job, picture(), fills=fills))}


def test_every_fill_is_drawn_and_no_two_look_alike() -> None:
    found = by_fill(job_of(), list(Fill))
    assert list(found) == list(Fill)
    shown = [one.picture for one in found.values() if one.picture is not None]
    assert [one.shape for one in shown] == [(PICTURE_HEIGHT_PX, PICTURE_WIDTH_PX, 4)] * 6
    for place, one in enumerate(shown):
        for other in shown[:place]:
            assert np.abs(one.astype(int) - other).mean() > 0.5


def test_a_fill_costs_what_the_layout_says() -> None:
    for fill, one in by_fill(job_of()).items():
        use = picture_window(job_of(sides={"fill": fill.value}), width_px=600, height_px=400)
        assert (one.cut_away_share, one.run_on_share) == (use.cut_away_share, use.run_on_share)
    found = by_fill(job_of())
    assert found[Fill.RUN_ON].run_on_share > 0.2
    assert found[Fill.MIRROR].run_on_share == 0


def test_the_fill_of_the_job_itself_does_not_count() -> None:
    first, second = by_fill(job_of(sides={"fill": "plain"})), by_fill(job_of(sides={"fill": "run-on"}))
    for fill in QUICK:
        assert np.array_equal(drawn(first[fill].picture), drawn(second[fill].picture))


@pytest.mark.parametrize("side", Side)
def test_a_side_is_shown_with_each_fill_of_its_own(side: Side) -> None:
    """Also where every side has its own; the fill that the side has does not count."""
    own = {one.value: {"fill": "plain", "colour": "#405060"} for one in Side}
    job = job_of(sides=own)
    other = job_of(sides=own | {side.value: {"fill": "mirror", "colour": "#405060"}})
    first, second = (run_to_end(fill_choices(one, picture(), fills=QUICK, side=side)) for one in (job, other))
    pictures = [one.picture for one in first]
    for place, one in enumerate(pictures):
        assert one is not None
        assert np.array_equal(one, drawn(second[place].picture))
        for former in pictures[:place]:
            assert former is not None
            assert np.abs(one.astype(int) - former).mean() > 0.2


def test_a_fill_that_the_canvas_cannot_have_says_why() -> None:
    """Derived: a face of 90 mm has no 106 mm for a mirrored side of 100 mm with 6 mm of ink."""
    job = job_of(face={"width_mm": 300, "height_mm": 90}, bars={"depth_mm": 100}, wrap={"finish": "trimmed"})
    found = by_fill(job)
    refused = found[Fill.MIRROR].refused
    assert isinstance(refused, GeometryError)
    assert refused.field == "bars.depth_mm"
    assert found[Fill.MIRROR].picture is None
    assert found[Fill.PLAIN].refused is None
    assert found[Fill.PLAIN].picture is not None


def test_light_and_lines_leave_the_hue_alone() -> None:
    """Derived: a grey canvas stays grey, and its brightest surface keeps its value but for rounding."""
    grey = opened(np.full((300, 400, 3), 128, np.uint8))
    (one,) = run_to_end(fill_choices(job_of(), grey, fills=[Fill.MIRROR]))
    shown = one.picture
    assert shown is not None
    solid = shown[shown[..., 3] == 255][:, :3].astype(int)
    assert np.ptp(solid, axis=1).max() == 0
    assert solid.max() in (127, 128)


def test_each_finish_is_drawn_twice_with_its_bulk() -> None:
    found = run_to_end(finish_choices(job_of(), picture()))
    assert [one.finish for one in found] == list(Finish)
    for one in found:
        spec = fold_spec(job_of(wrap={"finish": one.finish.value}))
        assert one.bulk == bulk_of(spec)
        assert one.folded is not None
        assert one.folding is not None
        assert not np.array_equal(one.folded, one.folding)
    lapped = next(one for one in found if one.finish is Finish.LAPPED)
    others = [one for one in found if one.finish is not Finish.LAPPED]
    assert all(not np.array_equal(drawn(lapped.folded), drawn(one.folded)) for one in others)
    assert not np.array_equal(drawn(others[0].folding), drawn(others[1].folding))


def test_a_finish_that_cannot_be_folded_says_why() -> None:
    """Derived: whole corners need 2 (40 + 25) = 130 mm of the over pair, trimmed ones 2 x 25 = 50 mm."""
    job = job_of(face={"width_mm": 100, "height_mm": 100}, bars={"depth_mm": 40})
    found = {one.finish: one for one in run_to_end(finish_choices(job, picture()))}
    for finish in (Finish.TUCKED, Finish.LAPPED):
        refused = found[finish].refused
        assert refused is not None
        assert refused.field == "face.width_mm"
        assert found[finish].folded is None
    assert found[Finish.TRIMMED].refused is None
    assert found[Finish.TRIMMED].folded is not None


def test_the_intents_figures_are_those_of_the_table() -> None:
    profiles = ProfileStore()
    for compensated in (True, False):
        job = job_of(colour={"black_point_compensation": compensated})
        found = run_to_end(intent_choices(job, picture(), profiles, viewing=Viewing.BLACK))
        assert [one.intent for one in found] == list(Intent)
        table = run_to_end(intents(job, picture(), profiles)).figures
        for one in found:
            wanted = compensated and one.intent is not Intent.ABSOLUTE
            row = next(
                row for row in table if row.intent is one.intent and row.black_point_compensation == wanted
            )
            assert one.figures == row


def test_a_profile_that_is_not_open_is_named() -> None:
    job = job_of(colour={"profile": "lost.icc"})
    with pytest.raises(FieldError, match="must be a profile that is open"):
        run_to_end(intent_choices(job, picture(), ProfileStore(), viewing=Viewing.BLACK))


def test_a_call_can_be_stopped_between_two_pictures() -> None:
    """Every step but a view of the corner takes a short time; there are at least as many as pictures."""
    steps = list(fill_choices(job_of(), picture(), fills=QUICK))
    assert len(steps) > len(QUICK) + 1
    assert steps[0].done == 0
