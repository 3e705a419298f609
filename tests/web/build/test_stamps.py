"""Stamps: a step is repeated when its inputs or its outputs are not what they were."""

from __future__ import annotations

from pathlib import Path

import pytest
from build.stamps import Stamp, digest, sha256_of


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    folder = tmp_path / "tree"
    (folder / "sub" / "__pycache__").mkdir(parents=True)
    (folder / "a.txt").write_text("a")
    (folder / "sub" / "b.txt").write_text("b")
    return folder


def test_a_digest_follows_bytes_and_names_but_neither_dates_nor_places(tree: Path, tmp_path: Path) -> None:
    before = digest([tree], base=tree)
    (tree / "a.txt").touch()
    (tree / "sub" / "__pycache__" / "b.pyc").write_text("compiled")
    assert digest([tree], base=tree) == before
    moved = tree.rename(tmp_path / "moved")
    assert digest([moved], base=moved) == before
    (moved / "a.txt").write_text("A")
    changed = digest([moved], base=moved)
    (moved / "a.txt").rename(moved / "c.txt")
    assert len({before, changed, digest([moved], base=moved)}) == 3


def test_a_digest_follows_what_else_it_is_told(tree: Path) -> None:
    assert digest([tree], base=tree, extra="1") != digest([tree], base=tree, extra="2")


def test_an_absent_file_counts_as_absent(tree: Path) -> None:
    assert digest([tree / "none"], base=tree) == digest([], base=tree)


def test_a_stamp_is_fresh_only_for_what_it_saw(tmp_path: Path) -> None:
    stamp = Stamp(tmp_path / "stamps", "page")
    assert not stamp.is_fresh(inputs="i", outputs="o")
    stamp.write(inputs="i", outputs="o")
    assert stamp.is_fresh(inputs="i", outputs="o")
    assert not stamp.is_fresh(inputs="changed", outputs="o")
    assert not stamp.is_fresh(inputs="i", outputs="deleted")
    assert not Stamp(tmp_path / "stamps", "other").is_fresh(inputs="i", outputs="o")


def test_a_damaged_stamp_is_not_fresh(tmp_path: Path) -> None:
    (tmp_path / "page.json").write_text("{")
    assert not Stamp(tmp_path, "page").is_fresh(inputs="i", outputs="o")


def test_sha256_of_a_file(tmp_path: Path) -> None:
    (tmp_path / "abc").write_bytes(b"abc")
    # published: FIPS 180-2, appendix B.1, the digest of the message "abc".
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert sha256_of(tmp_path / "abc") == expected
