"""A print file that does not fit in memory is refused before it is begun, with what would fit."""

from __future__ import annotations

import io
import sys
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import OutputError
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.memory import Memory, check_memory, is_memory_short, memory_need, this_memory
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun

#: Published: 32-bit addresses reach arrays of 2**31 - 1 bytes; the whole is what a page may use of its 4 GB.
PAGE = Memory(total_bytes=3 * 2**30, array_bytes=2**31 - 1, is_browser=True)


def _source() -> SourcePicture:
    out = io.BytesIO()
    Image.fromarray(np.full((40, 60, 3), 128, np.uint8)).save(out, "PNG")
    return read_picture(out.getvalue(), file="grey.png")


def _job(**more: Any) -> Job:
    large = {"face": {"width_mm": 2900, "height_mm": 1900}, "print": {"ppi": 300}}
    return check_job(large | more)


@pytest.mark.parametrize("kind", [FileKind.TIFF, FileKind.PNG, FileKind.PDF])
def test_a_large_canvas_is_refused_with_what_fits(kind: FileKind) -> None:
    """2900 x 1900 mm at 300 ppi has more than 2**31 bytes; the resolution that is named does fit."""
    source, job, out = _source(), _job(), io.BytesIO()
    run = PrintRun(source, job, kind=kind, out=out, date="2031-04-30", memory=PAGE)
    with pytest.raises(OutputError) as refused:
        list(run.steps())
    assert out.getvalue() == b""
    grid = pixel_grid(job, ppi=300)
    size = f"{grid.width_px} x {grid.height_px}"
    # Derived: three bytes a pixel against 2**31 - 1 bytes.
    takes = f"{grid.width_px * grid.height_px * 3 / 1e9:.1f}"
    assert refused.value.message == (
        f"A print file of {size} pixels takes {takes} GB of memory; this page has 2.1 GB for it."
    )
    fitting = int(refused.value.remedy.removeprefix("lower the resolution to ").split()[0])
    for ppi, fits in ((fitting, True), (fitting + 1, False)):
        at = pixel_grid(job, ppi=ppi)
        assert (at.width_px * at.height_px * 3 <= 2**31 - 1) is fits
    assert "command line" in refused.value.remedy
    assert "panels" in refused.value.remedy


def test_what_fits_is_not_refused() -> None:
    source = _source()
    for kind in FileKind:
        check_memory(source, _job(print={"ppi": 150}), kind=kind, mode="RGB", memory=PAGE)


def test_a_canvas_that_is_made_whole_takes_all_of_it() -> None:
    """Derived: with a reflected side only the ends are held; with a blurred one the whole canvas is."""
    source = _source()
    needs = []
    for sides in ({"fill": "mirror"}, {"fill": "mirror", "blur_mm": 5}):
        job = _job(sides=sides)
        needs.append(memory_need(source, job, pixel_grid(job, ppi=100), kind=FileKind.TIFF, mode="RGB"))
    assert needs[0].array_bytes == needs[1].array_bytes
    assert needs[1].total_bytes == needs[1].array_bytes + 4 * source.width_px * source.height_px
    assert needs[0].total_bytes < needs[1].total_bytes / 4


def test_the_command_line_is_no_remedy_on_itself() -> None:
    small = Memory(total_bytes=10**8, array_bytes=None, is_browser=False)
    job = _job(sides={"fill": "mirror", "blur_mm": 5})
    with pytest.raises(OutputError, match=r"this computer has 0\.1 GB") as refused:
        check_memory(_source(), job, kind=FileKind.TIFF, mode="RGB", memory=small)
    assert "command line" not in refused.value.remedy


def test_this_program_knows_its_own_bounds() -> None:
    assert (this_memory().array_bytes == 2**31 - 1) is (sys.maxsize < 2**32)


def test_what_numpy_says_of_short_memory_is_known() -> None:
    """The message is numpy's own, for an array that no address reaches."""
    with pytest.raises(ValueError, match=r"too big|exceeded") as failure:
        np.empty((2**40, 2**40), np.uint8)
    assert is_memory_short(failure.value)
