"""Pixels that are no squares: said of each kind of file, whichever way up, and not where nothing is told."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.contract.notes import Note
from pycore.picture.read import read_picture


def said(image: Image.Image, kind: str, **how: Any) -> list[Note]:
    file = io.BytesIO()
    image.save(file, kind, **how)
    return about(file.getvalue())


def about(data: bytes) -> list[Note]:
    return [note for note in read_picture(data, file="").info.notes if note.code == "picture-pixels"]


GREY = Image.new("L", (12, 8), 128)


@pytest.mark.parametrize("kind", ["TIFF", "PNG", "JPEG"])
def test_a_fax_of_coarse_rows_comes_out_too_wide(kind: str) -> None:
    (note,) = said(GREY, kind, dpi=(204, 98))
    # published: ITU-T T.4, 204 pixels and 98 rows an inch; derived: 98 / 204.
    assert note.values["shape"] == pytest.approx(98 / 204, abs=0.005)
    assert note.message.endswith("so the picture comes out too wide.")


def test_the_other_way_it_comes_out_too_narrow_and_turned_it_is_the_other_way() -> None:
    (note,) = said(GREY, "PNG", dpi=(100, 200))
    assert note.message.endswith("so the picture comes out too narrow.")
    exif = Image.Exif()
    exif[0x0112] = 6
    (turned,) = said(GREY, "PNG", dpi=(100, 200), exif=exif)
    assert turned.message.endswith("so the picture comes out too wide.")


def test_of_16_bits_as_well() -> None:
    file = io.BytesIO()
    tifffile.imwrite(file, np.zeros((8, 12, 3), np.uint16), photometric="rgb", resolution=(200, 100))
    (note,) = about(file.getvalue())
    assert note.values["shape"] == pytest.approx(0.5)


@pytest.mark.parametrize("dpi", [(300, 300), (300, 299), (1, 300), (0, 72)])
def test_squares_roundings_and_nonsense_say_nothing(dpi: tuple[int, int]) -> None:
    assert said(GREY, "TIFF", dpi=dpi) == []
