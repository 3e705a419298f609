"""Downloads go to the user's cache folder, never into the repository."""

from __future__ import annotations

from pathlib import Path

import pytest
from build.places import places

pytestmark = pytest.mark.native

ROOT = Path("/src/tuckfold")


def test_the_users_cache_folder_is_the_one_that_the_environment_names() -> None:
    # published: XDG Base Directory Specification 0.8: $XDG_CACHE_HOME, else $HOME/.cache.
    assert places(ROOT, {"XDG_CACHE_HOME": "/c"}).cache == Path("/c/tuckfold")


def test_without_a_name_it_is_in_the_home_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/home/printer")
    monkeypatch.setattr("sys.platform", "linux")
    assert places(ROOT, {"XDG_CACHE_HOME": ""}).cache == Path("/home/printer/.cache/tuckfold")
    monkeypatch.setattr("sys.platform", "darwin")
    assert places(ROOT, {}).cache == Path("/home/printer/Library/Caches/tuckfold")


def test_what_is_built_lies_where_git_does_not_look() -> None:
    ignored = (Path(__file__).resolve().parents[3] / ".gitignore").read_text(encoding="utf-8").split()
    at = places(ROOT, {"XDG_CACHE_HOME": "/c"})
    for folder in (at.python, at.dist):
        assert f"{folder.relative_to(ROOT).as_posix()}/" in ignored
    assert "node_modules/" in ignored
    assert ".venv/" in ignored
