"""Reading pictures of every kind that is read, and saying what was done."""

from __future__ import annotations

import io

import numpy as np
import pytest
import tifffile
from PIL import Image, ImageCms

from pycore.errors import PictureError
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from tests.shipped_photographs import shipped_photograph


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


@pytest.mark.parametrize(
    ("kind", "options", "named"),
    [("PNG", {}, "PNG"), ("TIFF", {}, "TIFF"), ("TIFF", {"compression": "tiff_lzw"}, "TIFF"),
     ("WEBP", {"lossless": True}, "WebP")],
)  # fmt: skip
def test_lossless_formats_give_the_pixels_back(kind: str, options: dict[str, object], named: str) -> None:
    picture = read_picture(_file(_ramp(), kind, **options), file="ramp")
    assert picture.info.format == named
    assert (picture.info.width_px, picture.info.height_px, picture.channels) == (31, 24, 3)
    assert picture.image.tobytes() == _ramp().tobytes()
    assert _codes(picture) == ["profile-assumed"]


def test_jpeg() -> None:
    picture = read_picture(_file(_ramp(), "JPEG", quality=95), file="ramp.jpg")
    assert (picture.info.format, picture.info.mode, picture.image.mode) == ("JPEG", "RGB", "RGB")
    # Regression: JPEG at quality 95 with halved chroma stays this near on a smooth ramp.
    difference = np.asarray(picture.image).astype(int) - np.asarray(_ramp())
    assert np.abs(difference).mean() < 2


@pytest.mark.parametrize("kind", ["JPEG", "TIFF"])
def test_cmyk_keeps_its_inks(kind: str) -> None:
    """Derived: 0 is no ink in Pillow's CMYK, whichever way round the file has it (Adobe's JPEG: inverted)."""
    source = Image.new("CMYK", (16, 16), (200, 100, 50, 25))
    picture = read_picture(_file(source, kind, **({"quality": 100} if kind == "JPEG" else {})), file="inks")
    assert (picture.info.mode, picture.image.mode, picture.channels) == ("CMYK", "CMYK", 4)
    pixel = picture.image.getpixel((8, 8))
    assert isinstance(pixel, tuple)
    assert np.abs(np.array(pixel) - (200, 100, 50, 25)).max() <= 1
    assert "profile-missing" in _codes(picture)
    assert picture.linear is None


def test_a_cmyk_jpeg_that_leaves_its_inks_open_is_told_of() -> None:
    """Derived: Pillow writes the marker APP14 (T.872, 6.5.3), whose segment has 2 + 14 bytes."""
    marked = _file(Image.new("CMYK", (16, 16), (200, 100, 50, 25)), "JPEG", quality=100)
    start = marked.index(b"\xff\xee\x00\x0eAdobe")
    bare = marked[:start] + marked[start + 16 :]
    told = [_codes(read_picture(data, file="inks.jpg")).count("picture-inks") for data in (marked, bare)]
    assert told == [0, 1]
    # Both are read the same way round.
    assert (
        read_picture(bare, file="a.jpg").image.tobytes() == read_picture(marked, file="a.jpg").image.tobytes()
    )


def test_only_the_first_of_several_frames_is_taken() -> None:
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "lime")]
    for kind in ("TIFF", "WEBP", "PNG"):
        options: dict[str, object] = {"save_all": True, "append_images": frames[1:]}
        if kind == "WEBP":
            options["lossless"] = True
        picture = read_picture(_file(frames[0], kind, **options), file=f"many.{kind.lower()}")
        assert picture.image.getpixel((3, 3)) == (255, 0, 0)
        assert "picture-frames" in _codes(picture)
        assert "2 pictures" in picture.info.notes[0].message


def test_the_content_decides_and_a_lying_name_is_named() -> None:
    picture = read_picture(_file(_ramp(), "PNG"), file="ramp.jpg")
    assert picture.info.format == "PNG"
    note = next(note for note in picture.info.notes if note.code == "picture-name")
    assert ".jpg" in note.message
    assert "PNG" in note.message


@pytest.mark.parametrize(
    ("data", "got"),
    [
        (b"", "0 bytes"),
        (b"not a picture at all, but a letter to a friend", "none of these"),
        (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj", "it is a PDF"),
        (b"GIF89a\x01\x00\x01\x00\x80\x00\x00", "it is a GIF"),
    ],
)
def test_what_is_no_picture_is_one_clear_error(data: bytes, got: str) -> None:
    with pytest.raises(PictureError, match=got) as caught:
        read_picture(data, file="letter.jpg")
    assert caught.value.field == "picture.file"
    assert caught.value.code == "picture"


@pytest.mark.native
def test_a_real_photograph_with_its_profile() -> None:
    """Published: scikit-learn's `china.jpg` is 640 x 427; its profile calls itself sRGB IEC61966-2.1.

    That profile's header holds the rendering intent in the wrong byte order, as many of its kind do.
    """
    file = shipped_photograph("china")
    picture = read_picture(file.read_bytes(), file=file.name)
    assert (picture.width_px, picture.height_px) == (640, 427)
    assert picture.info.profile_name == "sRGB IEC61966-2.1"
    assert not picture.info.profile_assumed
    assert picture.info.notes == []
    with Image.open(file) as plain:
        assert picture.profile == plain.info["icc_profile"]
        # Its chroma is turned into RGB here: a tie may be rounded otherwise.
        assert np.abs(np.asarray(picture.image).astype(int) - np.asarray(plain)).max() <= 1


@pytest.mark.native
def test_the_profile_is_kept_byte_for_byte_in_every_format() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for kind in ("JPEG", "PNG", "TIFF", "WEBP"):
        picture = read_picture(_file(_ramp(), kind, icc_profile=profile), file="ramp")
        assert picture.profile == profile
        assert _codes(picture) == []


def test_a_sound_tiff_of_another_kind_of_pixel_is_not_called_no_picture() -> None:
    out = io.BytesIO()
    tifffile.imwrite(out, np.zeros((4, 5, 3), np.float32), photometric="rgb")
    with pytest.raises(PictureError, match=r"floating-point numbers \(32 bits\)") as caught:
        read_picture(out.getvalue(), file="light.tif")
    assert "8 or 16 bits" in caught.value.remedy
