"""The proof that goes to clients and into models: of a group all panels are proofed as they are printed."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing import profile_store
from pycore.proofing.adjust import fitted
from pycore.proofing.print_colours import print_colours
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import canvas_tops, make_proof_input, picture_space
from pycore.proofing.proofed import proofed_canvas
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.preview import PreviewSource

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

JOB = {
    "face": {"width_mm": 100, "height_mm": 100},
    "bars": {"depth_mm": 18},
    "group": {"panels": 2, "gap_mm": 0},
    "sides": {"fill": "plain", "colour": "#808080"},
    "colour": {"bring_in": 1},
}


@pytest.fixture(scope="module")
def preview() -> PreviewSource:
    """Vivid greens on the left, dull ones on the right, and one patch that both halves have."""
    pixels = np.zeros((120, 240, 3), np.uint8)
    pixels[:, :120] = np.stack([np.zeros(120), np.linspace(150, 255, 120), np.zeros(120)], -1)
    pixels[:, 120:] = np.stack([np.full(120, 90), np.linspace(110, 140, 120), np.full(120, 90)], -1)
    for left in (40, 160):
        pixels[40:80, left : left + 40] = (0, 200, 40)
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG")
    return PreviewSource(read_picture(file.getvalue(), file="greens.png"))


def test_panels_bring_in_alike(preview: PreviewSource) -> None:
    """Derived: one table for both panels, so what is equal as filed is equal as proofed."""
    job = check_job(JOB)
    grid = panel_grid(job, preview_px=60_000)
    shown = run_to_end(proofed_canvas(job, grid, preview, ProfileStore()))
    middle = ((grid.rows[2] + grid.rows[3]) // 2, (grid.columns[2] + grid.columns[3]) // 2)
    first, second = (shown[top + middle[0], middle[1]] for top in canvas_tops(shown, grid))
    assert first.tolist() == second.tolist()
    # The patch does clip, so that there was something to bring in.
    assert first.tolist() != [0, 200, 40]


def test_a_proof_and_its_figures_fit_once(preview: PreviewSource, monkeypatch: pytest.MonkeyPatch) -> None:
    job = check_job(JOB)
    grid = panel_grid(job, preview_px=60_000)
    canvas = run_to_end(stacked_canvas(preview, job, grid))
    proof_input = make_proof_input(np.ascontiguousarray(canvas[..., :3]), picture_space(preview.source), grid)
    fits = []

    def counted(*given: Any) -> Any:
        fits.append(given)
        return fitted(*given)

    monkeypatch.setattr(profile_store, "fitted", counted)
    profiles = ProfileStore()
    before = profiles.report(proof_input, job.colour)
    after = profiles.report(profiles.brought(proof_input, job.colour, grid), job.colour)
    assert after.regions[0].share < before.regions[0].share
    profiles.clipped(proof_input, job.colour, grid)
    assert len(fits) == 1


def test_what_is_printed_is_fitted_to_the_whole_group(preview: PreviewSource) -> None:
    """The print file's table moves the patch of either panel to one and the same colour."""
    job = check_job(JOB)
    colours = run_to_end(print_colours(job, ProfileStore(), preview))
    assert colours is not None
    grid = panel_grid(job, preview_px=60_000)
    canvas = run_to_end(stacked_canvas(preview, job, grid))
    middle = ((grid.rows[2] + grid.rows[3]) // 2, (grid.columns[2] + grid.columns[3]) // 2)
    moved = []
    for top in canvas_tops(canvas, grid):
        panel = np.ascontiguousarray(canvas[top : top + grid.height_px, :, :3])
        panel = colours.convert(panel, bits=8, row=0, column=0)
        moved.append(panel[middle].tolist())
    assert moved[0] == moved[1]
    assert moved[0] != [0, 200, 40]
