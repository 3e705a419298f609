"""Reading a picture file: one upright picture of 8 bits and the way to its 16, or one clear error."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace

from PIL import Image, UnidentifiedImageError

from pycore.contract.notes import Note
from pycore.errors import PictureError
from pycore.picture.deep import DeepFile, open_deep_png, open_deep_tiff, oriented
from pycore.picture.embedded import embedded_profile
from pycore.picture.file_notes import (
    about_bits,
    about_colours,
    about_frames,
    about_further,
    about_inks,
    about_name,
    about_orientation,
    about_pixels,
    about_thumbnail,
    about_warnings,
)
from pycore.picture.flatten import alpha_notes, flatten, mode_name
from pycore.picture.guard import check_pixel_count, decoding, picture_error
from pycore.picture.info import PictureInfo
from pycore.picture.jpeg_tiff import unpack_jpeg
from pycore.picture.kinds import is_thumbnail_first, unread_kind
from pycore.picture.named_space import NamedSpace, space_by_exif
from pycore.picture.orientation import orientation_of, set_upright
from pycore.picture.pixel_shape import pixel_shape
from pycore.picture.png_colours import PngColours, png_colours
from pycore.picture.source import SourcePicture as SourcePicture
from pycore.picture.tiff_tags import (
    ASSOCIATED,
    CMYK_INKS,
    LUMA_CHROMA,
    NONE,
    SEPARATED,
    SIGNED,
    UNPACKED,
    Tag,
    check_compression,
)
from pycore.picture.truncation import check_whole
from pycore.picture.ycc import ask_for_ycc
from pycore.speech import say

#: Pillow's names of the formats and ours. A JPEG with several frames is an MPO to Pillow.
_FORMATS = {"JPEG": "JPEG", "MPO": "JPEG", "PNG": "PNG", "TIFF": "TIFF", "WEBP": "WebP"}

#: PNG (third edition) 5.2; ITU-T T.81 B.1.1.3 (SOI, then a marker); TIFF 6.0 section 2, and BigTIFF's 43.
_SIGNATURES = (
    (b"\x89PNG\r\n\x1a\n", "PNG"),
    (b"\xff\xd8\xff", "JPEG"),
    (b"II*\0", "TIFF"),
    (b"MM\0*", "TIFF"),
    (b"II+\0", "TIFF"),
    (b"MM\0+", "TIFF"),
)


def read_picture(data: bytes, *, file: str) -> SourcePicture:
    """Read a picture.

    The content decides what kind of file it is, not its name. Pictures are set upright by their EXIF
    orientation; transparency is laid over white; 16 bits are rounded to 8; an embedded profile is kept byte
    for byte. The notes name what was done.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name, for the messages.

    Returns
    -------
    SourcePicture

    Raises
    ------
    PictureError
        Not a JPEG, PNG, TIFF or WebP picture; truncated or damaged; too large; of an unknown pixel kind.

    Examples
    --------
    >>> read_picture(b"", file="empty.jpg")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    pycore.errors.PictureError: The picture must be a JPEG, PNG, TIFF or WebP picture; it is ...
    """
    if not data:
        raise picture_error(
            expected=say("a JPEG, PNG, TIFF or WebP picture"),
            got=say("a file of 0 bytes"),
            remedy=say("choose another file"),
        )
    foreign = unread_kind(data)
    if foreign:
        raise picture_error(
            expected=say("a JPEG, PNG, TIFF or WebP picture"),
            got=foreign,
            remedy=say("export it as JPEG or TIFF"),
        )
    begins_as = _begins_as(data)
    found = _read_here(data) if begins_as == "TIFF" and _is_read_here(data) else _by_pillow(data, begins_as)
    kind, bits, deep = found.kind, found.bits, found.deep
    with decoding(say("{kind} file", kind=kind)):
        upright = set_upright(found.flat, found.orientation)
    embedded = embedded_profile(found.profile, mode=upright.mode, named=found.named)
    frames = found.frames
    notes = about_thumbnail(found.flat.size, frames) if is_thumbnail_first(data) else about_frames(frames)
    notes += found.notes + about_pixels(_upright_shape(found)) + about_name(file, kind)
    notes += found.about_alpha + about_bits(bits)
    notes += about_colours(found.unread) + embedded.notes + about_warnings(found.said)
    info = PictureInfo(
        file=file,
        format=kind,
        width_px=upright.width,
        height_px=upright.height,
        mode=found.mode_name if bits <= 8 else say("{mode}, {bits} bits", mode=found.mode_name, bits=bits),
        profile_name=embedded.name,
        profile_assumed=embedded.is_assumed and upright.mode != "CMYK",
        notes=notes,
    )
    return SourcePicture(
        image=upright,
        profile=embedded.profile,
        linear=embedded.linear,
        info=info,
        deep=oriented(deep, found.orientation) if deep is not None and bits == 16 else None,
    )


@dataclass(frozen=True, kw_only=True)
class _Found:
    """A decoded file, without transparency, not set upright yet."""

    kind: str
    flat: Image.Image
    mode_name: str
    bits: int
    orientation: int
    shape: float
    profile: object
    named: NamedSpace | None
    unread: str
    frames: int
    notes: list[Note]
    about_alpha: list[Note]
    said: list[str]
    deep: DeepFile | None


def _upright_shape(found: _Found) -> float:
    """The shape of a pixel once the picture is upright; from the fifth on, orientations swap its sides."""
    return found.shape if found.orientation < 5 else 1 / found.shape


def _is_read_here(data: bytes) -> bool:
    """A TIFF that is not left to Pillow.

    It has more than 8 bits a channel, or signed numbers or inks that Pillow takes for others, or uncompressed
    luma and chroma, which it takes for damage, or colours multiplied by their transparency, which it divides
    and multiplies again, or is of a kind that Pillow does not know.
    """
    try:
        with decoding(say("TIFF file")), Image.open(io.BytesIO(data), formats=("TIFF",)) as image:
            is_signed = _tag(image, Tag.SAMPLE_FORMAT, 1) == SIGNED
            photometric = _tag(image, Tag.PHOTOMETRIC, 0)
            has_other_inks = photometric == SEPARATED and _tag(image, Tag.INK_SET, CMYK_INKS) != CMYK_INKS
            compression, bits = _tag(image, Tag.COMPRESSION, NONE), bits_per_channel(data, image)
            is_raw_ycc = photometric == LUMA_CHROMA and compression == NONE
            is_associated = ASSOCIATED in getattr(image, "tag_v2", {}).get(Tag.EXTRA_SAMPLES, ())
            is_multiplied = is_associated and bits == 8 and compression in UNPACKED
            return bits > 8 or is_signed or has_other_inks or is_raw_ycc or is_multiplied
    except PictureError as refusal:
        # A compression whose number Pillow has not in its table is a KeyError.
        return isinstance(refusal.__cause__, UnidentifiedImageError | KeyError)


def _tag(image: Image.Image, number: int, default: int) -> int:
    """The first value of a TIFF's tag."""
    value = getattr(image, "tag_v2", {}).get(number, default)
    return int(value[0] if isinstance(value, tuple) else value)


