"""The proof strip and the client's answer on the page: saved, read back, taken over, refused."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bench import WRITE_MS, Bench
from playwright.sync_api import Download, FilePayload, expect

from pycore.client.offer import OfferedVariant
from pycore.client.words import answer_lines
from pycore.compare.variants import depth_variants
from pycore.contract.check import open_job
from pycore.layout.window import picture_window

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True


@pytest.fixture(scope="module")
def bench(module_bench: Bench) -> Bench:
    """One page for all tests, with the demo."""
    return module_bench.start()


def test_a_strip_is_saved_and_its_measured_values_are_shown(bench: Bench, tmp_path: Path) -> None:
    page = bench.page
    files: list[Download] = []
    page.on("download", lambda one: files.append(one))
    page.locator("#save-strip").click()
    expect(page.locator("#strip-report")).to_contain_text("was saved, opened again", timeout=WRITE_MS)
    expect(page.locator("#strip-expected")).to_contain_text("-strip.cgats.txt")
    names = sorted(one.suggested_filename for one in files)
    assert [name.endswith(end) for name, end in zip(names, (".cgats.txt", ".tif"), strict=True)] == [
        True,
        True,
    ]
    values = next(one for one in files if one.suggested_filename.endswith(".txt")).path().read_text()
    assert values.startswith("CGATS.17\n")

    measured = page.locator('input[data-open="open-measured"]')
    measured.set_input_files({"name": "m.txt", "mimeType": "text/plain", "buffer": values.encode()})
    # derived: the promise itself, measured, is off by nothing
    expect(page.locator("#strip-check")).to_contain_text("by 0.0 ΔE00 on average")
    points = re.sub(r"(\d)\.(\d{3})\n", r"\1..\2\n", values)
    measured.set_input_files({"name": "m.txt", "mimeType": "text/plain", "buffer": points.encode()})
    expect(page.locator("#proof-strip .error-text")).to_contain_text("which is no number")


def test_an_answer_picks_the_variant_and_stays_with_the_job(bench: Bench, tmp_path: Path) -> None:
    page = bench.page
    bench.field("answer").fill("I say yes, I think.")
    page.locator("#take-answer").click()
    expect(bench.message("answer")).to_contain_text("The text is no answer of a client page")
    job = open_job(bench.save_job(tmp_path).read_text())[0]
    (_, variant) = depth_variants(job, [job.bars.depth_mm, 41])
    use = picture_window(variant.job, width_px=600, height_px=400)
    offered = OfferedVariant(label="41 mm", job=variant.job, use=use, texture=0, fold=0, panels=())
    lines = [*answer_lines(offered, letter="B", alone=False), "", "Name: Mara", "", "Remarks: Gladly"]
    answer: FilePayload = {"name": "a.txt", "mimeType": "text/plain", "buffer": "\n".join(lines).encode()}
    page.locator('input[data-open="open-answer"]').set_input_files(answer)
    expect(page.locator("#answer-taken")).to_contain_text(
        "The client says: I choose B: 41 mm. Changed to it: bar depth."
    )
    expect(page.locator("#answer-kept .answer")).to_contain_text("Remarks: Gladly")
    assert open_job(bench.save_job(tmp_path).read_text())[0].bars.depth_mm == 41
    # What is said of it holds as long as the job has it.
    bench.button("Undo").press("Enter")
    expect(page.locator("#answer-kept")).to_have_count(0)
    expect(page.locator("#answer-taken")).to_have_text("")
    bench.button("Redo").press("Enter")
    page.locator("#answer-kept").get_by_role("button").click()
    expect(page.locator("#answer-kept")).to_have_count(0)
