"""All eight EXIF orientations, in every format that can carry them."""

from __future__ import annotations

import io

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.picture.orientation import orientation_of, set_upright, turned
from pycore.picture.read import read_picture

#: The upright scene: 1 is its top-left corner.
_UPRIGHT = np.array([[1, 2, 3], [4, 5, 6]], np.uint8)

#: Published: EXIF 2.32 (JEITA CP-3451), tag 274: which side of the scene the file's row 0 and column 0 are.
#: Derived from it, value by value: how the scene above lies in the file.
_FILED = {
    1: [[1, 2, 3], [4, 5, 6]],  # row 0 top, column 0 left
    2: [[3, 2, 1], [6, 5, 4]],  # top, right
    3: [[6, 5, 4], [3, 2, 1]],  # bottom, right
    4: [[4, 5, 6], [1, 2, 3]],  # bottom, left
    5: [[1, 4], [2, 5], [3, 6]],  # left, top
    6: [[3, 6], [2, 5], [1, 4]],  # right, top
    7: [[6, 3], [5, 2], [4, 1]],  # right, bottom
    8: [[4, 1], [5, 2], [6, 3]],  # left, bottom
}


def _big(values: list[list[int]]) -> Image.Image:
    """Each value as a tile of 16 x 16 pixels, so that JPEG and lossy blocks keep them apart."""
    tiles = np.kron(np.array(values, np.uint8) * 40, np.ones((16, 16), np.uint8))
    return Image.fromarray(np.stack([tiles] * 3, axis=2))


def _scene(image: Image.Image) -> list[list[int]]:
    grey = np.asarray(image.convert("L")).astype(float)
    values: list[list[int]] = np.rint(grey[8::16, 8::16] / 40).astype(int).tolist()
    return values


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
def test_a_picture_is_set_upright(kind: str, orientation: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    _big(_FILED[orientation]).save(out, kind, exif=exif)
    picture = read_picture(out.getvalue(), file="scene")
    assert _scene(picture.image) == _UPRIGHT.tolist()
    assert (picture.info.width_px, picture.info.height_px) == (48, 32)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_deep_tiff_is_set_upright_too(orientation: int) -> None:
    values = np.asarray(_big(_FILED[orientation])).astype(np.uint16) * 257
    out = io.BytesIO()
    tifffile.imwrite(out, values, photometric="rgb", extratags=[(274, 3, 1, orientation, True)])
    assert _scene(read_picture(out.getvalue(), file="scene.tif").image) == _UPRIGHT.tolist()


@pytest.mark.parametrize("value", [0, 9, 255])
def test_an_undefined_value_counts_as_upright(value: int) -> None:
    image = Image.new("L", (3, 2))
    image.getexif()[0x0112] = value
    assert orientation_of(image) == 1
    assert set_upright(image, 1) is image


def test_turns_are_clockwise() -> None:
    """Derived: turned clockwise by a quarter, the left column read upwards becomes the top row."""
    image = Image.fromarray(_UPRIGHT)
    assert np.asarray(turned(image, 90)).tolist() == [[4, 1], [5, 2], [6, 3]]
    assert np.asarray(turned(image, 180)).tolist() == [[6, 5, 4], [3, 2, 1]]
    assert np.asarray(turned(image, 270)).tolist() == [[3, 6], [2, 5], [1, 4]]
    assert turned(image, 0) is image
