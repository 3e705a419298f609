"""16 bits from file to file, and 8 bits as they were."""

from __future__ import annotations

import hashlib
import io
from typing import Any

import cv2
import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.contract.check import check_job
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun

_RAMP = {"face": {"width_mm": 256, "height_mm": 64}, "bars": {"depth_mm": 10}, "canvas": {"thickness_mm": 0}}


def _written(source: SourcePicture, tree: dict[str, Any], kind: FileKind) -> tuple[bytes, PrintRun]:
    out = io.BytesIO()
    run = PrintRun(source, check_job(tree), kind=kind, out=out, date="2031-04-30")
    for _ in run.steps():
        pass
    return out.getvalue(), run


def _decoded(data: bytes, kind: FileKind) -> np.ndarray[tuple[int, ...], np.dtype[Any]]:
    if kind is FileKind.TIFF:
        return tifffile.imread(io.BytesIO(data))
    decoded = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_UNCHANGED)
    assert decoded is not None
    return decoded


@pytest.mark.parametrize("kind", [FileKind.TIFF, pytest.param(FileKind.PNG, marks=pytest.mark.native)])
@pytest.mark.parametrize("packed", [None, "zlib"])
def test_a_grey_ramp_of_16_bits_keeps_all_its_levels(kind: FileKind, packed: str | None) -> None:
    """All 65536 levels from a file to a file, read back by other libraries."""
    ramp = np.arange(65536, dtype=np.uint16).reshape(128, 512)
    file = io.BytesIO()
    tifffile.imwrite(file, ramp, photometric="minisblack", compression=packed)
    tree = _RAMP | {"print": {"ppi": 50.8, "bits": 16}}
    data, run = _written(read_picture(file.getvalue(), file="ramp.tif"), tree, kind)
    assert run.report.bits == 16
    grid = pixel_grid(check_job(tree), ppi=50.8)
    found = _decoded(data, kind)
    assert found.dtype == np.uint16
    assert (found[grid.rows[2] : grid.rows[3], grid.columns[2] : grid.columns[3]] == ramp).all()


