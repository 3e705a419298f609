"""An opened picture: upright, flat, 8 bits and the way to 16, its profile and its tone curves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
import numpy.typing as npt
from PIL import Image

from pycore.colour.icc.standard_profiles import srgb_profile
from pycore.picture.info import PictureInfo
from pycore.picture.tones import U16

#: Channels of each pixel kind that a picture is kept in.
CHANNELS = {"L": 1, "RGB": 3, "CMYK": 4}


class DeepPicture(Protocol):
    """A picture's 16 bits a channel: decoded when they are asked for, not kept, since they take much room."""

    def read(self) -> U16:
        """The upright picture without transparency, (rows, columns, channels).

        Raises
        ------
        PictureError
            Memory is short.
        """


@dataclass(frozen=True, kw_only=True)
class SourcePicture:
    """A picture as it was read; nothing changes it any more.

    Attributes
    ----------
    image : PIL.Image.Image
        Mode L, RGB or CMYK (0 = no ink), upright, decoded. Encoded values of `profile`.
    profile : bytes or None
        The embedded ICC profile, byte for byte; None where there is none that can be used.
    linear : (channels, 256) float64 or None
        Linear light, 0 to 1, of every 8-bit value by the profile's tone curves (sRGB's without a profile);
        None where the profile has no such curves.
    info : PictureInfo
        What is known of it, notes included.
    deep : DeepPicture or None
        The same picture with 16 bits a channel; None where the file has no more than 8.
    """

    image: Image.Image
    profile: bytes | None
    linear: npt.NDArray[np.float64] | None
    info: PictureInfo
    deep: DeepPicture | None = None

    @property
    def channels(self) -> int:
        """1 grey, 3 RGB, 4 CMYK."""
        return CHANNELS[self.image.mode]

    @property
    def file_profile(self) -> bytes | None:
        """What a file of the picture's own values carries: its profile, or sRGB's where that is assumed.

        None for CMYK without a profile, whose colours nobody knows.
        """
        if self.profile is not None or self.image.mode == "CMYK":
            return self.profile
        return srgb_profile("GRAY" if self.image.mode == "L" else "RGB")

    @property
    def width_px(self) -> int:
        """Upright, before the job's turn."""
        return self.image.width

    @property
    def height_px(self) -> int:
        """Upright, before the job's turn."""
        return self.image.height
