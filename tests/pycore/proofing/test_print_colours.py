"""The print file's colours: kept, brought in, or converted, and never twice."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.contract.job import Intent, Job
from pycore.errors import FieldError
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun
from pycore.progress import run_to_end
from pycore.proofing.print_colours import PrintColours, print_colours
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource


def colours_of(job: Job, source: SourcePicture) -> PrintColours | None:
    return run_to_end(print_colours(job, ProfileStore(), PreviewSource(source)))


def written(job: Job, source: SourcePicture) -> tuple[Image.Image, list[str]]:
    out = io.BytesIO()
    run = PrintRun(
        source, job, kind=FileKind.TIFF, out=out, date="2031-04-30", colours=colours_of(job, source)
    )
    for _ in run.steps():
        pass
    image = Image.open(io.BytesIO(out.getvalue()))
    image.load()
    return image, [note.code for note in run.notes]


def test_nothing_is_done_unless_it_is_asked_for(job: Callable[..., Job], source: SourcePicture) -> None:
    assert colours_of(job(), source) is None


def test_converted_values_are_the_engine_s(job: Callable[..., Job], source: SourcePicture) -> None:
    made = job(print={"ppi": 72, "convert": "convert", "marks": False})
    image, codes = written(made, source)
    assert "file-converted" in codes
    assert "file-for-no-canvas" in codes
    profile = ProfileStore().profile("illustrative-matte")
    assert image.info["icc_profile"] == profile.data
    to_device = make_transform(
        Standard.SRGB,
        parse_profile(profile.data),
        intent=Intent.RELATIVE,
        black_point_compensation=True,
    )
    grid = pixel_grid(made, ppi=72)
    pixels = np.asarray(image)
    row = (grid.rows[2] + grid.rows[3]) // 2
    left, right = grid.columns[2], grid.columns[3]
    for share, rgb in ((0.3, (128, 128, 128)), (0.8, (255, 0, 0))):
        expected = to_device(np.array([rgb]) / 255.0)[0] * 255
        # The table is interpolated in 8 bits: within two levels of the exact value.
        assert pixels[row, int(left + share * (right - left))] == pytest.approx(expected, abs=2)
    # Bare canvas stays without ink.
    assert np.all(pixels[: grid.rows[1]] == 255)


def test_brought_in_without_converting_keeps_the_profile(
    job: Callable[..., Job], source: SourcePicture
) -> None:
    plain, _ = written(job(), source)
    moved, codes = written(job(colour={"bring_in": 1}), source)
    assert moved.info.get("icc_profile") == plain.info.get("icc_profile")
    assert "file-converted" not in codes
    before, after = np.asarray(plain).astype(int), np.asarray(moved).astype(int)
    grid = pixel_grid(job(), ppi=72)
    row, red = (grid.rows[2] + grid.rows[3]) // 2, grid.columns[3] - 20
    assert np.abs(before[row, red] - after[row, red]).max() > 20
    grey = grid.columns[2] + (grid.columns[3] - grid.columns[2]) * 3 // 10
    assert np.abs(before[row, grey] - after[row, grey]).max() <= 1


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_a_grey_or_cmyk_picture_is_converted_but_not_only_brought_in(
    mode: str, job: Callable[..., Job]
) -> None:
    out = io.BytesIO()
    Image.new(mode, (120, 90), 90 if mode == "L" else (10, 200, 30, 0)).save(out, "TIFF")
    source = read_picture(out.getvalue(), file="one.tif")
    with pytest.raises(FieldError) as caught:
        colours_of(job(colour={"bring_in": 1}), source)
    assert caught.value.field == "colour.bring_in"
    image, _ = written(job(print={"ppi": 72, "convert": "convert"}), source)
    assert image.mode == "RGB"


def test_an_unknown_profile_is_refused(job: Callable[..., Job], source: SourcePicture) -> None:
    made: Any = job(print={"convert": "convert"}, colour={"profile": "gone.icc"})
    with pytest.raises(FieldError, match=r"gone\.icc"):
        colours_of(made, source)
