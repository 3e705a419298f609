"""Luma and chroma of JPEG turned into RGB here, not by the JPEG library.

Libraries differ in this step by a value here and there, and the browser's is another than the native one.
With chroma of full resolution the rest of their work is exact, so that a picture comes out the same on both.
Where chroma is subsampled they still differ in how they interpolate it.
"""

from __future__ import annotations

from PIL import Image

#: Rec. ITU-T T.871 (JFIF), section 7: red, green and blue from Y, Cb, Cr, whose chroma is centred on 128.
_TO_RGB = (
    *(1.0, 0.0, 1.402, -1.402 * 128),
    *(1.0, -0.344136, -0.714136, (0.344136 + 0.714136) * 128),
    *(1.0, 1.772, 0.0, -1.772 * 128),
)

_ADOBE_YCC = 1


def ask_for_ycc(image: Image.Image) -> None:
    """Have a JPEG decoded to luma and chroma, where that is what it holds.

    Parameters
    ----------
    image : PIL.Image.Image
        As opened, not decoded; left as it is where it is no JPEG, or holds grey, RGB or CMYK.

    References
    ----------
    Rec. ITU-T T.871, section 6 (a JFIF file of three components holds YCbCr); Rec. ITU-T T.872, 6.5.3 (the
    transform flag of the APP14 marker); without either marker the components' numbers 1, 2, 3 say so.
    """
    if image.format not in {"JPEG", "MPO"} or image.mode != "RGB":
        return
    numbers = [component[0] for component in getattr(image, "layer", ())]
    if "jfif" in image.info:
        holds_ycc = True
    elif "adobe" in image.info:
        holds_ycc = image.info.get("adobe_transform") == _ADOBE_YCC
    else:
        holds_ycc = numbers == [1, 2, 3]
    if holds_ycc:
        image.draft("YCbCr", image.size)


def ycc_to_rgb(image: Image.Image) -> Image.Image:
    """Turn luma and chroma of full range into RGB, to the nearest value.

    Parameters
    ----------
    image : PIL.Image.Image
        Mode YCbCr.

    Returns
    -------
    PIL.Image.Image
        Mode RGB.

    References
    ----------
    Rec. ITU-T T.871, section 7.

    Examples
    --------
    >>> ycc_to_rgb(Image.new("YCbCr", (1, 1), (76, 85, 255))).getpixel((0, 0))
    (254, 0, 0)
    """
    return image.convert("RGB", _TO_RGB)
