"""TIFF files whose strips and tiles are packed as JPEG."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.read import read_picture
from pycore.speech import speaking
from tests.pycore.picture.made_tiff import made_tiff

_WIDE, _HIGH, _ROWS = 40, 27, 16


def _picture(mode: str) -> Image.Image:
    """Smooth, so that JPEG of the best quality keeps it to a value or two."""
    down, across = np.mgrid[0:_HIGH, 0:_WIDE]
    planes = [across * 4, down * 8, across + down, 200 - down * 3]
    bands = [Image.fromarray(plane.astype(np.uint8)) for plane in planes]
    return Image.merge(mode, bands[: len(Image.new(mode, (1, 1)).getbands())])


def _packed(piece: Image.Image, **options: Any) -> bytes:
    out = io.BytesIO()
    piece.save(out, "JPEG", quality=100, subsampling=0, **options)
    return out.getvalue()


def _parted(stream: bytes) -> tuple[bytes, bytes]:
    """Tables and the rest of a JPEG stream as two streams, as a TIFF keeps them (Technical Note 2)."""
    tables, rest, at = b"", b"", 2
    while stream[at + 1] != 0xDA:
        end = at + 2 + int.from_bytes(stream[at + 2 : at + 4])
        # Rec. ITU-T T.81, B.1.1.3: quantisation and Huffman tables.
        if stream[at + 1] in (0xDB, 0xC4):
            tables += stream[at:end]
        else:
            rest += stream[at:end]
        at = end
    return b"\xff\xd8" + tables + b"\xff\xd9", b"\xff\xd8" + rest + stream[at:]


@pytest.mark.parametrize(
    ("mode", "photometric", "options"),
    [("L", 1, {}), ("L", 0, {}), ("CMYK", 5, {}), ("RGB", 6, {}), ("RGB", 2, {"keep_rgb": True})],
)
@pytest.mark.parametrize("shape", ["strips", "tiles"])
def test_pixels_packed_as_jpeg_are_read(
    mode: str, photometric: int, options: dict[str, Any], shape: str
) -> None:
    """Derived: the values that were packed. Pillow writes a JPEG file's inks inverted."""
    picture = _picture(mode)
    packed = picture.point(lambda value: 255 - value) if photometric in (0, 5) else picture
    across = _WIDE if shape == "strips" else _ROWS
    pieces = []
    for top in range(0, _HIGH, _ROWS):
        high = min(_ROWS, _HIGH - top) if shape == "strips" else _ROWS
        pieces += [
            _parted(_packed(packed.crop((left, top, left + across, top + high)), **options))
            for left in range(0, _WIDE, across)
        ]
    places = ((278, 3, (_ROWS,)),) if shape == "strips" else ((322, 3, (_ROWS,)), (323, 3, (_ROWS,)))
    data = made_tiff(
        [strip for _, strip in pieces], size=(_WIDE, _HIGH), channels=len(picture.getbands()), bits=8,
        photometric=photometric, compression=7, more=(*places, (347, 7, tuple(pieces[0][0]))),
    )  # fmt: skip
    read = read_picture(data, file="packed.tif")
    assert (read.info.format, read.image.mode) == ("TIFF", mode)
    missed = np.abs(np.asarray(read.image).astype(int) - np.asarray(picture).astype(int))
    # Derived: at quality 100 a coefficient is off by half a step, a value by two, and a tile's rim by more.
    inner = missed[:_HIGH, :32] if shape == "tiles" else missed
    assert inner.max() <= 3


def _one_strip(strip: bytes, *more: tuple[int, int, tuple[int, ...]], size: tuple[int, int]) -> bytes:
    return made_tiff([strip], size=size, channels=3, bits=8, photometric=6, compression=7, more=more)


def test_what_is_wrong_with_such_a_file_is_told() -> None:
    strip = _packed(_picture("RGB"))
    apart = _one_strip(strip, (284, 3, (2,)), size=(_WIDE, _HIGH))
    with pytest.raises(PictureError, match="pixels of the compression JPEG"):
        read_picture(apart, file="apart.tif")
    with pytest.raises(PictureError, match="damaged or cut off"):
        read_picture(_one_strip(strip, size=(_WIDE, _HIGH - 8)), file="high.tif")
    cut = _one_strip(strip[:400], size=(_WIDE, _HIGH))
    with pytest.raises(PictureError, match="damaged or cut off"):
        read_picture(cut, file="cut.tif")
    with speaking("de"):
        with pytest.raises(PictureError, match="verlangt: TIFF-Datei, vollständig; vorgefunden: beschädigt"):
            read_picture(cut, file="cut.tif")
        with pytest.raises(PictureError, match="ein TIFF, darin Bildpunkte der Kompression JPEG"):
            read_picture(apart, file="apart.tif")
    with pytest.raises(PictureError, match="a TIFF of 4 strips or tiles, by its size"):
        read_picture(_one_strip(strip, (278, 3, (8,)), size=(_WIDE, _HIGH)), file="few.tif")
