"""Where `tuckfold page` finds the page, and what it says where there is none."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from pycore.errors import OutputError
from pycore.serving.site_folder import site_folder

pytestmark = pytest.mark.native


def made(folder: Path) -> Path:
    folder.mkdir(parents=True)
    (folder / "index.html").write_text("")
    return folder


def checkout(tmp_path: Path) -> Path:
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "serve.py").write_text("")
    return tmp_path


def test_a_wheel_brings_it(tmp_path: Path) -> None:
    packaged = made(tmp_path / "site")
    made(checkout(tmp_path) / "web" / "dist")
    assert site_folder(packaged=packaged, checkout=tmp_path) == packaged


def test_a_checkout_has_built_it(tmp_path: Path) -> None:
    dist = made(checkout(tmp_path) / "web" / "dist")
    assert site_folder(packaged=tmp_path / "none", checkout=tmp_path) == dist


def test_a_checkout_that_has_not_says_what_builds_it(tmp_path: Path) -> None:
    checkout(tmp_path)
    with pytest.raises(
        OutputError, match=r"not part of this installation. Run python3 .*serve.py --build-only"
    ):
        site_folder(packaged=tmp_path / "none", checkout=tmp_path)


def test_a_wheel_without_it_says_which_one_brings_it(tmp_path: Path) -> None:
    # Another program's folder of the same name is not the page.
    made(tmp_path / "web" / "dist")
    with pytest.raises(
        OutputError, match=r"Install the wheel that python3 web/serve.py --wheel FOLDER writes"
    ):
        site_folder(packaged=tmp_path / "none", checkout=tmp_path)


def test_the_server_loads_nothing_that_it_does_not_need() -> None:
    code = "import sys, pycore.serving.server, pycore.serving.site_folder; print(*sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in ran.stdout.split()}
    assert loaded & {"numpy", "PIL", "pydantic", "fpdf", "tifffile"} == set()