def test_a_ramp_that_is_enlarged_keeps_more_levels_than_8_bits_have() -> None:
    """Derived: 8 bits would leave 2 of these 512 levels; all of them are kept, and the rest lies between."""
    ramp = np.tile(np.arange(30000, 30512, dtype=np.uint16), (128, 1))
    file = io.BytesIO()
    tifffile.imwrite(file, ramp, photometric="minisblack")
    tree = _RAMP | {"print": {"ppi": 61, "bits": 16, "marks": False}}
    data, _ = _written(read_picture(file.getvalue(), file="ramp.tif"), tree, FileKind.TIFF)
    grid = pixel_grid(check_job(tree), ppi=61)
    row = _decoded(data, FileKind.TIFF)[(grid.rows[2] + grid.rows[3]) // 2, grid.columns[2] : grid.columns[3]]
    assert set(range(30000, 30512)) <= set(row.tolist())
    assert (np.diff(row.astype(int)) >= 0).all()


@pytest.mark.parametrize(
    ("kind", "mode"),
    [
        (FileKind.TIFF, "L"),
        (FileKind.TIFF, "RGB"),
        (FileKind.TIFF, "CMYK"),
        pytest.param(FileKind.PNG, "L", marks=pytest.mark.native),
        pytest.param(FileKind.PNG, "RGB", marks=pytest.mark.native),
    ],
)
def test_a_file_of_16_bits_is_the_8_bit_one_but_finer(kind: FileKind, mode: str) -> None:
    tree = _JOBS["mirror"]
    eight, _ = _written(_picture(mode), tree, kind)
    sixteen, run = _written(_picture(mode), tree | {"print": {"ppi": 72, "bits": 16}}, kind)
    assert run.report.bits == 16
    found = [_decoded(data, kind).astype(float) for data in (eight, sixteen)]
    # Derived: half a step of 8 bits, 2**-13 of the light where that is brought back to 8 bits (see `Tones`),
    # and half a step of 16 bits.
    assert np.abs(found[0] - found[1] / 257).max() <= 0.5 + 255 * 2**-13 + 0.5 / 257


def _picture(mode: str) -> SourcePicture:
    """A picture made of whole-number arithmetic alone, the same everywhere."""
    rows, columns = np.mgrid[0:330, 0:440]
    channels = [(columns * 7 + rows * 3) % 256, (columns * rows) % 251, (rows * 5 + columns // 3) % 256]
    values = np.stack(channels, axis=-1).astype(np.uint8)
    image = Image.fromarray(values)
    if mode == "L":
        image = image.getchannel("R")
    if mode == "CMYK":
        inks = np.concatenate([values, values[..., :1] // 3], axis=2)
        image = Image.frombytes("CMYK", (440, 330), inks.tobytes())
    out = io.BytesIO()
    image.save(out, "TIFF")
    return read_picture(out.getvalue(), file="whole-numbers.tif")


_SMALL: dict[str, Any] = {
    "name": "Low tide",
    "face": {"width_mm": 100, "height_mm": 75},
    "bars": {"depth_mm": 18},
    "print": {"ppi": 72},
}

#: Reduced by 1.5, so that no edge can ring and nothing is held back.
_PARTS: dict[str, dict[str, Any]] = {
    "mirror": {},
    "run-on": {"sides": {"fill": "run-on"}},
    "drawn-out": {"sides": {"fill": "drawn-out", "band_mm": 3, "left": {"fill": "drawn-out", "band_mm": 0}}},
    "plain": {"sides": {"fill": "plain", "colour": "#6a4b2f"}},
    "plain-edge": {"sides": {"fill": "plain"}},
    "fade": {"sides": {"fill": "fade", "blur_mm": 4}},
    "blurred": {"sides": {"blur_mm": 6}, "wrap": {"over": "left-right"}},
    "mixed": {
        "picture": {"turn": 90},
        "sides": {
            "fill": "mirror",
            "top": {"fill": "run-on"},
            "right": {"fill": "drawn-out"},
            "bottom": {"fill": "plain", "colour": "#d8cbb4"},
        },
    },
}
_JOBS = {name: _SMALL | parts for name, parts in _PARTS.items()}

#: Regression: SHA-256 (its first 16 digits) of the pixels that a print file of 8 bits holds. What 16 bits,
#: strips and threads change may change nothing here.
_PIXELS = {
    "L/mirror": "667a7ecba822c07f",
    "L/run-on": "b75cb08a981b4566",
    "L/drawn-out": "1a0f059ebf55c93b",
    "L/plain": "fc3cef5f52b5a8ed",
    "L/plain-edge": "ccc572b328322be5",
    "L/fade": "e43f497c8d39cba0",
    "L/blurred": "c26a33277b8ea958",
    "L/mixed": "e4c043df6c485987",
    "RGB/mirror": "12854a06c1ebe090",
    "RGB/run-on": "39a237922adf3492",
    "RGB/drawn-out": "69c2bfdaf6066771",
    "RGB/plain": "c81a0f2ed39c3cfb",
    "RGB/plain-edge": "bcdac0446c59358f",
    "RGB/fade": "165596d811c60f0f",
    "RGB/blurred": "3bfa3fa3f4349eea",
    "RGB/mixed": "48a5eb584e6397d1",
    "CMYK/mirror": "6c6650c0b4148995",
    "CMYK/run-on": "52dee2e50bb670b9",
    "CMYK/drawn-out": "14b2941bb1b34b03",
    "CMYK/plain": "d96fa891d28b1e03",
    "CMYK/plain-edge": "15147b2bacb1fd08",
    "CMYK/fade": "2d97eac18d29ada3",
    "CMYK/blurred": "7347b24d118eea75",
    "CMYK/mixed": "2adb47ca052404ab",
}


@pytest.mark.parametrize("name", _PIXELS)
def test_a_file_of_8_bits_holds_the_same_pixels(name: str) -> None:
    mode, _, job = name.partition("/")
    data, _ = _written(_picture(mode), _JOBS[job], FileKind.TIFF)
    with Image.open(io.BytesIO(data)) as image:
        assert hashlib.sha256(image.tobytes()).hexdigest()[:16] == _PIXELS[name]
