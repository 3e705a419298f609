"""The wheel that brings the page, used as an installation would use it."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
import zipfile
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from build.page_wheel import write_page_wheel
from build.places import Places, places

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[3]
PAGE = '<!doctype html><meta http-equiv="Content-Security-Policy" content="default-src \'self\'">'


def checkout(folder: Path) -> Places:
    """The checkout with a small site in the place of the built one."""
    for name in ("pyproject.toml", "README.md", "pycore"):
        (folder / name).symlink_to(ROOT / name)
    dist = folder / "web" / "dist"
    (dist / "assets").mkdir(parents=True)
    (folder / "web" / "pins.json").symlink_to(ROOT / "web" / "pins.json")
    for name in ("service.js", "assets/a-1.js", "assets/a-1.js.br", "_headers", ".htaccess"):
        (dist / name).write_text(name)
    (dist / "index.html").write_text(PAGE)
    return Places(root=folder, cache=places(ROOT).cache)


def test_the_wheel_brings_the_page_and_serves_it(tmp_path: Path) -> None:
    (tmp_path / "checkout").mkdir()
    wheel = write_page_wheel(checkout(tmp_path / "checkout"), into=tmp_path / "out")
    with zipfile.ZipFile(wheel) as archive:
        brought = {one for one in archive.namelist() if "/site/" in one}
        archive.extractall(tmp_path / "installed")
    # What only hosts and packers read stays behind.
    names = ("index.html", "service.js", "assets/a-1.js")
    assert brought == {f"pycore/serving/site/{name}" for name in names}
    command = [sys.executable, "-m", "pycore.cli", "page", "--port", "0"]
    serving = subprocess.Popen(
        command, cwd=tmp_path / "installed", stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    try:
        assert serving.stdout is not None
        said = serving.stdout.readline()
        found = re.fullmatch(r"Tuckfold is at (http://127\.0\.0\.1:\d+/) \(Ctrl-C ends it\)\n", said)
        assert found is not None, said
        with urlopen(found[1]) as answer:
            assert answer.read().decode() == PAGE
            assert answer.headers["Content-Security-Policy"] == "default-src 'self'; frame-ancestors 'none'"
        with urlopen(f"{found[1]}assets/a-1.js") as answer:
            assert "immutable" in answer.headers["Cache-Control"]
        with pytest.raises(HTTPError, match="404"):
            urlopen(f"{found[1]}none")
    finally:
        serving.send_signal(signal.SIGINT)
        out, err = serving.communicate(timeout=20)
    assert (serving.returncode, out, err.strip()) == (0, "The page is served no more.\n", "")
