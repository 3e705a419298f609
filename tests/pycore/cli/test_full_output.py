"""Standard output that takes nothing ends in a sentence and a status, whatever is printed."""

from __future__ import annotations

import json
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


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "utf-8"])
def test_an_output_without_a_letter_gets_its_number(encoding: str, tmp_path: Path) -> None:
    """Windows encodes what goes to a file in its own pages; a name may have any letter."""
    job = tmp_path / "job.json"
    job.write_text(json.dumps({"name": "Tide 潮"}), encoding="utf-8")

    def printed(*more: str) -> str:
        ran = subprocess.run(
            [sys.executable, "-m", "pycore.cli", "plan", str(job), *more],
            capture_output=True,
            env=os.environ | {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
            check=False,
        )
        assert (ran.returncode, ran.stderr) == (0, b"")
        return ran.stdout.decode(encoding)

    assert ("Tide 潮" if encoding == "utf-8" else r"Tide \u6f6e") in printed()
    pieces = json.loads(printed("--json"))["sheets"][0]["pieces"]
    assert [one["name"] for one in pieces] == ["Tide 潮"]
