"""Photographs that are enlarged back lose nothing by what keeps hard edges from ringing."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from tests.shipped_photographs import shipped_photograph

from .test_ringing import cubic, enlarged

#: Pyodide has not the package that ships the photographs.
pytestmark = pytest.mark.native


def _photographs() -> list[npt.NDArray[np.uint8]]:
    found = []
    for name in ("china", "flower"):
        with Image.open(shipped_photograph(name)) as image:
            found.append(np.asarray(image.convert("RGB"))[:426, :639])
    return found


@pytest.mark.parametrize("number", [0, 1])
@pytest.mark.parametrize("times", [2, 3])
def test_photographs_enlarged_back_lose_nothing(number: int, times: int) -> None:
    """Against cubic convolution alone: no further from the photograph."""
    whole = _photographs()[number]
    whole = whole[: whole.shape[0] // 6 * 6, : whole.shape[1] // 6 * 6]
    height, width = whole.shape[:2]
    small = enlarged(whole, width // times, height // times).astype(np.uint8)
    noise = [
        10 * np.log10(255**2 / ((image(small, width, height) - whole) ** 2).mean())
        for image in (cubic, enlarged)
    ]
    assert noise[1] >= noise[0]
