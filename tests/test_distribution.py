"""The distribution that `pip` installs: the licence's text, the packages and their data are in it."""

from __future__ import annotations

import email
import os
import subprocess
import sys
import zipfile
from email.message import Message
from pathlib import Path

import pytest
from build.pins import read_pins
from build.places import places
from build.wheels import cached_wheels

ROOT = Path(__file__).resolve().parents[1]
LICENCE = ROOT / "pycore" / "LICENSE"


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The files of the wheel that the pinned build backend makes of this checkout."""
    at = places(ROOT)
    (backend,) = cached_wheels(read_pins(at.web / "pins.json").backend, folder=at.wheels).values()
    out = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "flit_core.wheel", "--outdir", str(out), str(ROOT)],
        env={**os.environ, "PYTHONPATH": str(backend)},
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (wheel,) = out.glob("tuckfold-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        return {info.filename: archive.read(info) for info in archive.infolist()}


def metadata(files: dict[str, bytes]) -> Message:
    (name,) = (name for name in files if name.endswith(".dist-info/METADATA"))
    return email.message_from_bytes(files[name])


def test_the_licence_s_text_is_in_the_wheel_and_named(files: dict[str, bytes]) -> None:
    # Published: PEP 639: the expression and the file stand in the metadata, the text under licenses/.
    said = metadata(files)
    assert said["License-Expression"] == "MIT"
    assert said.get_all("License-File") == ["pycore/LICENSE"]
    (name,) = (name for name in files if ".dist-info/licenses/" in name)
    assert name.endswith("/licenses/pycore/LICENSE")
    assert files[name] == LICENCE.read_bytes()


def test_the_text_is_that_of_the_mit_licence() -> None:
    text = " ".join(LICENCE.read_text(encoding="ascii").split())
    # Published: the SPDX list's MIT text: its title, grant, one condition and disclaimer.
    assert text.startswith(
        "MIT License Copyright (c) 2026 The Tuckfold developers Permission is hereby granted"
    )
    assert "The above copyright notice and this permission notice shall be included in all copies" in text
    assert 'THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND' in text


def test_all_of_the_package_is_in_the_wheel(files: dict[str, bytes]) -> None:
    there = {path for path in (ROOT / "pycore").rglob("*") if path.is_file() and path.suffix != ".pyc"}
    names = {path.relative_to(ROOT).as_posix() for path in there}
    assert {"pycore/py.typed", "pycore/client/data/viewer.js"} <= names
    assert names <= files.keys()
    assert not [name for name in files if not name.startswith(("pycore/", "tuckfold-"))]
