"""Channels beside the colours: each by its tag, with 16 bits as with 8; or refused in one sentence."""

from __future__ import annotations

import io
import struct

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.deep_tones import widened
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture

from .made_tiff import made_tiff

#: Photometric interpretation (TIFF 6.0): 1 grey, 2 RGB, 5 separated; ExtraSamples: 0 none of these, 1
#: associated, 2 unassociated alpha; None: without the tag.
READ = [
    (1, 1, (0,)), (1, 1, (1,)), (1, 1, (2,)),
    (2, 3, (0,)), (2, 3, (1,)), (2, 3, (2,)), (2, 3, None), (2, 3, (999,)),
    (2, 3, (0, 0)), (2, 3, (1, 0)), (2, 3, (2, 0)), (2, 3, (0, 2)),
    (2, 3, (0, 0, 0)),
    (5, 4, (0,)), (5, 4, (1,)), (5, 4, (2,)), (5, 4, (0, 0)),
]  # fmt: skip


def _stored(colours: int, extra: tuple[int, ...] | None) -> npt.NDArray[np.uint8]:
    """Every depth of transparency beside colours; where it is associated they have been multiplied by it."""
    count = 1 if extra is None else len(extra)
    values = np.random.default_rng(8).integers(0, 256, (16, 32, colours + count), dtype=np.uint8)
    for place, kind in enumerate(extra or (2,)):
        values[..., colours + place] = np.arange(512).reshape(16, 32) // 2
        if kind == 1:
            alpha = values[..., colours + place, np.newaxis].astype(int)
            values[..., :colours] = (values[..., :colours] * alpha + 127) // 255
    return values


def _read(
    values: npt.NDArray[np.uint8], photometric: int, extra: tuple[int, ...] | None, bits: int
) -> SourcePicture:
    stored = values if bits == 8 else widened(values)
    data = made_tiff(
        [stored.tobytes()],
        size=(32, 16),
        channels=values.shape[2],
        photometric=photometric,
        extra=extra,
        bits=bits,
    )
    return read_picture(data, file=f"{bits}.tif")


@pytest.mark.parametrize(("photometric", "colours", "extra"), READ)
def test_16_bits_are_read_as_8_are(photometric: int, colours: int, extra: tuple[int, ...] | None) -> None:
    """Derived: the same values, each 257 times as large, are the same picture."""
    values = _stored(colours, extra)
    eight, sixteen = (_read(values, photometric, extra, bits) for bits in (8, 16))
    assert sixteen.image.mode == eight.image.mode
    difference = np.asarray(sixteen.image).astype(int) - np.asarray(eight.image)
    # Of colours that are multiplied already, whole levels are added: nothing is rounded twice.
    assert np.abs(difference).max() <= (0 if extra is not None and 1 in extra else 1)
    told = [{note.code for note in one.info.notes} - {"picture-bits"} for one in (eight, sixteen)]
    assert told[0] == told[1]
    assert sixteen.info.mode == f"{eight.info.mode}, 16 bits"


@pytest.mark.parametrize(("photometric", "colours", "extra"), READ)
def test_each_kind_is_what_its_tag_says(
    photometric: int, colours: int, extra: tuple[int, ...] | None
) -> None:
    """Derived, TIFF 6.0, section 18: a selection changes nothing; associated colours hold the alpha."""
    values = _stored(colours, extra)
    picture = _read(values, photometric, extra, 16)
    assert picture.deep is not None
    shown = picture.deep.read() / 65535
    colour = values[..., :colours] / 255
    white = 0.0 if photometric == 5 else 1.0
    kinds = (2,) if extra is None else extra
    transparent = [place for place, kind in enumerate(kinds) if kind]
    if transparent:
        alpha = values[..., colours + transparent[0], np.newaxis] / 255
        colour = colour * (1 if kinds[transparent[0]] == 1 else alpha) + white * (1 - alpha)
    assert np.abs(shown - colour).max() <= 0.5 / 65535 + 1e-9
    assert ("picture-channels" in [note.code for note in picture.info.notes]) == (0 in kinds)


