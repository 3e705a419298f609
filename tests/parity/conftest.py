"""One run of Pyodide in Node.js serves all the tests here."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from build.pins import read_pins
from build.places import places
from build.wheels import cached_wheels

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class PyodideRun:
    """What came of it."""

    status: int
    printed: str
    results: Path


@pytest.fixture(scope="session")
def pyodide_run(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PyodideRun]:
    """The core's own tests and the comparable results, inside Pyodide."""
    at = places(ROOT)
    if not (at.python / "pyodide-lock.json").is_file():
        pytest.fail("the Python runtime is not built: run python3 web/serve.py --build-only first")
    node = shutil.which("node")
    assert node is not None, "Node.js is missing"
    tools = cached_wheels(read_pins(at.web / "pins.json").parity, folder=at.wheels)
    out = tmp_path_factory.mktemp("pyodide")
    command = [node, at.web / "tools" / "pyodide_node.mjs", ROOT, out, *tools.values(), "--", "-q"]
    ended = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, timeout=900, check=False
    )
    yield PyodideRun(ended.returncode, ended.stdout + ended.stderr[-4000:], out / "computed.npz")
