"""A group of three panels on the page: hung together, planned on the sheets, written as three files."""

from __future__ import annotations

import datetime
import hashlib
import json
from pathlib import Path

import numpy as np
import pytest
from bench import WRITE_MS, Bench, saved
from demo_given import DEMO_PICTURE
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Download, expect

from pycore.cli.main import main

pytestmark = pytest.mark.browser


def test_three_panels_are_shown_planned_and_written(bench: Bench, small_demo: bytes, tmp_path: Path) -> None:
    bench.start()
    picture = tmp_path / DEMO_PICTURE.name
    picture.write_bytes(small_demo)
    begun = {
        "version": 2,
        "picture": {"file": picture.name, "sha256": hashlib.sha256(small_demo).hexdigest()},
        "face": {"width_mm": 120, "height_mm": 180},
        "bars": {"depth_mm": 18},
        "print": {"ppi": 100},
    }
    text = json.dumps(begun).encode()
    bench.open_job({"name": "job.json", "mimeType": "application/json", "buffer": text})
    expect(bench.field("face.width_mm")).to_have_value("120")
    bench.settled()
    single = bench.wall_picture()

    bench.choose("Panels", "3")
    bench.set("group.gap_mm", "25")
    # Derived: three faces of 120 + 2 x 0.45 mm and two gaps of 25 are 412.7 mm wide.
    expect(bench.page.locator("#group")).to_contain_text("the three panels take 412.7")
    together = bench.wall_picture()
    assert together != single
    bench.choose("How they hang", "Down")
    assert bench.wall_picture() != together
    bench.choose("How they hang", "Across")

    # Derived: canvases of 206.9 x 266.9 mm: one upright or, turned, one above the other on 329 x 483 mm.
    bench.scene("Sheet")
    expect(bench.page.locator(".sheet-says")).to_contain_text("take")
    # The section says the same, and nothing of one canvas by itself.
    expect(bench.page.locator("#sheet")).to_contain_text(bench.page.locator(".sheet-says").inner_text())
    first = bench.page.get_by_role("group", name="Sheet", exact=True)
    expect(bench.page.locator(".flat-texture")).to_have_count(2)
    first.get_by_label("Sheet 2 of 2", exact=True).click()
    expect(bench.page.locator(".flat-texture")).to_have_count(1)
    expect(bench.page.locator(".flat-texture")).to_have_attribute(
        "aria-label", "The flat canvas as it is printed, panel 3 of 3"
    )

    job = bench.save_job(tmp_path)
    written = written_files(bench, tmp_path)
    assert [file.name[-9:-4] for file in written] == ["-1of3", "-2of3", "-3of3"]
    expect(bench.page.locator("#print-report .report")).to_have_count(4)
    native = tmp_path / "native.tif"
    date = datetime.date.today().isoformat()
    command = ["print", str(picture), "--job", str(job)]
    assert main([*command, "--out", str(native), "--date", date]) == 0
    for number, file in enumerate(written, start=1):
        line = tmp_path / f"native-{number}of3.tif"
        assert np.array_equal(pixels(file), pixels(line))
    assert not np.array_equal(pixels(written[0]), pixels(written[1]))


def written_files(bench: Bench, folder: Path) -> list[Path]:
    """All three files, as the browser downloads them."""
    caught: list[Download] = []

    def third(one: Download) -> bool:
        caught.append(one)
        return len(caught) == 3

    with bench.page.expect_download(third, timeout=3 * WRITE_MS):
        bench.button("Save all 3 files").click()
    expect(bench.page.locator("#print-report")).to_be_visible(timeout=WRITE_MS)
    return [saved(one, folder) for one in caught]


def pixels(file: Path) -> NDArray[np.uint8]:
    with Image.open(file) as picture:
        return np.asarray(picture)