@pytest.mark.parametrize(
    ("photometric", "channels", "extra", "got"),
    [
        (2, 4, (0, 0), "1 channel beside the colours and 2 named"),
        (2, 5, (2,), "2 channels beside the colours and 1 named"),
        (2, 5, (2, 2), "two channels that both say they are the transparency"),
        (2, 5, (1, 2), "two channels that both say they are the transparency"),
        (2, 4, (7,), "unknown kind 7"),
        (2, 2, None, "2 channels for RGB, which has 3"),
        (2, 7, (0, 0, 0, 0), "7 channels, 4 more than RGB has"),
        (1, 5, (0, 0, 0, 0), "5 channels, 4 more than grey has"),
        (5, 7, (0, 0, 0), "7 channels, 3 more than CMYK has"),
        (8, 3, None, "CIELAB values of 16 bits"),
        (6, 3, None, "YCbCr values of 16 bits"),
        (32844, 1, None, "LogL values of 16 bits"),
    ],
)
def test_what_contradicts_itself_or_is_no_picture_is_refused_in_one_sentence(
    photometric: int, channels: int, extra: tuple[int, ...] | None, got: str
) -> None:
    values = np.zeros((6, 5, channels), np.uint16)
    data = made_tiff([values.tobytes()], size=(5, 6), channels=channels, photometric=photometric, extra=extra)
    with pytest.raises(PictureError, match=got) as caught:
        read_picture(data, file="odd.tif")
    assert caught.value.field == "picture.file"
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("channels", "bits", "format_number", "got"),
    [(3, 16, 3, "floating-point numbers"), (3, 32, 3, "floating-point numbers"), (3, 16, 2, "signed numbers"),
     (3, 32, 1, "channels of 32 bits"), (3, 12, 1, "channels of 12 bits"), (1, 12, 1, "channels of 12 bits"),
     (1, 8, 2, "signed numbers"), (1, 16, 2, "signed numbers"), (1, 32, 1, "channels of 32 bits")],
)  # fmt: skip
def test_other_numbers_are_refused(channels: int, bits: int, format_number: int, got: str) -> None:
    """Published: TIFF 6.0, section 19: SampleFormat 1 is unsigned, 2 signed, 3 floating-point."""
    piece = bytes(6 * 5 * channels * bits // 8)
    more = ((339, 3, (format_number,) * channels),)
    photometric = 2 if channels == 3 else 1
    data = made_tiff([piece], size=(5, 6), channels=channels, photometric=photometric, bits=bits, more=more)
    with pytest.raises(PictureError, match=got):
        read_picture(data, file="numbers.tif")


@pytest.mark.parametrize("channels", [1, 3])
@pytest.mark.parametrize("kind", [np.uint8, np.uint16])
def test_numbers_of_which_nothing_is_said_are_unsigned(
    channels: int, kind: type[np.uint8] | type[np.uint16]
) -> None:
    """Published: TIFF 6.0, section 19: SampleFormat 4 is treated as if the tag were not there."""
    values = np.random.default_rng(4).integers(0, 256, (6, 5, channels)).astype(kind)
    data = made_tiff(
        [values.tobytes()], size=(5, 6), channels=channels, photometric=2 if channels == 3 else 1,
        bits=8 * values.itemsize, more=((339, 3, (4,) * channels),),
    )  # fmt: skip
    picture = read_picture(data, file="numbers.tif")
    if picture.deep is None:
        assert np.array_equal(np.asarray(picture.image).reshape(values.shape), values)
    else:
        assert np.array_equal(picture.deep.read(), values)


@pytest.mark.parametrize(
    ("compression", "name"),
    [(50000, "ZSTD"), (50001, "WebP"), (50002, "JPEG XL"), (34887, "LERC"), (34712, "JPEG 2000"),
     (34925, "LZMA"), (6, "JPEG")],
)  # fmt: skip
@pytest.mark.parametrize("bits", [8, 16])
def test_what_nothing_here_unpacks_is_not_called_damaged(bits: int, compression: int, name: str) -> None:
    data = bytearray(made_tiff([bytes(6 * 5 * 3 * bits // 8)], size=(5, 6), channels=3, bits=bits))
    # The entry of tag 259, a SHORT.
    at = bytes(data).index(struct.pack("<HHI", 259, 3, 1)) + 8
    data[at : at + 2] = struct.pack("<H", compression)
    with pytest.raises(PictureError, match=f"pixels of the compression {name}"):
        read_picture(bytes(data), file="packed.tif")


def test_luma_and_chroma_are_refused_where_pillow_calls_them_damaged() -> None:
    """Published: TIFF 6.0, section 21: interpretation 6; Pillow reads it where it unpacks it."""
    with Image.new("RGB", (5, 6), (200, 40, 40)) as red:
        out = io.BytesIO()
        red.convert("YCbCr").save(out, "TIFF")
        with pytest.raises(PictureError, match="YCbCr values of 8 bits"):
            read_picture(out.getvalue(), file="luma.tif")
        out = io.BytesIO()
        red.convert("YCbCr").save(out, "TIFF", compression="tiff_lzw")
        picture = read_picture(out.getvalue(), file="luma.tif")
    assert np.allclose(np.asarray(picture.image)[..., :3], (200, 40, 40), atol=2)


def test_inks_of_16_bits_without_a_profile_are_read_with_a_note() -> None:
    wide = np.random.default_rng(3).integers(0, 65536, (6, 5, 4), dtype=np.uint16)
    picture = read_picture(
        made_tiff([wide.tobytes()], size=(5, 6), channels=4, photometric=5), file="inks.tif"
    )
    assert picture.deep is not None
    assert (picture.deep.read() == wide).all()
    assert [note.code for note in picture.info.notes] == ["picture-bits", "profile-missing"]


@pytest.mark.parametrize("bits", [8, 16])
def test_inks_that_are_not_those_of_cmyk_are_refused_at_either_depth(bits: int) -> None:
    inks = made_tiff(
        [bytes(6 * 5 * 4 * bits // 8)],
        size=(5, 6),
        channels=4,
        photometric=5,
        bits=bits,
        more=((332, 3, (2,)),),
    )
    with pytest.raises(PictureError, match="inks other than cyan"):
        read_picture(inks, file="inks.tif")


def test_colours_that_are_not_named_or_not_known_are_refused_in_one_sentence() -> None:
    def tiff(photometric: int) -> bytes:
        return made_tiff([bytes(6 * 5 * 3 * 2)], size=(5, 6), channels=3, photometric=photometric)

    # The entry of tag 262 becomes one of a private tag; tags need not be in order to be read.
    nameless = tiff(2).replace(struct.pack("<HHI", 262, 3, 1), struct.pack("<HHI", 65000, 3, 1))
    with pytest.raises(PictureError, match="one with values of 16 bits that are not said to be grey, RGB"):
        read_picture(nameless, file="nameless.tif")
    with pytest.raises(PictureError, match=r"a TIFF with colours of the unknown kind 77\. Export"):
        read_picture(tiff(77), file="other.tif")
