"""From the many pixel kinds of files to grey, RGB and CMYK."""

from __future__ import annotations

import io
import zlib

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.speech import speaking


def _ramp() -> Image.Image:
    """31 x 24 pixels, no two alike."""
    rows, columns = np.mgrid[0:24, 0:31]
    return Image.fromarray(np.stack([columns * 8, rows * 10, columns + rows], axis=2).astype(np.uint8))


def _file(image: Image.Image, kind: str, **options: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def _codes(picture: SourcePicture) -> list[str]:
    return [note.code for note in picture.info.notes]


@pytest.mark.parametrize(("mode", "named", "kept"), [("L", "grey", "L"), ("1", "black and white", "L")])
def test_grey_stays_grey(mode: str, named: str, kept: str) -> None:
    source = _ramp().convert(mode)
    picture = read_picture(_file(source, "PNG"), file="grey.png")
    assert (picture.info.mode, picture.image.mode, picture.channels) == (named, kept, 1)
    assert picture.image.tobytes() == source.convert("L").tobytes()


def test_palette_becomes_rgb() -> None:
    source = _ramp().convert("P")
    picture = read_picture(_file(source, "PNG"), file="palette.png")
    assert (picture.info.mode, picture.image.mode) == ("palette", "RGB")
    assert picture.image.tobytes() == source.convert("RGB").tobytes()


def test_alpha_is_laid_over_white_with_a_warning() -> None:
    """Derived: value 100 under alpha 51 (a fifth) over white: 255 + (100 - 255) / 5 = 224."""
    source = Image.new("RGBA", (4, 3), (100, 100, 100, 51))
    picture = read_picture(_file(source, "PNG"), file="glass.png")
    assert picture.info.mode == "RGB with alpha"
    assert picture.image.getpixel((0, 0)) == (224, 224, 224)
    assert _codes(picture) == ["picture-alpha", "profile-assumed"]
    assert picture.info.notes[0].severity == "watch"


def test_alpha_that_hides_nothing_is_not_worth_a_note() -> None:
    picture = read_picture(_file(Image.new("RGBA", (4, 3), (9, 8, 7, 255)), "PNG"), file="a.png")
    assert _codes(picture) == ["profile-assumed"]
    assert picture.image.getpixel((0, 0)) == (9, 8, 7)


@pytest.mark.parametrize("mode", ["LA", "P", "L", "RGB"])
def test_transparency_in_its_other_guises(mode: str) -> None:
    """Derived: what is wholly transparent is canvas white, 255."""
    if mode == "LA":
        data = _file(Image.new("LA", (4, 3), (10, 0)), "PNG")
    else:
        colours: dict[str, int | tuple[int, ...]] = {"P": 0, "L": 10, "RGB": (10, 20, 30)}
        colour = colours[mode]
        data = _file(Image.new(mode, (4, 3), colour), "PNG", transparency=colour)
    picture = read_picture(data, file="clear.png")
    assert "with alpha" in picture.info.mode
    german = {"LA": "Grau", "P": "Palette", "L": "Grau", "RGB": "RGB"}[mode]
    with speaking("de"):
        assert read_picture(data, file="clear.png").info.mode == f"{german} mit Alpha"
    assert picture.image.getextrema() in {(255, 255), ((255, 255),) * 3}
    assert "picture-alpha" in _codes(picture)


def _grey_png(codes: npt.NDArray[np.uint8], *, bits: int, transparent: int) -> bytes:
    """A PNG of grey of few bits, one of whose values is transparent (PNG, third edition, 11.3.1.1)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    rows, columns = codes.shape
    places = (codes[..., np.newaxis] >> np.arange(bits - 1, -1, -1)) & 1
    packed = np.packbits(places.reshape(rows, -1).astype(np.uint8), axis=1)
    head = columns.to_bytes(4, "big") + rows.to_bytes(4, "big") + bytes([bits, 0, 0, 0, 0])
    parts = [
        chunk(b"IHDR", head),
        chunk(b"tRNS", transparent.to_bytes(2, "big")),
        chunk(b"IDAT", zlib.compress(b"".join(b"\0" + row.tobytes() for row in packed))),
        chunk(b"IEND", b""),
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


@pytest.mark.parametrize("bits", [1, 2, 4, 8])
def test_the_transparent_grey_is_found_at_every_depth(bits: int) -> None:
    """Derived: values are widened to 255 / (2^bits - 1) of them; the transparent one is canvas white."""
    top = 2**bits - 1
    codes = np.arange(0, 256, 4, np.uint8).reshape(4, 16) >> np.uint8(8 - bits)
    for transparent in {0, 1, top // 2}:
        picture = read_picture(_grey_png(codes, bits=bits, transparent=transparent), file="grey.png")
        expected = np.where(codes == transparent, 255, codes * (255 // top))
        assert (np.asarray(picture.image) == expected).all()
        assert ("picture-alpha" in _codes(picture)) == (transparent in codes)
        assert picture.info.mode.endswith("with alpha")


@pytest.mark.parametrize(
    ("mode", "got"),
    [("F", "a TIFF with floating-point"), ("I", "a TIFF with signed"), ("LAB", "of the pixel kind LAB")],
)
def test_values_that_are_no_8_or_16_bit_colours_are_refused(mode: str, got: str) -> None:
    source = Image.new(mode, (5, 4))
    with pytest.raises(PictureError, match=got):
        read_picture(_file(source, "TIFF"), file="numbers.tif")
