"""Wheels as one pack, and the libraries among their files."""

from __future__ import annotations

import base64
import hashlib
import json
import zipfile
from pathlib import Path

import pytest
from build.failure import BuildError
from build.snapshot import LIBRARIES, SITE_PACKAGES, library_paths, packed, place, unpacked

NAMES = [f"{start}.cpython-313-wasm32-emscripten.so" for start in LIBRARIES]


def test_wheels_are_unpacked_in_the_order_of_their_paths(tmp_path: Path) -> None:
    for wheel, name in (("one.whl", "b/x.pyc"), ("two.whl", "a/y.pyc")):
        with zipfile.ZipFile(tmp_path / wheel, "w") as archive:
            archive.mkdir("folder")
            archive.writestr(name, wheel)
    found = unpacked([tmp_path / "one.whl", tmp_path / "two.whl"])
    assert list(found.items()) == [("a/y.pyc", b"two.whl"), ("b/x.pyc", b"one.whl")]


def test_a_pack_lists_where_each_content_lies() -> None:
    data = packed({"a.pyc": b"abc", "b/c.pyc": b"", "d.pyc": b"de"})
    length = int.from_bytes(data[:4], "little")
    entries = json.loads(data[4 : 4 + length])
    assert [path for path, _, _ in entries] == [
        f"{SITE_PACKAGES}/{name}" for name in ("a.pyc", "b/c.pyc", "d.pyc")
    ]
    contents = data[4 + length :]
    assert [contents[start : start + size] for _, start, size in entries] == [b"abc", b"", b"de"]


def test_libraries_keep_their_order_whatever_that_of_the_files() -> None:
    assert library_paths(dict.fromkeys(sorted(NAMES), b"")) == NAMES


@pytest.mark.parametrize("names", [NAMES[1:], [*NAMES, f"{LIBRARIES[0]}.other.so"]])
def test_a_library_that_is_missing_or_there_twice_is_told(names: list[str]) -> None:
    with pytest.raises(BuildError, match=rf"hold [02] libraries {LIBRARIES[0]}"):
        library_paths(dict.fromkeys(names, b""))


def test_a_placed_file_is_named_by_its_hash_and_browsers_can_check_it(tmp_path: Path) -> None:
    (tmp_path / "memory.bin").write_bytes(b"abc")
    (tmp_path / "snapshot").mkdir()
    # published: FIPS 180-2, appendix B.1: sha256("abc").
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == digest
    assert place(tmp_path / "memory.bin", tmp_path / "snapshot", ".bin") == {
        "file": "snapshot/memory-ba7816bf8f01cfea.bin",
        "integrity": f"sha256-{base64.b64encode(bytes.fromhex(digest)).decode()}",
    }
    assert (tmp_path / "snapshot" / "memory-ba7816bf8f01cfea.bin").read_bytes() == b"abc"
