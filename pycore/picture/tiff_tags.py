"""What a TIFF's tags say of its pixels: which channels, how deep, how stored; or one sentence why not."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING, Any, Final

from pycore.errors import PictureError
from pycore.picture.guard import picture_error
from pycore.speech import join_said, say

if TYPE_CHECKING:
    from tifffile import TiffPage


class Tag(IntEnum):
    """Tags by their numbers (TIFF 6.0, appendix A; the profile's: ICC.1, annex B)."""

    IMAGE_WIDTH = 256
    IMAGE_LENGTH = 257
    BITS_PER_SAMPLE = 258
    COMPRESSION = 259
    PHOTOMETRIC = 262
    FILL_ORDER = 266
    STRIP_OFFSETS = 273
    ORIENTATION = 274
    SAMPLES_PER_PIXEL = 277
    ROWS_PER_STRIP = 278
    STRIP_BYTE_COUNTS = 279
    PLANAR_CONFIGURATION = 284
    PREDICTOR = 317
    TILE_WIDTH = 322
    TILE_LENGTH = 323
    TILE_OFFSETS = 324
    TILE_BYTE_COUNTS = 325
    INK_SET = 332
    EXTRA_SAMPLES = 338
    SAMPLE_FORMAT = 339
    JPEG_TABLES = 347
    PROFILE = 34675


#: Numbers of bits that a message names.
_MOST_NAMED = 4

#: Photometric interpretation (TIFF 6.0, section 8): channels of colour, and the mode that a picture has here.
_COLOURS: Final = {0: (1, "L"), 1: (1, "L"), 2: (3, "RGB"), 5: (4, "CMYK")}

_WORDS: Final = {"L": say("grey"), "RGB": "RGB", "CMYK": "CMYK"}

_WHITE_IS_ZERO: Final = 0
SEPARATED: Final = 5
LUMA_CHROMA: Final = 6

#: InkSet (section 16): cyan, magenta, yellow and black, or others.
CMYK_INKS: Final = 1

#: Other interpretations by name, for the message (TIFF 6.0; TIFF/EP; DNG).
_OTHER_COLOURS: Final = {
    3: say("palette"), 4: say("a mask"), LUMA_CHROMA: "YCbCr", 8: "CIELAB", 9: "ICC Lab", 10: "ITU Lab",
    32803: say("a camera sensor's mosaic"), 32844: "LogL", 32845: "LogLuv",
    34892: say("linear camera values"),
}  # fmt: skip

#: SampleFormat (section 19): unsigned numbers, and values of which nothing is said, to be taken for such.
_UNSIGNED: Final = (1, 4)
SIGNED: Final = 2
_FORMATS: Final = {
    SIGNED: say("signed numbers"),
    3: say("floating-point numbers"),
    5: say("complex numbers"),
    6: say("complex numbers"),
}

#: How many further channels are read beside each number of colours, as Pillow reads them with 8 bits.
_MOST_EXTRA: Final = {1: 1, 3: 3, 4: 2}

#: ExtraSamples (section 18): what a further channel is.
UNSPECIFIED: Final = 0
ASSOCIATED: Final = 1
UNASSOCIATED: Final = 2

#: Common practice: a number of older files for an unassociated channel, which Pillow reads with 8 bits.
_FORMERLY_UNASSOCIATED: Final = 999

#: Compressions that are read: none, LZW, JPEG, deflate by its two numbers, PackBits.
NONE: Final = 1
LZW: Final = 5
JPEG: Final = 7
DEFLATES: Final = frozenset({8, 32946})
PACKBITS: Final = 32773

#: Of these the values are read by `pycore.picture.tiff_values`; of others by Pillow, with 8 bits, and of JPEG
#: strip by strip by `pycore.picture.jpeg_tiff`.
UNPACKED: Final = frozenset({NONE, LZW, PACKBITS, *DEFLATES})

_PLAIN, _HORIZONTAL = 1, 2

#: Compressions that are named in a refusal (TIFF 6.0, section 22, and the supplements), and those that Pillow
#: unpacks on no machine or only on some.
_COMPRESSION_NAMES: Final = {
    6: "JPEG", JPEG: "JPEG", 34712: "JPEG 2000", 34887: "LERC", 34925: "LZMA", 50000: "ZSTD", 50001: "WebP",
    50002: "JPEG XL",
}  # fmt: skip
_UNREAD: Final = frozenset({6, 34712, 34887, 34925, 50000, 50001, 50002})


@dataclass(frozen=True, kw_only=True)
class Alpha:
    """Where the transparency is, and of which kind.

    Attributes
    ----------
    channel : int
        Counted from 0, after the colours.
    is_associated : bool
        The colours have been multiplied by it.
    """

    channel: int
    is_associated: bool


@dataclass(frozen=True, kw_only=True)
class TiffPixels:
    """The pixels of a TIFF's first page, by its tags.

    Attributes
    ----------
    mode : str
        L, RGB or CMYK: what the colours are.
    colours, channels : int
        Of colour, and in all.
    alpha : Alpha or None
    is_inverted : bool
        White is zero.
    bits : int
        8 or 16.
    """

    mode: str
    colours: int
    channels: int
    alpha: Alpha | None
    is_inverted: bool
    bits: int


def tiff_pixels(page: TiffPage) -> TiffPixels:
    """Read a page's tags.

    Parameters
    ----------
    page : TiffPage

    Returns
    -------
    TiffPixels

    Raises
    ------
    PictureError
        The tags contradict one another, or say what is not read here.

    References
    ----------
    TIFF 6.0: sections 8 (photometric interpretation), 16 (InkSet), 18 (ExtraSamples), 19 (SampleFormat).
    """
    bits = _bits(page)
    format_number = int(_first(page, Tag.SAMPLE_FORMAT, 1))
    if format_number not in _UNSIGNED:
        raise _refused(
            say(
                "{formats} ({bits} bits)",
                formats=_FORMATS.get(format_number, say("values of an unknown kind")),
                bits=max(bits),
            )
        )
    if len(set(bits)) != 1 or bits[0] not in (8, 16):
        kinds = [str(one) for one in dict.fromkeys(bits)]
        several = (
            join_said(kinds, say(" and ")) if len(kinds) <= _MOST_NAMED else say("many different numbers of")
        )
        raise _refused(say("channels of {several} bits", several=several))
    if Tag.PHOTOMETRIC not in page.tags:
        raise _contradiction(
            say("values of {bits0} bits that are not said to be grey, RGB or CMYK", bits0=bits[0])
        )
    photometric = int(_first(page, Tag.PHOTOMETRIC, -1))
    if photometric not in _COLOURS:
        name = _OTHER_COLOURS.get(photometric)
        if name is None:
            raise _refused(say("colours of the unknown kind {number}", number=photometric))
        raise _refused(say("{name} values of {bits0} bits", name=name, bits0=bits[0]))
    colours, mode = _COLOURS[photometric]
    if photometric == SEPARATED and int(_first(page, Tag.INK_SET, CMYK_INKS)) != CMYK_INKS:
        raise _refused(say("inks other than cyan, magenta, yellow and black"))
    channels = int(page.samplesperpixel)
    if channels < colours:
        raise _contradiction(
            say(
                "{counted} for {words}, which has {colours}",
                counted=_counted(channels),
                words=_WORDS[mode],
                colours=colours,
            )
        )
    if len(bits) not in (1, channels):
        raise _contradiction(
            say("{counted} and the depths of {bit_count}", counted=_counted(channels), bit_count=len(bits))
        )
    if channels - colours > _MOST_EXTRA[colours]:
        raise _refused(
            say(
                "{channels} channels, {channels2} more than {words} has",
                channels=channels,
                channels2=channels - colours,
                words=_WORDS[mode],
            )
        )
    return TiffPixels(
        mode=mode,
        colours=colours,
        channels=channels,
        alpha=_alpha(page, colours, channels),
        is_inverted=photometric == _WHITE_IS_ZERO,
        bits=bits[0],
    )


def check_storage(page: TiffPage) -> None:
    """Refuse pixels that are packed or predicted in a way that is not read here.

    Parameters
    ----------
    page : TiffPage

    Raises
    ------
    PictureError
        Its compression, its predictor or its order of bits.
    """
    compression = int(_first(page, Tag.COMPRESSION, NONE))
    if compression not in UNPACKED:
        raise packed_error(compression)
    if int(_first(page, Tag.PREDICTOR, _PLAIN)) not in (_PLAIN, _HORIZONTAL):
        raise _refused(say("16-bit pixels with the predictor of floating-point numbers"))
    if int(_first(page, Tag.FILL_ORDER, 1)) != 1:
        raise _refused(say("16-bit pixels with the bits of each byte reversed"))


def check_compression(compression: int) -> None:
    """Refuse, of pixels that Pillow unpacks, those that it cannot unpack everywhere.

    Parameters
    ----------
    compression : int
        By its number.

    Raises
    ------
    PictureError
        Nothing reads it here.

    Examples
    --------
    >>> check_compression(5)
    """
    if compression in _UNREAD:
        raise packed_error(compression)


def packed_error(compression: int) -> PictureError:
    """What a refusal says of pixels that are packed in a way that is not read here.

    Parameters
    ----------
    compression : int
        By its number.

    Returns
    -------
    PictureError
    """
    name = _COMPRESSION_NAMES.get(compression, str(compression))
    return _refused(
        say("pixels of the compression {compression}", compression=name), remedy=say("export it uncompressed")
    )


def is_predicted(page: TiffPage) -> bool:
    """Whether values are stored as differences from the pixel before (TIFF 6.0, section 14).

    Parameters
    ----------
    page : TiffPage

    Returns
    -------
    bool
    """
    return int(_first(page, Tag.PREDICTOR, _PLAIN)) == _HORIZONTAL


def compression_of(page: TiffPage) -> int:
    """The compression's number (TIFF 6.0, section 3, and its supplements).

    Parameters
    ----------
    page : TiffPage

    Returns
    -------
    int
    """
    return int(_first(page, Tag.COMPRESSION, NONE))


def _alpha(page: TiffPage, colours: int, channels: int) -> Alpha | None:
    extra = _values(page, Tag.EXTRA_SAMPLES)
    if extra is None:
        # Without the tag a fourth channel of RGB is taken for transparency, as readers of 8 bits take it.
        is_alpha = colours == 3 and channels == 4
        return Alpha(channel=colours, is_associated=False) if is_alpha else None
    if len(extra) != channels - colours:
        raise _contradiction(
            say(
                "{counted} beside the colours and {extra_count} named",
                counted=_counted(channels - colours),
                extra_count=len(extra),
            )
        )
    extra = tuple(UNASSOCIATED if kind == _FORMERLY_UNASSOCIATED else kind for kind in extra)
    unknown = [kind for kind in extra if kind not in (UNSPECIFIED, ASSOCIATED, UNASSOCIATED)]
    if unknown:
        raise _contradiction(say("a further channel of the unknown kind {unknown0}", unknown0=unknown[0]))
    found = [place for place, kind in enumerate(extra) if kind != UNSPECIFIED]
    if len(found) > 1:
        raise _contradiction(say("two channels that both say they are the transparency"))
    if not found:
        return None
    return Alpha(channel=colours + found[0], is_associated=extra[found[0]] == ASSOCIATED)


def _bits(page: TiffPage) -> tuple[int, ...]:
    return tuple(int(one) for one in _values(page, Tag.BITS_PER_SAMPLE) or (1,))


def _values(page: TiffPage, tag: Tag) -> tuple[Any, ...] | None:
    found = page.tags.get(tag)
    if found is None:
        return None
    value = found.value
    return tuple(value) if isinstance(value, tuple | list) else (value,)


def _first(page: TiffPage, tag: Tag, default: int) -> Any:
    values = _values(page, tag)
    return values[0] if values else default


def _refused(got: str, *, remedy: str = "") -> PictureError:
    return picture_error(
        expected=say("grey, RGB or CMYK with 8 or 16 bits"),
        got=say("a TIFF with {got}", got=got),
        remedy=remedy or say("export the picture as RGB with 8 or 16 bits"),
    )


def _contradiction(got: str) -> PictureError:
    return picture_error(
        expected=say("a TIFF whose tags agree about its channels"),
        got=say("one with {got}", got=got),
        remedy=say("export the picture again"),
    )


def _counted(channels: int) -> str:
    return say("1 channel") if channels == 1 else say("{channels} channels", channels=channels)
