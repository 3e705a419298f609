"""The comparison with libvips measures the print file that it means; libvips itself is an extra."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
import tifffile
from PIL import Image

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]


def test_our_half_is_made_and_measured(tmp_path: Path) -> None:
    """Derived: 0.1 of the face's 914 x 610 mm, and 2 x (38 + 25 + 0.45) mm of sides, at 300 ppi."""
    Image.effect_noise((600, 400), 60).convert("RGB").save(tmp_path / "large.jpg")
    command = [sys.executable, str(ROOT / "tests" / "bench_print.py"), "--only", "tuckfold"]
    command += ["--folder", str(tmp_path), "--share", "0.1", "--bits", "16"]
    ended = subprocess.run(command, capture_output=True, text=True, check=True)
    found = json.loads(ended.stdout)
    assert set(found) == {"clock_s", "processor_s", "memory_mb"}
    assert all(value > 0 for value in found.values())
    with tifffile.TiffFile(tmp_path / "tuckfold.tif") as file:
        page = file.pages.first
        assert (page.imagewidth, page.imagelength) == (2578, 2219)
        assert page.bitspersample == 16
