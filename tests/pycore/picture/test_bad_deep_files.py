"""Files of 16 bits that are damaged or of another kind: read rightly, or refused in one sentence."""

from __future__ import annotations

import io
import re
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.cli.main import main
from pycore.errors import PictureError
from pycore.picture.read import read_picture
from pycore.speech import speaking

from .made_tiff import made_tiff

_NOISE = np.random.default_rng(12).integers(0, 65536, (40, 50, 3), dtype=np.uint16)


def _tiff(compression: int) -> bytes:
    pieces = [_NOISE[row : row + 8].tobytes() for row in range(0, 40, 8)]
    more = ((278, 4, (8,)),)
    return made_tiff(pieces, size=(50, 40), channels=3, compression=compression, more=more)


def _png() -> bytes:
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in _NOISE)

    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    head = (50).to_bytes(4, "big") + (40).to_bytes(4, "big") + bytes([16, 2, 0, 0, 0])
    packed = zlib.compress(rows)
    signature = b"\x89PNG\r\n\x1a\n"
    return signature + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def _at_the_start(data: bytes) -> bytes:
    """A TIFF with its directory before its pixels, so that its end can be cut off."""
    out = io.BytesIO()
    with tifffile.TiffFile(io.BytesIO(data)) as file:
        tifffile.imwrite(out, file.asarray(), photometric="rgb", rowsperstrip=8, metadata=None)
    return out.getvalue()


def _past_the_end(compression: int) -> bytes:
    """A TIFF that ends within its last strip, by the place that it names."""
    data = _tiff(compression)
    with tifffile.TiffFile(io.BytesIO(data)) as file:
        last = int(file.pages.first.dataoffsets[-1])
    # The directory stands behind the strips.
    at = data.rindex(struct.pack("<I", last))
    return data[:at] + struct.pack("<I", len(data) - 40) + data[at + 4 :]


def _float(shape: tuple[int, ...], photometric: str) -> bytes:
    out = io.BytesIO()
    tifffile.imwrite(out, np.zeros(shape, np.float32), photometric=photometric, metadata=None)
    return out.getvalue()


def _lab(bits: int) -> bytes:
    piece = bytes(40 * 50 * 3 * bits // 8)
    return made_tiff([piece], size=(50, 40), channels=3, photometric=8, bits=bits)


def _channels(count: int, bits: int) -> bytes:
    piece = bytes(40 * 50 * count * bits // 8)
    return made_tiff([piece], size=(50, 40), channels=count, bits=bits, extra=(0,) * (count - 3))


def _stored(tag: int, value: int, compression: int = 1) -> bytes:
    more = ((tag, 3, (value,)),)
    return made_tiff([bytes(40 * 50 * 6)], size=(50, 40), channels=3, compression=compression, more=more)


BAD: dict[str, Callable[[], bytes]] = {
    "an uncompressed TIFF cut short": lambda: _at_the_start(_tiff(1))[:-5000],
    "a TIFF cut before its directory": lambda: _tiff(5)[:-400],
    "an LZW TIFF cut within a strip": lambda: _tiff(5)[: len(_tiff(5)) // 2],
    "an LZW TIFF that ends within its last strip": lambda: _past_the_end(5),
    "a deflated TIFF that ends within its last strip": lambda: _past_the_end(8),
    "a PNG cut short": lambda: _png()[:-3000],
    "a PNG without its last byte of pixels": lambda: _png()[:-17],
    "two kinds named for one further channel": lambda: made_tiff(
        [bytes(40 * 50 * 8)], size=(50, 40), channels=4, extra=(0, 2)
    ),
    "floating-point RGB": lambda: _float((40, 50, 3), "rgb"),
    "floating-point grey": lambda: _float((40, 50), "minisblack"),
    "Lab of 8 bits": lambda: _lab(8),
    "Lab of 16 bits": lambda: _lab(16),
    # TIFF 6.0, section 8: FillOrder 2 reverses the bits of each byte; TIFF Technical Note 3: predictor 3 is
    # that of floating-point numbers.
    "bits of each byte reversed": lambda: _stored(266, 2),
    "the predictor of floating-point numbers": lambda: _stored(317, 3, 8),
    "seven channels of 8 bits": lambda: _channels(7, 8),
    "seven channels of 16 bits": lambda: _channels(7, 16),
}


@pytest.mark.parametrize("name", BAD)
def test_it_is_refused_in_one_sentence_and_a_remedy(name: str) -> None:
    with pytest.raises(PictureError) as caught:
        read_picture(BAD[name](), file="bad.tif")
    said = caught.value.message
    assert said.startswith("The picture must be ")
    assert re.search(r"\.\s", said.rstrip(".")) is None, said
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 260


def test_the_remedy_is_in_the_language_in_use() -> None:
    with speaking("de"):
        with pytest.raises(PictureError) as caught:
            read_picture(_channels(7, 16), file="bad.tif")
        assert "ein TIFF, darin 7 Kanäle" in caught.value.message
    assert caught.value.remedy == "exportieren Sie das Bild als RGB mit 8 oder 16 Bit"


@pytest.mark.parametrize("name", BAD)
def test_nothing_is_written_of_it(name: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "bad.tif").write_bytes(BAD[name]())
    asked = ["print", str(tmp_path / "bad.tif"), "--out", str(tmp_path / "out.tif"), "--set", "print.bits=16"]
    assert main(asked) == 2
    assert [one.name for one in tmp_path.iterdir()] == ["bad.tif"]
    # Of the file's descriptor: libraries write there by themselves.
    assert len(capfd.readouterr().err.strip().splitlines()) == 1


@pytest.mark.parametrize("compression", [1, 5, 8])
@pytest.mark.parametrize("share", [0.05, 0.3, 0.6, 0.9, 0.999])
def test_a_tiff_cut_anywhere_is_read_whole_or_refused(compression: int, share: float) -> None:
    """Derived: its directory stands at its end, so that nothing but the whole file can be read."""
    data = _tiff(compression)
    with pytest.raises(PictureError):
        read_picture(data[: int(len(data) * share)], file="cut.tif")


@pytest.mark.parametrize("bits", [8, 16])
def test_five_channels_are_colours_and_two_that_are_none(bits: int) -> None:
    picture = read_picture(_channels(5, bits), file="five.tif")
    assert picture.image.mode == "RGB"
    assert "picture-channels" in [note.code for note in picture.info.notes]


def test_a_whole_png_is_read() -> None:
    """The test of cut files can fail: the whole file is sound."""
    picture = read_picture(_png(), file="whole.png")
    assert picture.deep is not None
    assert np.array_equal(picture.deep.read(), _NOISE)
    with Image.open(io.BytesIO(_png())) as image:
        assert image.size == (50, 40)
