"""Wheels are used only when their bytes are the pinned ones."""

from __future__ import annotations

import hashlib
import zipfile
from pathlib import Path

import pytest
from build import wheels
from build.failure import BuildError
from build.pins import Carrier, WheelPin, read_pins

pytestmark = pytest.mark.native

GOOD = b"the wheel's bytes"
PIN = WheelPin("thing", "1.0", "thing-1.0-py3-none-any.whl", hashlib.sha256(GOOD).hexdigest())
CARRIER = Carrier("carrier", "2.0", "3.12", "carried/")
ROOT = Path(__file__).resolve().parents[3]


def test_a_cached_wheel_with_the_pinned_hash_is_used_without_asking_anyone(tmp_path: Path) -> None:
    (tmp_path / PIN.file).write_bytes(GOOD)
    assert wheels.cached_wheels([PIN], folder=tmp_path) == {"thing": tmp_path / PIN.file}


def test_a_cached_wheel_with_another_hash_is_refused_and_removed(tmp_path: Path) -> None:
    (tmp_path / PIN.file).write_bytes(GOOD + b"!")
    with pytest.raises(
        BuildError, match=r"thing-1\.0-py3-none-any\.whl has the wrong hash .*: it was removed"
    ):
        wheels.cached_wheels([PIN], folder=tmp_path)
    assert list(tmp_path.iterdir()) == []


def carry(monkeypatch: pytest.MonkeyPatch, files: dict[str, bytes]) -> None:
    """Let the download of the carrier bring these files, without a network."""

    def bring(command: list[str], *, cwd: Path, what: str) -> None:
        with zipfile.ZipFile(cwd / "carrier-2.0-py3-none-any.whl", "w") as package:
            for name, data in files.items():
                package.writestr(name, data)

    monkeypatch.setattr(wheels, "run", bring)


def test_only_the_pinned_wheels_are_taken_out_of_the_carrier(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    carry(monkeypatch, {f"carried/{PIN.file}": GOOD, "carried/other.whl": b"", "program.py": b""})
    wheels.cached_wheels([PIN], folder=tmp_path / "cache", carrier=CARRIER)
    assert [path.name for path in (tmp_path / "cache").iterdir()] == [PIN.file]


def test_a_carried_wheel_with_another_hash_is_refused_and_nothing_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    carry(monkeypatch, {f"carried/{PIN.file}": b"changed on the way"})
    with pytest.raises(BuildError, match="wrong hash"):
        wheels.cached_wheels([PIN], folder=tmp_path / "cache", carrier=CARRIER)
    assert list((tmp_path / "cache").iterdir()) == []


def test_a_carrier_without_the_wheel_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    carry(monkeypatch, {"carried/other.whl": b""})
    with pytest.raises(BuildError, match=r"carrier==2\.0 carries no thing-1\.0"):
        wheels.cached_wheels([PIN], folder=tmp_path, carrier=CARRIER)


def test_without_a_network_the_message_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Port 9 of this machine is the discard service, which nothing runs; no other index is asked.
    settings = {
        "PIP_CONFIG_FILE": "/dev/null",
        "PIP_INDEX_URL": "http://127.0.0.1:9/simple",
        "PIP_EXTRA_INDEX_URL": "",
        "PIP_FIND_LINKS": "",
        "PIP_RETRIES": "1",
    }
    for name, value in settings.items():
        monkeypatch.setenv(name, value)
    with pytest.raises(BuildError, match="there is no network: connect, then run the same command again"):
        wheels.cached_wheels([PIN], folder=tmp_path)


def test_the_pins_name_what_pyodides_own_lock_file_names() -> None:
    pins = read_pins(ROOT / "web" / "pins.json")
    names = {pin.name for pin in pins.carried}
    # derived: what design and pyproject.toml ask for in the browser, with what these need.
    assert {"numpy", "pillow", "pydantic", "pydantic-core"} <= names
    every = (*pins.carried, *pins.pure, *pins.source, *pins.backend, *pins.parity)
    assert all(len(pin.sha256) == 64 for pin in every)
    # The tests compare with these very versions natively.
    assert all(
        pins.constraints[pin.name] == pin.version
        for pin in (*pins.carried, *pins.pure, *pins.source, *pins.parity)
    )
