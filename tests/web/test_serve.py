"""The command `python3 web/serve.py` as a user meets it, above all where something is missing."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[2]
SERVE = ROOT / "web" / "serve.py"


def serve(*arguments: str, python: str = sys.executable, **environ: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [python, str(SERVE), *arguments],
        env={**os.environ, **environ},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


def assert_fails(result: subprocess.CompletedProcess[str], message: str) -> None:
    """One line on standard error, no traceback."""
    assert result.returncode == 1, result.stdout + result.stderr
    assert result.stderr.startswith("tuckfold: ")
    assert result.stderr.count("\n") == 1
    assert message in result.stderr


def test_without_node_it_says_what_to_install(tmp_path: Path) -> None:
    result = serve("--build-only", PATH=str(tmp_path))
    assert_fails(result, "Node.js is missing: install Node.js 20.19 or newer with npm")


def fake_program(folder: Path, name: str, says: str) -> None:
    path = folder / name
    path.write_text(f"#!/bin/sh\necho {says}\n")
    path.chmod(0o755)


def test_without_npm_it_says_what_to_install(tmp_path: Path) -> None:
    fake_program(tmp_path, "node", "v20.19.0")
    result = serve("--build-only", PATH=str(tmp_path))
    assert_fails(result, "npm is missing: install Node.js 20.19 or newer with npm")


def test_an_old_node_is_named(tmp_path: Path) -> None:
    fake_program(tmp_path, "node", "v18.20.4")
    fake_program(tmp_path, "npm", "10.0.0")
    result = serve("--build-only", PATH=f"{tmp_path}{os.pathsep}/bin")
    assert_fails(result, "Node.js v18.20.4 is too old: install Node.js 20.19 or newer")


def test_a_taken_port_is_told_before_anything_is_built() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        result = serve("--port", str(port))
    assert_fails(result, f"Port {port} is taken")
    assert result.stdout == ""


@pytest.mark.parametrize("port", ["70000", "-1", "eighty"])
def test_a_port_that_is_none_is_refused(port: str) -> None:
    result = serve(f"--port={port}")
    assert result.returncode == 2
    assert f"expected a port from 0 to 65535, got '{port}'" in result.stderr


def test_without_pip_it_says_what_to_install(tmp_path: Path) -> None:
    bare = tmp_path / "bare"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(bare)], check=True)
    empty = str(tmp_path / "cache")
    result = serve("--build-only", python=str(bare / "bin" / "python"), XDG_CACHE_HOME=empty)
    assert_fails(result, "this Python has no pip: install it")


def test_a_cache_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    # A file where a folder should be: also the administrator, who may write anywhere, cannot write into it.
    blocked = tmp_path / "blocked"
    blocked.write_text("")
    result = serve("--build-only", XDG_CACHE_HOME=str(blocked))
    assert_fails(result, f"{blocked}/tuckfold/wheels could not be read or written")


def test_a_wheel_with_the_wrong_hash_stops_the_build(tmp_path: Path) -> None:
    wheels = tmp_path / "tuckfold" / "wheels"
    wheels.mkdir(parents=True)
    (wheels / "annotated_types-0.7.0-py3-none-any.whl").write_bytes(b"not the wheel")
    # The other wheels are there, so that nothing is downloaded before the hashes are looked at.
    for name in kept_wheels():
        (wheels / name).touch()
    result = serve("--build-only", XDG_CACHE_HOME=str(tmp_path))
    assert_fails(result, "annotated_types-0.7.0-py3-none-any.whl has the wrong hash")
    assert "nothing was built from it" in result.stderr


def kept_wheels() -> list[str]:
    from build.pins import read_pins

    pins = read_pins(ROOT / "web" / "pins.json")
    return [pin.file for pin in pins.carried if pin.name != "annotated-types"]


@pytest.mark.slow
def test_a_repeated_run_does_nothing() -> None:
    # Without packed copies, which take minutes where anything has changed.
    assert serve("--build-only", "--no-packing").returncode == 0
    again = serve("--build-only", "--no-packing")
    assert again.returncode == 0
    # derived: four steps (packages, runtime, page, site), each of which tells when nothing changed.
    assert again.stdout.count("up to date") == 4
    assert (ROOT / "web" / "dist" / "index.html").is_file()
