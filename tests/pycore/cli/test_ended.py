"""A command that is asked to end leaves nothing half-written."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

pytestmark = pytest.mark.native


def test_a_command_that_is_ended_while_it_writes_leaves_no_file(tmp_path: Path) -> None:
    noise = np.random.default_rng(5).integers(0, 256, (400, 600, 3), dtype=np.uint8)
    Image.fromarray(noise).save(tmp_path / "pier.png")
    out = tmp_path / "out"
    out.mkdir()
    command = [
        sys.executable,
        "-m",
        "pycore.cli",
        "print",
        str(tmp_path / "pier.png"),
        "--set",
        "print.ppi=600",
    ]
    with subprocess.Popen(
        [*command, "--out", str(out / "pier.png")], stderr=subprocess.PIPE, text=True
    ) as ran:
        until = time.monotonic() + 60
        while not list(out.iterdir()):
            assert ran.poll() is None
            assert time.monotonic() < until
            time.sleep(0.02)
        ran.terminate()
        said = ran.communicate(timeout=60)[1]
    assert ran.returncode == 1
    assert said.endswith("tuckfold: Stopped.\n")
    assert not list(out.iterdir())
