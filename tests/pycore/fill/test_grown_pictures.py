"""Grown sides of photographs: no step at the arris, nothing twice, by OpenCV's own correlation."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import cv2
import numpy as np
import pytest
import skimage.data
from PIL import Image
from sklearn.datasets import load_sample_image

from pycore.contract.check import check_job
from pycore.conventions import Side
from pycore.fill.facing import U8, Facing, facing
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.render.preview import PreviewSource

pytestmark = [pytest.mark.native]

_PPI: Final = 40.0

#: Rows on either side that are a seam's neighbourhood: 8 mm.
_NEAR: Final = 12

#: Standard deviation, after a plane has been taken away, below which a patch has nothing to be known by.
_PLAIN: Final = 6.0

#: A patch as deep and as wide as the side, as the plan's pieces are, reduced to so many pixels.
_PATCH: Final = 30


def _estuary() -> U8:
    root = Path(__file__).parents[3]
    with Image.open(root / "demo_data" / "estuary.jpg") as image:
        return np.asarray(image.convert("RGB"))


#: Photographs that come with scikit-learn and scikit-image, and the demo's painting.
PICTURES: Final[dict[str, Callable[[], Any]]] = {
    "china": lambda: load_sample_image("china.jpg"),
    "flower": lambda: load_sample_image("flower.jpg"),
    "astronaut": skimage.data.astronaut,
    "camera": skimage.data.camera,
    "chelsea": skimage.data.chelsea,
    "coffee": skimage.data.coffee,
    "rocket": skimage.data.rocket,
    "tissue": skimage.data.immunohistochemistry,
    "estuary": _estuary,
}


@pytest.fixture(scope="module", params=PICTURES)
def sides(request: pytest.FixtureRequest) -> list[Facing]:
    """The four sides of a grown canvas."""
    pixels = PICTURES[request.param]()
    file = io.BytesIO()
    Image.fromarray(pixels).convert("RGB").save(file, "PNG")
    job = check_job({"sides": {"fill": "continued"}})
    grid = pixel_grid(job, ppi=_PPI)
    canvas = run_to_end(PreviewSource(read_picture(file.getvalue(), file="picture.png")).canvas(job, grid))
    return [facing(canvas, grid, side) for side in Side]


def test_there_is_no_step_across_the_arris(sides: list[Facing]) -> None:
    """1.15 is what was asked for: the seam's mean gradient over the mean of its neighbourhood.

    The seam is the step across the arris and, so that a difference cannot hide one row further, the next one.
    """
    for side in sides:
        rows = side.view[:, side.along[1] : side.along[2], :3].astype(np.float64)
        steps = np.abs(np.diff(rows, axis=0)).mean(axis=(1, 2))
        at = side.arris - 1
        near = np.concatenate([steps[at - _NEAR : at], steps[at + 2 : at + 2 + _NEAR]]).mean()
        assert steps[at] / near <= 1.15
        assert steps[at : at + 2].mean() / near <= 1.15


def test_no_patch_repeats_within_a_side(sides: list[Facing]) -> None:
    """0.95 is what was asked for. Patches that overlap by more than half where they lie are not compared."""
    for side in sides:
        inked = np.ascontiguousarray(side.inked[..., :3]).astype(np.float32)
        scale = _PATCH / len(inked)
        strip = cv2.resize(inked, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA).astype(np.float32)
        for at in range(0, strip.shape[1] - _PATCH + 1, 5):
            patch = strip[:, at : at + _PATCH]
            if _detail(patch) < _PLAIN:
                continue
            found = cv2.matchTemplate(strip, patch, cv2.TM_CCOEFF_NORMED)[0]
            found[max(0, at - _PATCH // 2) : at + _PATCH // 2 + 1] = -1
            assert found.max() <= 0.95


def _detail(patch: np.ndarray[Any, np.dtype[np.float32]]) -> float:
    """How much is left of a patch without its own plane: two skies that grow lighter alike repeat nothing."""
    rows, columns = np.mgrid[0 : patch.shape[0], 0 : patch.shape[1]]
    plane = np.stack([np.ones(rows.size), rows.ravel(), columns.ravel()], axis=1)
    values = patch.reshape(-1, 3)
    fitted = plane @ np.linalg.lstsq(plane, values, rcond=None)[0]
    return float((values - fitted).std())


def test_the_check_finds_a_repeat(sides: list[Facing]) -> None:
    """The same check sees a strip that was pasted twice."""
    strip = np.ascontiguousarray(sides[2].inked[..., :3]).astype(np.float32)
    size = len(strip)
    strip[:, 3 * size : 4 * size] = strip[:, size : 2 * size]
    found = cv2.matchTemplate(strip, strip[:, size : 2 * size], cv2.TM_CCOEFF_NORMED)[0]
    assert found[3 * size] > 0.999
