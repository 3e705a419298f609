"""Standard output that takes nothing ends in a sentence and a status, whatever is printed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

FULL = Path("/dev/full")

pytestmark = pytest.mark.native


@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize(
    "arguments", [["layout"], ["layout", "--json"], ["bars"], ["--version"], ["--help"], []]
)
def test_a_full_output_ends_in_a_sentence(arguments: list[str], unbuffered: str) -> None:
    with FULL.open("w") as full:
        ran = subprocess.run(
            [sys.executable, "-m", "pycore.cli", *arguments],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            env=os.environ | {"PYTHONUNBUFFERED": unbuffered},
            check=False,
        )
    # Derived: what is said of ENOSPC, and the status for what is no fault of the options.
    assert ran.returncode == 1
    assert ran.stderr == (
        "tuckfold: What was found out could not be printed: no space is left. "
        "Print it to a place with room.\n"
    )
