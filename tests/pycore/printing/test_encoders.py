"""What each format can hold."""

from __future__ import annotations

import pytest

from pycore.errors import FieldError
from pycore.printing.encoders import canvas_channels, check_format
from pycore.printing.report import FileKind


def test_channels_of_the_canvas() -> None:
    assert [canvas_channels(kind, "RGB") for kind in FileKind] == [3, 3, 4]
    assert {canvas_channels(kind, "L") for kind in FileKind} == {1}
    assert canvas_channels(FileKind.TIFF, "CMYK") == 4


@pytest.mark.parametrize(
    ("kind", "mode", "size", "says"),
    [
        (FileKind.PNG, "CMYK", (100, 100), "holds grey and RGB only"),
        # Published: libjpeg's JPEG_MAX_DIMENSION is 65500.
        (FileKind.JPEG, "RGB", (65_501, 100), "65500 pixels a side"),
        # Derived: 40000 x 40000 x 3 bytes are 4.8 GB, over 2 ** 32.
        (FileKind.TIFF, "RGB", (40_000, 40_000), "4 GB"),
    ],
)
def test_what_a_format_cannot_hold(kind: FileKind, mode: str, size: tuple[int, int], says: str) -> None:
    with pytest.raises(FieldError, match=says):
        check_format(kind, mode, width_px=size[0], height_px=size[1])


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
