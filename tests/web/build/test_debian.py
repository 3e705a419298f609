"""What the system lacks is installed by its administrator, and named to everyone else."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import Any

import pytest
from build import debian
from build.debian import Need, install_browsers, install_needs, install_windowless
from build.failure import BuildError

pytestmark = pytest.mark.native


def test_a_need_is_met_by_any_of_its_programs_or_by_its_file(tmp_path: Path) -> None:
    assert Need("a", programs=("none-such", "sh")).is_met()
    assert not Need("a", programs=("none-such",)).is_met()
    (tmp_path / "file").touch()
    assert Need("a", file=str(tmp_path / "file")).is_met()
    assert not Need("a", file=str(tmp_path / "none")).is_met()
    assert Need("a", file=str(tmp_path.parent / "*" / "file")).is_met()


def test_nothing_is_installed_where_nothing_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(debian, "run", None)
    assert install_needs((Need("shell", programs=("sh",)),)) is False


def test_a_user_who_may_not_install_is_told_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    needs = (Need("shell", programs=("sh",)), Need("thing", programs=("none-such",)))
    with pytest.raises(BuildError, match=r"run apt-get install thing \(on Debian\)"):
        install_needs(needs)


def test_an_administrator_gets_just_what_is_missing(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    asked: list[list[str]] = []
    wanted = tmp_path / "profile.icc"

    def bring(command: list[str], **_: Any) -> None:
        asked.append(command)
        wanted.touch()

    monkeypatch.setattr(os, "geteuid", lambda: 0)
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}" if name != "none" else None)
    monkeypatch.setattr(debian, "run", bring)
    assert install_needs((Need("thing", file=str(wanted)), Need("shell", programs=("sh",)))) is True
    assert [command[1] for command in asked] == ["update", "install"]
    assert asked[1][-1] == "thing"
    assert "shell" not in asked[1]


def test_a_package_that_brought_nothing_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    monkeypatch.setattr(shutil, "which", lambda name: "/usr/bin/apt-get" if name == "apt-get" else None)
    monkeypatch.setattr(debian, "run", lambda *_, **__: None)
    with pytest.raises(BuildError, match="thing did not bring what the tests need"):
        install_needs((Need("thing", programs=("none-such",)),))


def test_a_browser_that_cannot_be_installed_is_left_out_with_a_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: Any, **__: Any) -> None:
        raise BuildError("installing Debian packages failed (exit status 100)", "see what it printed above")

    monkeypatch.setattr(os, "geteuid", lambda: 0)
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}" if name != "none" else None)
    monkeypatch.setattr(debian, "run", fail)
    browsers = {"One": (Need("one", programs=("none",)),), "Other": (Need("shell", programs=("sh",)),)}
    assert install_browsers(browsers) is False
    said = capsys.readouterr().out
    assert "the tests in One are left out: installing Debian packages failed" in said
    assert "Other" not in said


def test_a_chromium_that_only_saves_time_may_be_missing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    assert install_windowless((Need("thing", programs=("none-such",)),)) is False
    said = capsys.readouterr().out
    assert "take longer: the tests need what this machine has not" in said
    assert "apt-get install thing" in said


def test_a_browser_is_installed_though_another_cannot_be(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    wanted = tmp_path / "browser"

    def bring(command: list[str], **_: Any) -> None:
        if "unknown" in command:
            raise BuildError(
                "installing Debian packages failed (exit status 100)", "see what it printed above"
            )
        if "thing" in command:
            wanted.touch()

    monkeypatch.setattr(os, "geteuid", lambda: 0)
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}" if name != "none" else None)
    monkeypatch.setattr(debian, "run", bring)
    browsers = {
        "One": (Need("unknown", programs=("none",)),),
        "Other": (Need("thing", file=str(wanted)),),
    }
    assert install_browsers(browsers) is True
