"""Reading a picture file: one upright picture of 8 bits a channel, or one clear error."""

from __future__ import annotations

import io
from pathlib import PurePath

from PIL import Image

from pycore.contract.notes import Note, Place, Severity
from pycore.errors import PictureError
from pycore.picture.embedded import embedded_profile
from pycore.picture.flatten import flatten, mode_name
from pycore.picture.guard import check_pixel_count, decoding, picture_error
from pycore.picture.info import PictureInfo
from pycore.picture.kinds import is_thumbnail_first, unread_kind
from pycore.picture.orientation import orientation_of, set_upright
from pycore.picture.sixteen_bits import bits_per_channel, read_deep_tiff
from pycore.picture.source import SourcePicture as SourcePicture
from pycore.picture.truncation import check_whole
from pycore.picture.ycc import ask_for_ycc

#: Pillow's names of the formats and ours. A JPEG with several frames is an MPO to Pillow.
_FORMATS = {"JPEG": "JPEG", "MPO": "JPEG", "PNG": "PNG", "TIFF": "TIFF", "WEBP": "WebP"}

_ENDINGS = {
    "JPEG": {".jpg", ".jpeg", ".jpe", ".jfif", ".mpo"},
    "PNG": {".png", ".apng"},
    "TIFF": {".tif", ".tiff"},
    "WebP": {".webp"},
}

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
    orientation; transparency is laid over white; 16 bits are reduced to 8; an embedded profile is kept byte
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
            expected="a JPEG, PNG, TIFF or WebP picture",
            got="a file of 0 bytes",
            remedy="choose another file",
        )
    foreign = unread_kind(data)
    if foreign:
        raise picture_error(
            expected="a JPEG, PNG, TIFF or WebP picture", got=foreign, remedy="export it as JPEG or TIFF"
        )
    notes: list[Note] = []
    with decoding("picture", begins_as=_begins_as(data)) as said:
        # One list of formats: the many others that Pillow knows are not looked for.
        image = Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "TIFF", "WEBP"))
    kind = _FORMATS[str(image.format)]
    check_pixel_count(image.width, image.height)
    with decoding(f"{kind} file") as more:
        check_whole(data, image)
        frames = getattr(image, "n_frames", 1)
        notes += _about_thumbnail(image, frames) if is_thumbnail_first(data) else _about_frames(frames)
        bits = bits_per_channel(data, image)
        deep = read_deep_tiff(data) if kind == "TIFF" and bits == 16 else None
        if deep is None:
            ask_for_ycc(image)
            image.load()
    said += more
    # After decoding: a PNG's may stand behind its pixels, and Pillow sets a TIFF upright as it decodes it.
    orientation, damage = _orientation(image)
    notes += damage
    decoded = image if deep is None else deep
    mode = mode_name(decoded)
    with decoding(f"{kind} file"):
        flat, about_alpha = flatten(decoded)
        upright = set_upright(flat, orientation)
    embedded = embedded_profile(image.info.get("icc_profile"), mode=upright.mode)
    notes += (
        _about_name(file, kind) + about_alpha + _about_bits(bits) + embedded.notes + _about_warnings(said)
    )
    info = PictureInfo(
        file=file,
        format=kind,
        width_px=upright.width,
        height_px=upright.height,
        mode=mode if bits <= 8 or "16 bits" in mode else f"{mode}, {bits} bits",
        profile_name=embedded.name,
        profile_assumed=embedded.profile is None and upright.mode != "CMYK",
        notes=notes,
    )
    return SourcePicture(image=upright, profile=embedded.profile, linear=embedded.linear, info=info)


def _begins_as(data: bytes) -> str:
    """The format whose signature stands at the start; empty where it is none of the four."""
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WebP"
    return next((kind for signature, kind in _SIGNATURES if data.startswith(signature)), "")


def _orientation(image: Image.Image) -> tuple[int, list[Note]]:
    try:
        with decoding("EXIF block"):
            return orientation_of(image), []
    except PictureError:
        return 1, [
            _note(
                "exif-damaged",
                Severity.WATCH,
                "The picture's EXIF block is damaged, so it does not say which way is up.",
                "Rotate the picture if it lies on its side.",
                field="picture.turn",
            )
        ]


def _about_thumbnail(image: Image.Image, frames: int) -> list[Note]:
    return [
        _note(
            "picture-thumbnail",
            Severity.WATCH,
            f"The file holds {frames} pictures, and the first one is marked as a thumbnail of another; this "
            f"thumbnail of {image.width} x {image.height} pixels is used.",
            "Export the full picture as JPEG or TIFF.",
        )
    ]


def _about_frames(frames: int) -> list[Note]:
    if frames <= 1:
        return []
    return [
        _note(
            "picture-frames",
            Severity.WATCH,
            f"The file holds {frames} pictures; the first one is used.",
            "If you want another one, export it to a file of its own.",
        )
    ]


def _about_name(file: str, kind: str) -> list[Note]:
    ending = PurePath(file).suffix.lower()
    if not ending or ending in _ENDINGS[kind]:
        return []
    return [
        _note(
            "picture-name",
            Severity.HINT,
            f"The name ends in {ending}, but the file is a {kind} picture and is read as one.",
            "Rename it, so that it does not mislead other programs.",
        )
    ]


def _about_bits(bits: int) -> list[Note]:
    if bits <= 8:
        return []
    return [
        _note(
            "picture-bits",
            Severity.HINT,
            f"The picture has {bits} bits a channel; 8 of them are used.",
            "You need do nothing: a canvas shows no more.",
        )
    ]


def _about_warnings(said: list[str]) -> list[Note]:
    return [
        _note(
            "picture-odd",
            Severity.HINT,
            f"The file does not quite follow its format: {text}.",
            "Check that the picture looks right.",
        )
        for text in dict.fromkeys(said)
    ]


def _note(code: str, severity: Severity, message: str, remedy: str, field: str = "picture.file") -> Note:
    return Note(
        code=code, severity=severity, place=Place.PICTURE, message=message, remedy=remedy, field=field
    )
