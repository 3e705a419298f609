"""What an opened picture says of itself."""

from __future__ import annotations

import io
from dataclasses import FrozenInstanceError

import pytest
from PIL import Image

from pycore.picture.read import read_picture


@pytest.mark.parametrize(("mode", "channels"), [("L", 1), ("RGB", 3), ("CMYK", 4)])
def test_size_and_channels(mode: str, channels: int) -> None:
    out = io.BytesIO()
    Image.new(mode, (7, 5)).save(out, "TIFF")
    picture = read_picture(out.getvalue(), file="patch.tif")
    assert (picture.width_px, picture.height_px, picture.channels) == (7, 5, channels)
    assert (picture.info.width_px, picture.info.height_px) == (7, 5)
    with pytest.raises(FrozenInstanceError):
        picture.profile = b""  # type: ignore[misc]  # What is tested is that it fails.
