"""The site's lock file names our wheels with the hashes of the files that are really there."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from build.failure import BuildError
from build.pins import WheelPin, read_pins
from build.runtime import check_against_lock, place_by_content, site_lock

PIN = WheelPin("numpy", "2.2.5", "numpy-2.2.5-cp313-cp313-pyodide_2025_0_wasm32.whl", "3" * 64)
ENTRY: dict[str, Any] = {"version": PIN.version, "file_name": PIN.file, "sha256": PIN.sha256, "depends": []}
ROOT = Path(__file__).resolve().parents[3]


def test_pins_that_agree_with_pyodides_lock_file_pass() -> None:
    check_against_lock((PIN,), {"packages": {"numpy": ENTRY}})


@pytest.mark.parametrize("change", [{"sha256": "4" * 64}, {"version": "2.2.6"}, {"file_name": "other.whl"}])
def test_pins_that_differ_from_pyodides_lock_file_are_refused(change: dict[str, str]) -> None:
    with pytest.raises(BuildError, match="disagree on numpy"):
        check_against_lock((replace(PIN),), {"packages": {"numpy": ENTRY | change}})


def test_a_package_that_pyodide_does_not_know_is_refused() -> None:
    with pytest.raises(BuildError, match="disagree on numpy"):
        check_against_lock((PIN,), {"packages": {}})


def test_a_wheel_is_placed_under_a_name_that_holds_its_hash(tmp_path: Path) -> None:
    wheel = tmp_path / "thing-1.0-py3-none-any.whl"
    wheel.write_bytes(b"abc")
    (tmp_path / "site").mkdir()
    placed = place_by_content(wheel, tmp_path / "site")
    # published: FIPS 180-2, appendix B.1: sha256("abc") starts with ba7816bf8f.
    assert placed.name == "thing-1.0-0ba7816bf8f-py3-none-any.whl"
    assert placed.read_bytes() == b"abc"


@pytest.mark.native
def test_the_core_depends_on_all_others_and_each_hash_is_that_of_its_file(tmp_path: Path) -> None:
    pins = read_pins(ROOT / "web" / "pins.json")
    first = [pin.name for pin in (*pins.carried, *pins.pure)]
    names = {pin.name: pin.file for pin in (*pins.carried, *pins.pure, *pins.late)}
    late = {pin.name: f"{pin.name}-{pin.version}-py3-none-any.whl" for pin in pins.source}
    placed: dict[str, Path] = {}
    for name, file in {**names, **late, "tuckfold": "tuckfold-0.1.0-py3-none-any.whl"}.items():
        placed[name] = tmp_path / file
        placed[name].write_bytes(name.encode())
    entries = {pin.name: {"name": pin.name, "depends": ["kept"]} for pin in pins.carried}
    lock = site_lock({"info": {"python": "3.13.2"}, "packages": {**entries, "unused": {}}}, pins, placed)
    assert set(lock["packages"]) == set(placed)
    assert lock["packages"]["tuckfold"]["depends"] == sorted(first)
    assert late.keys() == {"rectpack"}
    assert lock["packages"]["tuckfold"]["version"] == "0.1.0"
    assert lock["packages"]["numpy"]["depends"] == ["kept"]
    for name, entry in lock["packages"].items():
        assert entry["sha256"] == hashlib.sha256(name.encode()).hexdigest()
        assert entry["file_name"] == placed[name].name
