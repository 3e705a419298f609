"""Outside the gamut is one number wherever it is given; what is flattened is a part of it."""

from __future__ import annotations

import io
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.compare.variants import CompareOptions, fill_variants
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.tasks.colour import clip, intents
from pycore.tasks.compare import compare_variants
from pycore.tasks.open_picture import OpenPicture, open_picture

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once


@lru_cache(maxsize=1)
def picture() -> OpenPicture:
    """From grey to strong red, and from dark to light."""
    pixels = np.zeros((120, 180, 3), np.uint8)
    pixels[..., 0] = np.linspace(100, 255, 180)
    pixels[..., 1] = pixels[..., 2] = np.linspace(100, 0, 180)
    pixels = (pixels * np.linspace(0.3, 1, 120)[:, np.newaxis, np.newaxis]).astype(np.uint8)
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG")
    return run_to_end(open_picture(file.getvalue(), file="ramp.png"))


def job(**parts: Any) -> Job:
    return check_job({"face": {"width_mm": 150, "height_mm": 100}, "sides": {"fill": "plain"}, **parts})


@pytest.mark.parametrize("bring_in", [0.0, 1.0])
def test_clip_and_compare_give_one_share_outside(bring_in: float) -> None:
    made = job(colour={"bring_in": bring_in})
    outside = run_to_end(clip(made, picture(), ProfileStore())).report.outside_share
    variants = fill_variants(made, ["plain", "mirror"])
    compared = run_to_end(
        compare_variants(variants, picture(), ProfileStore(), options=CompareOptions(preview_px=400_000))
    )
    alone = [run_to_end(clip(one.job, picture(), ProfileStore())).report.outside_share for one in variants]
    assert [one.outside_share for one in compared.variants] == alone
    assert alone[0] == outside
    if bring_in == 0:
        assert 0.2 < outside < 0.8
        assert alone[1] != outside


def test_the_whole_is_the_sum_of_its_parts() -> None:
    report = run_to_end(clip(job(), picture(), ProfileStore())).report
    # Derived: the face is 150 x 100 of 150 x 100 + 20 x 2 (150 + 100) mm, 0.9 mm of thickness aside; plain
    # sides are of one colour each, and lie outside wholly or not at all.
    face, *sides = report.regions
    areas = [150.9 * 100.9, 150.9 * 20, 100.9 * 20, 150.9 * 20, 100.9 * 20]
    parts = [one.share * area for one, area in zip([face, *sides], areas, strict=True)]
    assert report.outside_share == pytest.approx(sum(parts) / sum(areas), abs=0.005)


def test_intents_count_the_same_outside_and_flatten_a_part_of_it() -> None:
    made = job()
    before = run_to_end(clip(made, picture(), ProfileStore())).before.outside_share
    compared = run_to_end(intents(made, picture(), ProfileStore()))
    own = next(
        one
        for one in compared.figures
        if (one.intent, one.black_point_compensation)
        == (made.colour.intent, made.colour.black_point_compensation)
    )
    assert own.outside_share == pytest.approx(before, abs=1e-12)
    for one in compared.figures:
        assert 0 <= one.flattened_share <= one.outside_share


def test_bringing_in_leaves_what_intents_count_as_filed() -> None:
    """`intents` is about the picture as it is filed: bringing in comes after the choice."""
    as_filed = run_to_end(intents(job(), picture(), ProfileStore())).figures
    brought = run_to_end(intents(job(colour={"bring_in": 1}), picture(), ProfileStore())).figures
    assert [one.outside_share for one in as_filed] == [one.outside_share for one in brought]