def _read_here(data: bytes) -> _Found:
    with decoding(say("TIFF file")) as said:
        deep, flat = open_deep_tiff(data)
    named, shape = _told_in_tiff(data)
    return _found_deep(
        deep,
        flat,
        orientation=deep.orientation,
        shape=shape,
        profile=deep.profile,
        named=named,
        said=said,
        notes=[],
    )


def _told_in_tiff(data: bytes) -> tuple[NamedSpace | None, float]:
    """The space that its EXIF block names, and the shape of its pixels."""
    try:
        with decoding(say("TIFF file")), Image.open(io.BytesIO(data), formats=("TIFF",)) as image:
            return space_by_exif(image), pixel_shape(image)
    except PictureError:
        return None, 1.0


def _found_deep(
    deep: DeepFile,
    flat: Image.Image,
    *,
    orientation: int,
    shape: float,
    profile: object,
    named: NamedSpace | None,
    unread: str = "",
    said: list[str],
    notes: list[Note],
) -> _Found:
    return _Found(
        kind=deep.kind,
        flat=flat,
        mode_name=deep.mode_name,
        bits=deep.bits,
        orientation=orientation,
        shape=shape,
        profile=profile,
        named=named,
        unread=unread,
        frames=deep.frames,
        notes=notes + about_further(deep.further),
        about_alpha=alpha_notes() if deep.is_transparent else [],
        said=said,
        deep=deep,
    )


