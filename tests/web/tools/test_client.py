"""The viewer that comes with the package is what its sources give, whoever builds it."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from pycore.client.page import viewer_program

pytestmark = pytest.mark.native

WEB = Path(__file__).resolve().parents[3] / "web"


def test_the_committed_viewer_is_the_one_that_is_built() -> None:
    done = subprocess.run(
        ["node", "tools/client.mjs", "--check"],
        cwd=WEB,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_it_carries_the_licence_of_what_it_holds_and_loads_nothing() -> None:
    program = viewer_program().decode()
    licence = (WEB / "node_modules" / "three" / "LICENSE").read_text(encoding="utf-8").strip()
    assert licence in program
    for loading in (
        "import(",
        "importScripts",
        "fetch(",
        "XMLHttpRequest",
        "new Worker",
        "eval(",
        "WebSocket",
    ):
        assert loading not in program
