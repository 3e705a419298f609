"""Other programs' failures are told in one line."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from build.commands import run
from build.failure import BuildError

pytestmark = pytest.mark.native


def python(*lines: str) -> list[str]:
    return [sys.executable, "-c", "\n".join(lines)]


def test_what_a_program_prints_is_shown_as_it_runs(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(python("import os", "print('one')", "print(os.getcwd())"), cwd=tmp_path, what="counting")
    assert capsys.readouterr().out == f"    one\n    {tmp_path}\n"


def test_a_failure_is_named_with_its_status(tmp_path: Path) -> None:
    with pytest.raises(BuildError, match=r"counting failed \(exit status 3\): see what it printed above"):
        run(python("raise SystemExit(3)"), cwd=tmp_path, what="counting")


@pytest.mark.parametrize(
    "said",
    [
        "npm error code EAI_AGAIN",
        "npm error network request to a registry failed, reason: getaddrinfo ENOTFOUND",
        "Failed to establish a new connection: [Errno 111] Connection refused",
        "[Errno -3] Temporary failure in name resolution",
    ],
)
def test_a_missing_network_is_told_apart(tmp_path: Path, said: str) -> None:
    with pytest.raises(BuildError, match="counting failed, for there is no network: connect"):
        run(python(f"raise SystemExit({said!r})"), cwd=tmp_path, what="counting")


def test_a_program_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(BuildError, match="counting could not be started"):
        run([tmp_path / "none"], cwd=tmp_path, what="counting")
