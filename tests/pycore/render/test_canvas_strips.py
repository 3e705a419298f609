"""The canvas in strips: the same pixels as the whole canvas, in 8 bits and in 16."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.grid import pixel_grid
from pycore.picture.deep_tones import widened
from pycore.picture.info import PictureInfo
from pycore.picture.source import SourcePicture
from pycore.progress import run_to_end
from pycore.render.canvas import canvas_parts, render_whole
from pycore.render.canvas_strips import Strip, canvas_strips

_SMALL = {
    "face": {"width_mm": 110, "height_mm": 150},
    "bars": {"depth_mm": 15},
    "canvas": {"thickness_mm": 0},
}

_PLAIN = {"fill": "plain", "colour": "#6a4b2f"}

#: Fills of which a strip needs its own rows alone, and others.
_SIDES: dict[str, dict[str, Any]] = {
    "mirror": {},
    "run on": {"fill": "run-on"},
    "drawn out": {"fill": "drawn-out", "band_mm": 3},
    "drawn out from one row": {"fill": "drawn-out", "band_mm": 0},
    "plain": _PLAIN,
    "four kinds": {"top": {"fill": "run-on"}, "right": {"fill": "drawn-out"}, "bottom": _PLAIN},
    "plain beside mirror": {"left": _PLAIN, "right": _PLAIN},
    "blurred": {"blur_mm": 4},
    "fading": {"fill": "fade", "blur_mm": 2},
    "plain by the edge": {"fill": "plain"},
}
_ROW_BY_ROW = 7


class _Kept:
    """Values of 16 bits that are at hand."""

    def __init__(self, values: npt.NDArray[np.uint16]) -> None:
        self._values = values

    def read(self) -> npt.NDArray[np.uint16]:
        return self._values


@cache
def _picture(channels: int, *, deep: bool = False) -> SourcePicture:
    """Smooth waves of all sizes."""
    rows, columns = np.mgrid[0:420, 0:310]
    waves = [0.5 + 0.5 * np.sin((columns * (k + 2) + rows * 3) / 41) for k in range(channels)]
    wide = np.floor(np.stack(waves, axis=2) * 65535 + 0.5).astype(np.uint16)
    narrow = ((wide.astype(np.uint32) + 128) // 257).astype(np.uint8)
    mode = {1: "L", 3: "RGB", 4: "CMYK"}[channels]
    image = Image.frombytes(mode, (310, 420), narrow.tobytes())
    info = PictureInfo(
        file="waves", format="TIFF", width_px=310, height_px=420, mode=mode, profile_name="",
        profile_assumed=True, notes=[],
    )  # fmt: skip
    kept = _Kept(wide) if deep else None
    return SourcePicture(image=image, profile=None, linear=None, info=info, deep=kept)


def _whole(source: SourcePicture, job: Job, bits: int) -> npt.NDArray[Any]:
    grid = pixel_grid(job, ppi=job.print.ppi)
    parts = canvas_parts(source, job, grid, bits=bits)
    return run_to_end(render_whole(source, job, grid, parts, channels=source.channels))


def _strips(source: SourcePicture, job: Job, bits: int) -> list[Strip]:
    grid = pixel_grid(job, ppi=job.print.ppi)
    made = canvas_strips(
        source, job, grid, channels=source.channels, bits=bits, finish=lambda pixels, _: pixels.copy()
    )
    return [one for one in made if isinstance(one, Strip)]


@pytest.mark.parametrize("name", _SIDES)
@pytest.mark.parametrize("bits", [8, 16])
@pytest.mark.parametrize("turn", [0, 90])
def test_strips_put_together_are_the_canvas(name: str, bits: int, turn: int) -> None:
    job = check_job(
        _SMALL | {"sides": _SIDES[name], "picture": {"turn": turn}, "print": {"ppi": 80, "marks": False}}
    )
    source = _picture(3)
    strips = _strips(source, job, bits)
    assert [one.first for one in strips] == np.cumsum([0, *(len(one.pixels) for one in strips)])[:-1].tolist()
    whole = _whole(source, job, bits)
    assert (np.concatenate([one.pixels for one in strips]) == whole).all()
    # Those that can be are made row by row: no strip but the first and the last is longer than a block.
    is_streamed = len(strips) > 5 and all(len(one.pixels) == 64 for one in strips[2:-3])
    assert is_streamed == (name in list(_SIDES)[:_ROW_BY_ROW])


@pytest.mark.parametrize("name", _SIDES)
@pytest.mark.parametrize("channels", [1, 3, 4])
@pytest.mark.parametrize("sharpening", [0, 0.5])
def test_both_depths_show_the_same(name: str, channels: int, sharpening: float) -> None:
    """Derived: 1.6 levels, and with sharpening twice that and a rounding.

    8 bits are half a level off in the file, the kernel makes up to 0.6 of that (its weights'
    sizes sum to 1.13 an axis), the result is rounded by another half, and corners a third time: 1.6.
    Sharpening adds as much again of what it lifts, rounded once more.
    """
    job = check_job(
        _SMALL | {"sides": _SIDES[name], "print": {"ppi": 72, "marks": False, "sharpening": sharpening}}
    )
    eight = _whole(_picture(channels), job, 8).astype(float)
    sixteen = _whole(_picture(channels, deep=True), job, 16) / 257
    assert np.abs(eight - sixteen).max() <= (2.2 if sharpening else 1.6)
    # derived: the mean of half a level's rounding is a quarter.
    assert np.abs(eight - sixteen).mean() < 0.25


def test_continued_sides_are_kept_with_16_bits() -> None:
    job = check_job(_SMALL | {"sides": {"fill": "continued"}, "print": {"ppi": 60, "marks": False}})
    source = _picture(3)
    eight = _whole(source, job, 8).astype(float)
    difference = np.abs(eight - _whole(source, job, 16) / 257)
    # derived: as above; the pieces of such a side are laid in 8 bits.
    is_alike = difference <= 1.6
    # derived: where a mixed colour lies at the border of a cell that the strip has, one depth may mix and the
    # other take the nearest pixel, which is a quarter of the mix or more: they differ by up to three quarters
    # of what the four pixels of the face do between which the source lies.
    face = eight[100:-100, 100:-100]
    four = np.stack([face[:-1, :-1], face[:-1, 1:], face[1:, :-1], face[1:, 1:]])
    assert difference.max() <= 0.75 * np.ptp(four, axis=0).max() + 1.6
    # regression: 1.4 % of the pixels of this picture, which is hard throughout.
    assert (~is_alike.all(axis=2)).mean() < 0.02


def test_a_ramp_keeps_all_its_levels_where_nothing_is_resampled() -> None:
    """65536 levels, one a pixel, in a picture with just the pixels that the canvas has for it."""
    job = check_job(
        {"face": {"width_mm": 128, "height_mm": 128}, "bars": {"depth_mm": 10}, "canvas": {"thickness_mm": 0},
         "print": {"ppi": 50.8, "marks": False, "bits": 16}}
    )  # fmt: skip
    ramp = np.arange(65536, dtype=np.uint16).reshape(256, 256, 1)
    source = replace(
        _picture(1), image=Image.fromarray(((ramp.astype(np.uint32) + 128) // 257).astype(np.uint8)[..., 0]),
        deep=_Kept(ramp),
    )  # fmt: skip
    grid = pixel_grid(job, ppi=50.8)
    canvas = np.concatenate([one.pixels for one in _strips(source, job, 16)])
    face = canvas[grid.rows[2] : grid.rows[3], grid.columns[2] : grid.columns[3]]
    assert (face == ramp).all()
    # Mirrored sides hand the same values on.
    assert (canvas[grid.rows[2] - 3, grid.columns[2] : grid.columns[3]] == ramp[2]).all()


def test_8_bits_widened_are_the_16_bits_of_an_8_bit_picture() -> None:
    job = check_job(
        {"face": {"width_mm": 155, "height_mm": 210}, "bars": {"depth_mm": 10}, "canvas": {"thickness_mm": 0},
         "print": {"ppi": 50.8, "marks": False}}
    )  # fmt: skip
    source = _picture(3)
    assert (_whole(source, job, 16) == widened(_whole(source, job, 8))).all()
