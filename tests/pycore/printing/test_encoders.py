"""What each format can hold."""

from __future__ import annotations

import io

import numpy as np
import pytest
import tifffile

from pycore.errors import FieldError
from pycore.printing.encoders import canvas_channels, check_format, check_page, encode_file
from pycore.printing.report import FileKind


def test_channels_of_the_canvas() -> None:
    assert [canvas_channels(kind, "RGB") for kind in FileKind] == [3, 3, 4, 3]
    assert {canvas_channels(kind, "L") for kind in FileKind} == {1}
    assert canvas_channels(FileKind.TIFF, "CMYK") == 4


@pytest.mark.parametrize(
    ("kind", "mode", "size", "says"),
    [
        (FileKind.PNG, "CMYK", (100, 100), "holds grey and RGB only"),
        # Published: libjpeg's JPEG_MAX_DIMENSION is 65500.
        (FileKind.JPEG, "RGB", (65_501, 100), "65500 pixels a side"),
        # Derived: 37838 x 37838 x 3 bytes are 175,436 more than 2 ** 32.
        (FileKind.TIFF, "RGB", (37_838, 37_838), "4 GB"),
        # Derived: 26755 x 26755 x 3 bytes are 6,427 more than 2 ** 31.
        (FileKind.PDF, "RGB", (26_755, 26_755), "2 GB"),
    ],
)
def test_what_a_format_cannot_hold(kind: FileKind, mode: str, size: tuple[int, int], says: str) -> None:
    with pytest.raises(FieldError, match=says):
        check_format(kind, mode, width_px=size[0], height_px=size[1])


def test_a_tiff_in_strips_is_the_one_that_a_whole_canvas_gives() -> None:
    """Against `tifffile.imwrite` of the whole array."""
    for bits, dtype in ((8, np.uint8), (16, np.uint16)):
        for mode, channels in (("L", 1), ("RGB", 3), ("CMYK", 4)):
            canvas = np.random.default_rng(bits).integers(0, 2**bits, (300, 41, channels), dtype=dtype)
            whole, strips = io.BytesIO(), io.BytesIO()
            tifffile.imwrite(
                whole,
                canvas if channels > 1 else canvas[..., 0],
                photometric={"L": "minisblack", "RGB": "rgb", "CMYK": "separated"}[mode],
                planarconfig="contig" if channels > 1 else None,
                bigtiff=False,
                resolution=(300, 300),
                resolutionunit="INCH",
                iccprofile=b"profile bytes",
                metadata=None,
                software=False,
            )
            pieces = [canvas[first : first + 97] for first in range(0, 300, 97)]
            rows = list(
                encode_file(
                    pieces,
                    strips,
                    kind=FileKind.TIFF,
                    mode=mode,
                    shape=(300, 41, channels),
                    bits=bits,
                    ppi=300,
                    profile=b"profile bytes",
                )
            )
            assert rows == [97, 194, 291, 300]
            assert strips.getvalue() == whole.getvalue()


def test_a_jpeg_of_16_bits_is_refused() -> None:
    with pytest.raises(FieldError, match="a JPEG, which holds no more") as caught:
        check_format(FileKind.JPEG, "RGB", width_px=10, height_px=10, bits=16)
    assert caught.value.field == "print.bits"


def test_a_page_longer_than_a_pdf_may_have_is_refused() -> None:
    """Published: ISO 32000-1, annex C.2: 14,400 units of 1/72 inch, 5080 mm."""
    check_page((5080.0, 5080.0))
    with pytest.raises(
        FieldError, match=r"at most 5080 mm long, and this canvas has 300.0 x 5080.1 mm"
    ) as caught:
        check_page((300.0, 5080.1))
    assert caught.value.remedy == "save a TIFF or a PNG"


def _holds(kind: FileKind, width_px: int, height_px: int) -> bool:
    try:
        check_format(kind, "RGB", width_px=width_px, height_px=height_px)
    except FieldError:
        return False
    return True


def test_what_they_can_hold() -> None:
    """Derived: a 914 x 610 mm face with 38 mm bars at 300 ppi. Published: libjpeg's JPEG_MAX_DIMENSION."""
    assert all(_holds(kind, 12_294, 8_704) for kind in FileKind)
    assert [_holds(FileKind.JPEG, width_px, 10) for width_px in (65_500, 65_501)] == [True, False]
