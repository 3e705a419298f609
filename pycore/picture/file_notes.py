"""What is said of a picture's file once it is read."""

from __future__ import annotations

from pathlib import PurePath

from pycore.contract.notes import Note, Place, Severity
from pycore.speech import say

_ENDINGS = {
    "JPEG": {".jpg", ".jpeg", ".jpe", ".jfif", ".mpo"},
    "PNG": {".png", ".apng"},
    "TIFF": {".tif", ".tiff"},
    "WebP": {".webp"},
}

#: From this difference on the shape of a picture is off by what one sees.
_NOT_SQUARE = 0.02


def about_orientation() -> list[Note]:
    """Say that the EXIF block is damaged."""
    return [
        _note(
            "exif-damaged",
            Severity.WATCH,
            say("The picture's EXIF block is damaged, so it does not say which way is up."),
            say("Rotate the picture if it lies on its side."),
            field="picture.turn",
        )
    ]


def about_thumbnail(size: tuple[int, int], frames: int) -> list[Note]:
    """Say that the picture that is used is a smaller copy of another one in the file.

    Parameters
    ----------
    size : (int, int)
        Of the picture that is used, pixels.
    frames : int
        Pictures in the file.

    Returns
    -------
    list of Note
    """
    return [
        _note(
            "picture-thumbnail",
            Severity.WATCH,
            say(
                "The file holds {frames} pictures, and the first one is marked as a thumbnail of "
                "another; this thumbnail of {size0} x {size1} pixels is used.",
                frames=frames,
                size0=size[0],
                size1=size[1],
            ),
            say("Export the full picture as JPEG or TIFF."),
        )
    ]


def about_frames(frames: int) -> list[Note]:
    """Say that the file holds more pictures than one.

    Parameters
    ----------
    frames : int
        Pictures in the file.

    Returns
    -------
    list of Note
    """
    if frames <= 1:
        return []
    return [
        _note(
            "picture-frames",
            Severity.WATCH,
            say("The file holds {frames} pictures; the first one is used.", frames=frames),
            say("If you want another one, export it to a file of its own."),
        )
    ]


def about_pixels(shape: float) -> list[Note]:
    """Say that the file's pixels are no squares.

    Parameters
    ----------
    shape : float
        The width of a pixel against its height.

    Returns
    -------
    list of Note
    """
    if abs(shape - 1) < _NOT_SQUARE:
        return []
    return [
        _note(
            "picture-pixels",
            Severity.WATCH,
            say(
                "The file says that its pixels are {shape:.2f} times as wide as they are high. They are used "
                "as squares, so the picture comes out {drawn}.",
                shape=shape,
                drawn=say("too wide") if shape < 1 else say("too narrow"),
            ),
            say("Export it with square pixels."),
        )
    ]


def about_name(file: str, kind: str) -> list[Note]:
    """Say that a file's name does not fit its content.

    Parameters
    ----------
    file : str
    kind : str
        What the file is by its content.

    Returns
    -------
    list of Note
    """
    ending = PurePath(file).suffix.lower()
    if not ending or ending in _ENDINGS[kind]:
        return []
    return [
        _note(
            "picture-name",
            Severity.HINT,
            say(
                "The name ends in {ending}, but the file is a {kind} picture and is read as one.",
                ending=ending,
                kind=kind,
            ),
            say("Rename it, so that it does not mislead other programs."),
        )
    ]


def about_bits(bits: int) -> list[Note]:
    """Say what becomes of more than 8 bits a channel.

    Parameters
    ----------
    bits : int
        A channel, as filed.

    Returns
    -------
    list of Note
    """
    if bits <= 8:
        return []
    return [
        _note(
            "picture-bits",
            Severity.HINT,
            say("The picture has {bits} bits a channel; the screen shows 8 of them.", bits=bits),
            say("A print file of 16 bits keeps them all."),
            field="print.bits",
        )
    ]


def about_colours(chunk: str) -> list[Note]:
    """Say that a PNG describes its colours in a way that cannot be read.

    Parameters
    ----------
    chunk : str
        Which of its chunks does; empty for none.

    Returns
    -------
    list of Note
    """
    if not chunk:
        return []
    return [
        _note(
            "picture-colours",
            Severity.WATCH,
            say(
                "The PNG says by its {chunk} chunk that its colours are not those of sRGB, in a way that "
                "cannot be read, so they come out wrong.",
                chunk=chunk,
            ),
            say("Export it again with its profile embedded, or as sRGB."),
        )
    ]


def about_inks(*, is_marked: bool) -> list[Note]:
    """Say of a CMYK JPEG that it leaves open which way round its values are.

    Parameters
    ----------
    is_marked : bool
        It has the marker of those whose values are inverted.

    Returns
    -------
    list of Note

    References
    ----------
    Rec. ITU-T T.872, 6.5.3 (the APP14 marker). Without it readers differ: browsers and Pillow take the values
    for inverted, as nearly all files have them; others do not.
    """
    if is_marked:
        return []
    return [
        _note(
            "picture-inks",
            Severity.WATCH,
            say(
                "The CMYK JPEG does not say whether 0 means no ink or all of it. It is read as most are "
                "written, 0 as all of it; other programs may read it the other way round."
            ),
            say("If it looks like a negative, export it as TIFF."),
        )
    ]


def about_further(count: int) -> list[Note]:
    """Say that the file has channels that are left out.

    Parameters
    ----------
    count : int
        Channels beside the colours and the transparency.

    Returns
    -------
    list of Note
    """
    if count == 0:
        return []
    channels, they = (
        (say("a channel that is neither"), say("it is"))
        if count == 1
        else (say("{count} channels that are neither", count=count), say("they are"))
    )
    return [
        _note(
            "picture-channels",
            Severity.HINT,
            say(
                "The file has {channels} colour nor transparency, such as a saved selection; "
                "{they} left out.",
                channels=channels,
                they=they,
            ),
            say("If it was meant as transparency, export the picture again with transparency."),
        )
    ]


def about_warnings(said: list[str]) -> list[Note]:
    """Say what a decoder found odd.

    Parameters
    ----------
    said : list of str
        A decoder's warnings.

    Returns
    -------
    list of Note
    """
    return [
        _note(
            "picture-odd",
            Severity.HINT,
            say("The file does not quite follow its format: {words}.", words=text),
            say("Check that the picture looks right."),
        )
        for text in dict.fromkeys(said)
    ]


def _note(code: str, severity: Severity, message: str, remedy: str, field: str = "picture.file") -> Note:
    return Note(
        code=code, severity=severity, place=Place.PICTURE, message=message, remedy=remedy, field=field
    )
