"""A bundle's own care for what is put in."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from pycore.bundle.content import BundledFile, Role
from pycore.contract.job import Job
from pycore.tasks.bundle import read_bundle, save_bundle


def test_a_wall_photograph_loses_its_metadata(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    place = Image.Exif()
    place[0x010F] = "a maker"
    place.get_ifd(0x8825)[1] = "N"
    Image.new("RGB", (64, 48), "white").save("wall.jpg", exif=place)
    wall = BundledFile(name="wall.jpg", data=Path("wall.jpg").read_bytes())
    assert b"a maker" in wall.data
    kept = read_bundle(save_bundle(Job(), {Role.WALL: wall}, file="a.zip").data).files[Role.WALL]
    assert not Image.open(io.BytesIO(kept.data)).getexif()
    assert b"Exif" not in kept.data
