"""A photograph of a wall: upright, in sRGB, without what its file tells of place, time and camera."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.guard import decoding
from pycore.picture.read import read_picture
from pycore.picture.source import CHANNELS
from pycore.picture.tones import U8
from pycore.render.screen import to_screen
from pycore.wall.exif import filed_focal_px

#: Larger photographs are reduced; places stay in pixels of the full one.
MOST_PX: Final = 50_000_000
#: Common practice: little is seen to be lost of a photograph above this.
_QUALITY: Final = 90


@dataclass(frozen=True, kw_only=True)
class WallPhoto:
    """A photograph of a wall.

    Attributes
    ----------
    file : str
        Its name.
    image : PIL.Image.Image
        Mode RGB, srgb_encoded, upright; reduced where it is very large.
    size_px : (int, int)
        Width and height of the full upright photograph.
    focal_px : float or None
        By its file, in pixels of the full photograph.
    """

    file: str
    image: Image.Image
    size_px: tuple[int, int]
    focal_px: float | None

    @property
    def scale(self) -> float:
        """Pixels of `image` for one of the full photograph, at most 1."""
        return self.image.width / self.size_px[0]

    @cached_property
    def pixels(self) -> U8:
        """(rows, columns, 3) uint8, srgb_encoded."""
        return np.asarray(self.image)


def open_photograph(data: bytes, *, file: str) -> WallPhoto:
    """Read a photograph of a wall.

    Of its EXIF block the orientation is applied and the focal length read; nothing of it is kept.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name.

    Returns
    -------
    WallPhoto

    Raises
    ------
    PictureError
        It is no JPEG, PNG, TIFF or WebP picture, is damaged or too large.
    """
    try:
        source = read_picture(data, file=file)
    except PictureError as wrong:
        raise wrong.about("PHOTO") from wrong
    full = source.image.size
    upright = source.image
    if upright.width * upright.height > MOST_PX:
        share = np.sqrt(MOST_PX / (upright.width * upright.height))
        upright = upright.resize(
            (max(1, int(upright.width * share)), max(1, int(upright.height * share))), Image.Resampling.BOX
        )
    pixels = np.asarray(upright).reshape(upright.height, upright.width, CHANNELS[upright.mode])
    return WallPhoto(
        file=file,
        image=to_screen(pixels, source),
        size_px=full,
        # The length in pixels is the same whichever way the sensor was held.
        focal_px=filed_focal_px(data, width_px=full[0], height_px=full[1]),
    )


def is_stripped(data: bytes, *, longest_px: int) -> bool:
    """Whether a readable picture is such a copy already, which another copy would only make worse.

    Parameters
    ----------
    data : bytes
        Of a picture that was opened before.
    longest_px : int
        Its longer side at most, pixels.

    Returns
    -------
    bool
    """
    with decoding("photograph"), Image.open(io.BytesIO(data)) as image:
        known = {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        return bool(image.format == "JPEG" and max(image.size) <= longest_px and image.info.keys() <= known)


def copy_size(photo: WallPhoto, *, longest_px: int) -> tuple[int, int]:
    """The size of a copy to keep or to hand on.

    Parameters
    ----------
    photo : WallPhoto
    longest_px : int
        Its longer side at most, pixels.

    Returns
    -------
    (int, int)
        Width and height; never larger than the photograph as it is shown.
    """
    width, height = photo.image.size
    share = min(1.0, longest_px / max(width, height))
    return max(1, round(width * share)), max(1, round(height * share))


def stripped_copy(photo: WallPhoto, *, longest_px: int) -> bytes:
    """A copy of a photograph to keep or to hand on, without any metadata.

    Parameters
    ----------
    photo : WallPhoto
    longest_px : int
        Its longer side at most, pixels.

    Returns
    -------
    bytes
        A JPEG in sRGB.
    """
    size = copy_size(photo, longest_px=longest_px)
    same = size == photo.image.size
    small = photo.image if same else photo.image.resize(size, Image.Resampling.LANCZOS)
    file = io.BytesIO()
    small.save(file, "JPEG", quality=_QUALITY)
    return file.getvalue()
