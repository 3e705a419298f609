"""A thin rim at the picture's edge: found where there is one, on no photograph without one."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image, ImageDraw

from pycore.contract.check import check_job
from pycore.conventions import Side
from pycore.edges.rims import picture_rims
from pycore.picture.read import read_picture
from pycore.tasks.edges import judge_edges
from pycore.tasks.open_picture import OpenPicture
from tests.shipped_photographs import shipped_photograph

pytestmark = pytest.mark.native


def photograph(name: str = "china") -> Image.Image:
    """A photograph without a rim."""
    return Image.open(shipped_photograph(name)).convert("RGB")


def rimmed(*boxes: tuple[int, int, int, int], colour: str = "white", mixed: float = 1.0) -> Image.Image:
    """The photograph with boxes mixed into it; 640 x 427 pixels."""
    image = photograph()
    over = image.copy()
    for box in boxes:
        ImageDraw.Draw(over).rectangle(box, fill=colour)
    return Image.blend(image, over, mixed)


def opened(image: Image.Image) -> OpenPicture:
    """As from a JPEG, whose noise goes over the rim too."""
    file = io.BytesIO()
    image.save(file, "JPEG", quality=90, subsampling=0)
    return OpenPicture(read_picture(file.getvalue(), file="scan.jpg"))


@pytest.mark.parametrize("name", ["china", "flower"])
def test_photographs_have_none(name: str) -> None:
    assert picture_rims(photograph(name)) == {}


@pytest.mark.parametrize("width", [1, 2, 3, 6])
@pytest.mark.parametrize("colour", ["white", "black", "gold"])
def test_a_rim_of_one_colour_is_found_with_its_width(width: int, colour: str) -> None:
    found = opened(rimmed((0, 0, width - 1, 426), colour=colour)).rims
    assert set(found) == {Side.LEFT}
    # Derived: the last row may be mixed by the JPEG.
    assert width <= found[Side.LEFT] <= width + 1


def test_a_single_row_that_is_half_white_is_found() -> None:
    assert picture_rims(rimmed((0, 426, 639, 426), mixed=0.5)) == {Side.BOTTOM: 1}


def test_a_border_that_was_meant_is_none() -> None:
    """Derived: 20 pixels are more than the 6 of a thin rim."""
    image = Image.new("RGB", (680, 467), "white")
    image.paste(photograph(), (20, 20))
    assert picture_rims(image) == {}


def test_a_picture_that_grows_darker_towards_its_edge_has_none() -> None:
    ramp = np.clip(np.arange(200)[:, np.newaxis] * 20, 0, 200) + np.arange(300) % 40
    assert picture_rims(Image.fromarray(ramp.astype(np.uint8))) == {}


@pytest.mark.parametrize(
    ("turn", "crop", "side"),
    [
        (0, {"x": 0, "y": 0.1, "width": 1, "height": 0.8}, Side.LEFT),
        (90, {"x": 0.1, "y": 0, "width": 0.8, "height": 1}, Side.TOP),
        (180, {"x": 0, "y": 0.1, "width": 1, "height": 0.8}, Side.RIGHT),
        (0, {"x": 0.02, "y": 0.1, "width": 0.98, "height": 0.8}, None),
    ],
)
def test_what_the_crop_shows_of_it_is_told_with_its_width(
    turn: int, crop: dict[str, float], side: Side | None
) -> None:
    """Derived: 4 of 640 pixels on 320 mm are 2 mm; a crop of 2 hundredths begins behind them."""
    picture = opened(rimmed((0, 0, 3, 426)))
    # Derived: the canvas's thickness of 0.45 mm is added on either side.
    long, short = 320.0, 320.9 * 427 * 0.8 / 640 - 0.9
    face = {"width_mm": short, "height_mm": long} if turn == 90 else {"width_mm": long, "height_mm": short}
    job = check_job({"face": face, "picture": {"turn": turn, "crop": crop}})
    told = [note for note in judge_edges(job, picture).notes if note.code == "picture-rim"]
    assert [note.place.value for note in told] == ([] if side is None else [side.value])
    for note in told:
        assert f"({side}): 2.0 mm" in note.message
        assert note.remedy == "Crop 2.0 mm away there."
