"""A file that is not what was meant is found out."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from pycore.errors import OutputError
from pycore.printing.encoders import canvas_channels, encode_file
from pycore.printing.report import FileKind
from pycore.printing.reread import ExpectedFile, reread

_MEANT = ExpectedFile(kind=FileKind.TIFF, mode="RGB", width_px=40, height_px=30, ppi=300.0, profile=None)


def _file(kind: FileKind) -> bytes:
    canvas = np.full((30, 40, canvas_channels(kind, "RGB")), 90, np.uint8)
    out = io.BytesIO()
    shape = canvas.shape
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


def test_another_format_is_an_error() -> None:
    with pytest.raises(OutputError, match="can be opened again"):
        reread(io.BytesIO(_file(FileKind.PNG)), name="canvas", expected=_MEANT)
