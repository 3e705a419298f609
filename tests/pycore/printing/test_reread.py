"""A file that is not what was meant is found out."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from pycore.errors import OutputError
from pycore.printing.encoders import canvas_channels, encode_file
from pycore.printing.pdf.page import PdfPage, write_pdf
from pycore.printing.report import FileKind
from pycore.printing.reread import ExpectedFile, reread

#: Derived: 40 and 30 pixels at 300 ppi.
_PAGE_MM = (40 / 300 * 25.4, 30 / 300 * 25.4)
_MEANT = ExpectedFile(kind=FileKind.TIFF, mode="RGB", width_px=40, height_px=30, ppi=300.0, profile=None)


def _file(kind: FileKind) -> bytes:
    canvas = np.full((30, 40, canvas_channels(kind, "RGB")), 90, np.uint8)
    out = io.BytesIO()
    shape = canvas.shape
    if kind is FileKind.PDF:
        page = PdfPage(
            size_mm=_PAGE_MM,
            inked_mm=(0, 0, *_PAGE_MM),
            marks=None,
            title="Low tide",
            date="2031-04-30",
            printer_values=False,
        )
        for _ in write_pdf(
            [canvas], out, mode="RGB", shape=shape, bits=8, ppi=300.0, profile=None, page=page
        ):
            pass
        return out.getvalue()
    for _ in encode_file([canvas], out, kind=kind, mode="RGB", shape=shape, bits=8, ppi=300.0, profile=None):
        pass
    return out.getvalue()


@pytest.mark.parametrize("kind", list(FileKind))
def test_what_was_meant_passes(kind: FileKind) -> None:
    """Derived: 40 pixels at 300 ppi are 40 / 300 * 25.4 = 3.387 mm, 30 are 2.54 mm."""
    report = reread(io.BytesIO(_file(kind)), name="canvas", expected=replace(_MEANT, kind=kind))
    assert report.size_mm == pytest.approx((3.3867, 2.54), abs=5e-5)
    assert report.bits == 8


@pytest.mark.parametrize("kind", list(FileKind))
@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"width_px": 41}, "41 x 30 pixels"),
        ({"mode": "CMYK"}, "CMYK"),
        ({"ppi": 301.0}, "ppi"),
        ({"profile": b"another"}, "the profile of 7 bytes, and has 0 bytes"),
        ({"bits": 16}, "16 bits a channel, and has 8 bits"),
    ],
)
def test_a_difference_is_an_error(kind: FileKind, wrong: dict[str, Any], says: str) -> None:
    expected = replace(_MEANT, kind=kind, **wrong)
    with pytest.raises(OutputError, match=says) as caught:
        reread(io.BytesIO(_file(kind)), name="canvas", expected=expected)
    assert caught.value.field == "out"


@pytest.mark.parametrize("kind", list(FileKind))
@pytest.mark.parametrize("kept", [0.0, 0.4, 0.99])
def test_a_cut_file_is_an_error(kind: FileKind, kept: float) -> None:
    data = _file(kind)
    with pytest.raises(OutputError):
        reread(io.BytesIO(data[: int(len(data) * kept)]), name="canvas", expected=replace(_MEANT, kind=kind))


@pytest.mark.parametrize(
    "part", [b"stream\nx", b"3 0 obj", b"\nxref\n0 ", b"startxref\n", b"%PDF-", b"/Width "]
)
def test_a_pdf_with_a_damaged_part_is_an_error(part: bytes) -> None:
    """The picture, an object's head, the table, where it lies, the header, an entry: one byte is another."""
    data = _file(FileKind.PDF)
    at = data.index(part)
    damaged = bytearray(data)
    damaged[at + len(part) + (20 if part.startswith(b"stream") else -1)] ^= 0x05
    with pytest.raises(OutputError):
        reread(io.BytesIO(bytes(damaged)), name="canvas", expected=replace(_MEANT, kind=FileKind.PDF))


def test_a_png_with_a_damaged_picture_is_an_error() -> None:
    """Published (PNG, 5.3): each chunk ends with the sum of its data; one byte of the picture is another."""
    damaged = bytearray(_file(FileKind.PNG))
    damaged[damaged.index(b"IDAT") + 10] ^= 0x05
    with pytest.raises(OutputError, match="can be opened again"):
        reread(io.BytesIO(bytes(damaged)), name="canvas", expected=replace(_MEANT, kind=FileKind.PNG))


def test_a_pdf_s_page_is_measured() -> None:
    expected = replace(_MEANT, kind=FileKind.PDF, page_mm=(_PAGE_MM[0], _PAGE_MM[1] + 0.01))
    with pytest.raises(OutputError, match=r"a page of 3.39 x 2.55 mm"):
        reread(io.BytesIO(_file(FileKind.PDF)), name="canvas", expected=expected)


def test_another_format_is_an_error() -> None:
    with pytest.raises(OutputError, match="can be opened again"):
        reread(io.BytesIO(_file(FileKind.PNG)), name="canvas", expected=_MEANT)
