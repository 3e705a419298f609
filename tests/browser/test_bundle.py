"""A bundle saved on the page holds job, picture and profile, and opened there it brings all three back."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from bench import WRITE_MS, Bench, saved
from colour_bench import hand_over, open_profile
from PIL import Image
from playwright.sync_api import FilePayload, expect

from pycore.bundle.content import Role
from pycore.bundle.read import open_bundle

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True

PROFILE = (
    Path(__file__).resolve().parents[2] / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"
)


@pytest.fixture(scope="module")
def bench(module_bench: Bench) -> Bench:
    """One page for all tests, with the demo."""
    return module_bench.start()


def test_a_bundle_brings_job_picture_and_profile_back(
    bench: Bench, small_china: Path, tmp_path: Path
) -> None:
    bench.open_picture(small_china)
    bench.opened("china.jpg")
    open_profile(bench, FilePayload(name="mine.icc", mimeType="", buffer=PROFILE.read_bytes()))
    bench.set("face.width_mm", "222")
    before = json.loads(bench.save_job(tmp_path).read_text(encoding="utf-8"))
    with bench.page.expect_download(timeout=WRITE_MS) as caught:
        bench.button("Save the bundle").click()
    path = saved(caught.value, tmp_path)
    expect(bench.page.locator(".status")).to_contain_text("it holds the job and the picture and the profile")
    held = open_bundle(path.read_bytes())
    assert held.files[Role.PICTURE].data == small_china.read_bytes()
    assert held.files[Role.PROFILE].data == PROFILE.read_bytes()
    assert (held.job.face.width_mm, held.job.colour.profile) == (222, "mine.icc")

    out = io.BytesIO()
    Image.linear_gradient("L").save(out, "PNG")
    bench.open_picture(FilePayload(name="other.png", mimeType="image/png", buffer=out.getvalue()))
    bench.opened("other.png")
    bench.set("face.width_mm", "333")
    bench.open_job(path)
    bench.opened("china.jpg")
    assert json.loads(bench.save_job(tmp_path).read_text(encoding="utf-8")) == before


def test_a_bundle_may_be_dropped_and_a_bad_one_changes_nothing(bench: Bench, tmp_path: Path) -> None:
    before = bench.save_job(tmp_path).read_text(encoding="utf-8")
    hand_over(bench.page, {"name": "cut.zip", "mimeType": "", "buffer": b"PK\x03\x04"}, "drop")
    expect(bench.page.locator(".page-header .error-text")).to_contain_text("may not have been copied whole")
    assert bench.save_job(tmp_path).read_text(encoding="utf-8") == before