def _by_pillow(data: bytes, begins_as: str) -> _Found:
    with decoding(say("picture"), begins_as=begins_as) as said:
        # One list of formats: the many others that Pillow knows are not looked for.
        image = Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "TIFF", "WEBP"))
    kind = _FORMATS[str(image.format)]
    check_pixel_count(image.width, image.height)
    with decoding(say("{kind} file", kind=kind)) as more:
        check_compression(_tag(image, Tag.COMPRESSION, NONE))
        check_whole(data, image)
        frames = getattr(image, "n_frames", 1)
        bits = bits_per_channel(data, image)
        ask_for_ycc(image)
        is_inks = kind == "JPEG" and image.mode == "CMYK"
        inks = about_inks(is_marked="adobe" in image.info) if is_inks else []
        unpack_jpeg(data, image)
        image.load()
        shape = pixel_shape(image)
    said += more
    # After decoding: a PNG's may stand behind its pixels, and Pillow sets a TIFF upright as it decodes it.
    orientation, damage = _orientation(image)
    colours = png_colours(data) if kind == "PNG" else PngColours()
    profile = colours.profile or (None if colours.goes_first else image.info.get("icc_profile"))
    # A PNG's chunks speak of its own pixels; its EXIF block may be that of the camera's file.
    named = colours.named or (None if colours.unread else space_by_exif(image))
    if kind == "PNG" and bits == 16:
        with decoding(say("PNG file")):
            deep, flat = open_deep_png(data)
        return _found_deep(
            replace(deep, frames=frames),
            flat,
            orientation=orientation,
            shape=shape,
            profile=profile,
            named=named,
            unread=colours.unread,
            said=said,
            notes=damage,
        )
    with decoding(say("{kind} file", kind=kind)):
        flat, about_alpha = flatten(image, bits=bits)
    return _Found(
        kind=kind,
        flat=flat,
        mode_name=mode_name(image),
        bits=bits,
        orientation=orientation,
        shape=shape,
        profile=profile,
        named=named,
        unread=colours.unread,
        frames=frames,
        notes=damage + about_further(_further(image)) + inks,
        about_alpha=about_alpha,
        said=said,
        deep=None,
    )


def _further(image: Image.Image) -> int:
    """Channels of a TIFF that are neither colour nor transparency (TIFF 6.0, section 18: ExtraSamples 0)."""
    return list(getattr(image, "tag_v2", {}).get(Tag.EXTRA_SAMPLES, ())).count(0)


def bits_per_channel(data: bytes, image: Image.Image) -> int:
    """Bits of a channel as filed.

    Parameters
    ----------
    data : bytes
        The file.
    image : PIL.Image.Image
        The picture as opened from it.

    Returns
    -------
    int

    References
    ----------
    PNG (third edition) 11.2.1 (IHDR: the bit depth is byte 24 of the file); TIFF 6.0, BitsPerSample.
    """
    if image.format == "PNG":
        return data[24]
    if image.format == "TIFF":
        return int(max(getattr(image, "tag_v2", {}).get(Tag.BITS_PER_SAMPLE, (1,))))
    return 8


def _begins_as(data: bytes) -> str:
    """The format whose signature stands at the start; empty where it is none of the four."""
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WebP"
    return next((kind for signature, kind in _SIGNATURES if data.startswith(signature)), "")


def _orientation(image: Image.Image) -> tuple[int, list[Note]]:
    try:
        with decoding(say("EXIF block")):
            return orientation_of(image), []
    except PictureError:
        return 1, about_orientation()
