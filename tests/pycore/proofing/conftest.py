"""A small picture with colours that the illustrative canvas cannot hold, and its parts."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture


@pytest.fixture
def job() -> Callable[..., Job]:
    """A small job; parts override it."""

    def make(**parts: Any) -> Job:
        small = {"face": {"width_mm": 160, "height_mm": 120}, "bars": {"depth_mm": 20}, "print": {"ppi": 72}}
        return check_job(small | parts)

    return make


@pytest.fixture
def source() -> SourcePicture:
    """Left half mid grey, right half the red primary of sRGB; the left edge is one step of blue."""
    pixels = np.full((240, 320, 3), 128, np.uint8)
    pixels[:, 160:] = (255, 0, 0)
    pixels[:, :20] = (0, 0, 255)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return read_picture(out.getvalue(), file="halves.png")
