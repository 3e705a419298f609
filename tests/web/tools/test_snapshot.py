"""The memory snapshot is made and loaded in Node.js, with the pinned Pyodide whose private parts it needs."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from build.places import Places, places
from build.snapshot import COMPILED_ONCE, FOLDER, MANIFEST_FILE, make_snapshot

pytestmark = [pytest.mark.native, pytest.mark.slow]

ROOT = Path(__file__).resolve().parents[3]
AT = places(ROOT)


@pytest.fixture(scope="module")
def built() -> Path:
    """The folder of the runtime with its snapshot."""
    if not (AT.python / MANIFEST_FILE).is_file():
        pytest.fail("the Python runtime is not built: run python3 web/serve.py --build-only first")
    return AT.python


@pytest.fixture(scope="module")
def loaded(built: Path) -> dict[str, Any]:
    """What a Python says that was started from the snapshot, in a time zone of its own."""
    node = shutil.which("node")
    assert node is not None, "Node.js is missing"
    ended = subprocess.run(
        [node, COMPILED_ONCE, str(AT.web / "tools" / "load_snapshot.mjs"), str(built)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env={**os.environ, "TZ": "Asia/Tokyo"},
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    assert ended.stderr == ""
    found: dict[str, Any] = json.loads(ended.stdout.splitlines()[-1])
    return found


def elsewhere(tmp_path: Path, built: Path) -> Places:
    """A checkout with the same runtime, without its snapshot."""
    web = tmp_path / "web"
    leave = shutil.ignore_patterns(FOLDER, MANIFEST_FILE)
    shutil.copytree(built, web / "public" / "py", ignore=leave)
    for name in ("tools", "src", "node_modules", "package.json"):
        (web / name).symlink_to(AT.web / name)
    (tmp_path / "demo_data").symlink_to(AT.demo)
    return replace(AT, root=tmp_path)


def test_made_again_it_is_the_same_to_the_byte(tmp_path: Path, built: Path) -> None:
    at = elsewhere(tmp_path, built)
    packages = json.loads((built / "pyodide-lock.json").read_text(encoding="utf-8"))["packages"]
    # What the core depends on; the rest is fetched when it is first needed.
    names = ["tuckfold", *packages["tuckfold"]["depends"]]
    make_snapshot(at, wheels=[built / packages[name]["file_name"] for name in names], node="node")
    assert (at.python / MANIFEST_FILE).read_text() == (built / MANIFEST_FILE).read_text()


def test_the_core_is_there_without_an_import_and_answers(loaded: dict[str, Any]) -> None:
    assert loaded["before"] == {"core": True, "random": False}
    kind, text = loaded["hello"]
    assert kind == "result"
    assert json.loads(text)["job"]["face"]


def test_what_a_start_does_not_need_is_loaded_when_it_is_asked_for(loaded: dict[str, Any]) -> None:
    # derived: the same generator with the same seed, natively.
    assert loaded["generator"] == np.random.default_rng(1).random()
    assert f'"version": "{loaded["tifffile"]}"' in (ROOT / "web" / "pins.json").read_text(encoding="utf-8")


def test_chance_is_seeded_anew_and_local_times_are_this_machines(loaded: dict[str, Any]) -> None:
    assert loaded["kept"] != loaded["renewed"]
    # published: Japan Standard Time is UTC+9 (IANA time zone database); in seconds.
    assert loaded["zone"] == 9 * 3600


def test_the_folder_of_the_page_stands_once_in_the_search_path(loaded: dict[str, Any]) -> None:
    assert loaded["path"].count("") == 1
