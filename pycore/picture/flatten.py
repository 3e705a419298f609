"""From the many pixel kinds of picture files to three: grey, RGB and CMYK, without transparency."""

from __future__ import annotations

from PIL import Image

from pycore.contract.notes import Note, Place, Severity
from pycore.picture.guard import picture_error
from pycore.picture.ycc import ycc_to_rgb
from pycore.speech import say

_NAMES = {
    "1": say("black and white"),
    "L": say("grey"),
    "P": say("palette"),
    "PA": say("palette with alpha"),
    "LA": say("grey with alpha"),
    "La": say("grey with alpha"),
    "RGB": say("RGB"),
    "RGBX": say("RGB"),
    "RGBA": say("RGB with alpha"),
    "RGBa": say("RGB with alpha"),
    "CMYK": say("CMYK"),
    "YCbCr": say("RGB"),
}


#: Kinds that are refused, said besides their letters.
_IN_WORDS = {
    "LAB": " (CIELAB)",
}


def mode_name(image: Image.Image) -> str:
    """The pixel kind in words, as filed.

    Parameters
    ----------
    image : PIL.Image.Image
        As it was opened.

    Returns
    -------
    str

    Examples
    --------
    >>> mode_name(Image.new("P", (1, 1)))
    'palette'
    """
    name = _NAMES.get(image.mode, image.mode)
    is_told = "transparency" in image.info and "alpha" not in name
    return (say(name) if image.mode in _NAMES else name) + (say(" with alpha") if is_told else "")


def flatten(image: Image.Image, *, bits: int) -> tuple[Image.Image, list[Note]]:
    """Bring a decoded picture to mode L, RGB or CMYK.

    Parameters
    ----------
    image : PIL.Image.Image
        Decoded, of any mode.
    bits : int
        Of a channel, as filed.

    Returns
    -------
    (image, notes)
        The same image where nothing was to be done. Transparency is laid over white, with a note where
        anything really was transparent.

    Raises
    ------
    PictureError
        Values that are no colours of 8 or 16 bits (32-bit numbers, floating point, Lab).

    Examples
    --------
    >>> picture, notes = flatten(Image.new("RGBA", (1, 1), (0, 0, 0, 0)), bits=8)
    >>> picture.getpixel((0, 0)), notes[0].code
    ((255, 255, 255), 'picture-alpha')
    """
    if image.mode in {"L", "RGB", "CMYK"} and "transparency" not in image.info:
        return image, []
    if image.mode == "1" and "transparency" not in image.info:
        return image.convert("L"), []
    if image.mode == "RGBX":
        return image.convert("RGB"), []
    if image.mode == "YCbCr":
        return ycc_to_rgb(image), []
    if image.mode not in _NAMES:
        raise picture_error(
            expected=say("grey, RGB or CMYK with 8 or 16 bits"),
            got=say(
                "of the pixel kind {mode}{in_words}", mode=image.mode, in_words=_IN_WORDS.get(image.mode, "")
            ),
            remedy=say("export the picture as RGB with 8 bits"),
        )
    if image.mode == "P" and "transparency" not in image.info:
        # A palette may carry alpha of its own.
        has_alpha = image.palette is not None and image.palette.mode == "RGBA"
        return _over_white(image.convert("RGBA")) if has_alpha else (image.convert("RGB"), [])
    if image.mode in {"1", "L"}:
        # Pillow widens grey of fewer bits to 8, but not the value that is transparent (PNG, 11.3.1.1).
        image.info["transparency"] = (image.info["transparency"] & (2**bits - 1)) * (255 // (2**bits - 1))
    grey = image.mode in {"1", "L", "LA", "La"}
    return _over_white(image.convert("LA" if grey else "RGBA"))


def _over_white(image: Image.Image) -> tuple[Image.Image, list[Note]]:
    alpha = image.getchannel("A")
    colour = image.convert("L" if image.mode == "LA" else "RGB")
    lowest, _ = alpha.getextrema()
    if lowest == 255:
        return colour, []
    flat = Image.new(colour.mode, colour.size, "white")
    flat.paste(colour, mask=alpha)
    return flat, alpha_notes()


def alpha_notes() -> list[Note]:
    """What is said of a picture that is transparent in places."""
    note = Note(
        code="picture-alpha",
        severity=Severity.WATCH,
        place=Place.PICTURE,
        message=say("The picture is transparent in places; white lies behind it."),
        remedy=say("Export it without transparency to choose what lies behind it."),
        field="picture.file",
    )
    return [note]
