"""The command that runs all tests: what it runs, and what reaches pytest."""

from __future__ import annotations

import importlib.util
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType
from typing import Any

import build.commands
import build.debian
import build.environment
import build.lanes
import build.page
import build.site
import pytest
from build.lanes import Outcome, Program

from tests.sharing_out import APART, next_unit

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]


class Started:
    """What would have been built and run."""

    def __init__(self) -> None:
        self.built: list[str] = []
        self.lanes: tuple[Sequence[Program], ...] = ()
        self.status = 0

    def run_lanes(self, *lanes: Sequence[Program], env: dict[str, str]) -> list[Outcome]:
        self.lanes = lanes
        return [Outcome(one.name, self.status, 1.0) for lane in lanes for one in lane]

    @property
    def pytest_arguments(self) -> list[str]:
        (tests,) = self.lanes[1]
        words = [str(part) for part in tests.command]
        assert words[1:3] == ["-m", "pytest"]
        return words[3:]


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> Started:
    """Nothing is installed, built or run."""
    found = Started()

    def done(name: str) -> Any:
        return lambda *_given, **_named: found.built.append(name)

    monkeypatch.setattr(build.lanes, "run_lanes", found.run_lanes)
    monkeypatch.setattr(build.commands, "find_node", lambda oldest: ("node", "npm"))
    monkeypatch.setattr(build.debian, "install_needs", done("system"))
    monkeypatch.setattr(build.debian, "install_windowless", done("without a window"))
    monkeypatch.setattr(build.debian, "install_browsers", done("other browsers"))
    monkeypatch.setattr(build.environment, "make_environment", done("environment"))
    monkeypatch.setattr(build.page, "install_packages", done("packages"))
    monkeypatch.setattr(build.site, "build_site", done("site"))
    return found


def loaded(name: str) -> ModuleType:
    """A file of this folder as a module of its own."""
    spec = importlib.util.spec_from_file_location(f"loaded_{name}", ROOT / "tests" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def program() -> ModuleType:
    return loaded("run")


def test_everything_is_built_and_run(program: ModuleType, started: Started) -> None:
    assert program.main([]) == 0
    # The environment is made beside the rest.
    others = [one for one in started.built if one != "environment"]
    assert others == ["system", "without a window", "other browsers", "site"]
    assert started.built.index("environment") > 0
    names = {one.name for one in started.lanes[0]}
    assert {"ruff check", "ruff format", "TypeScript types", "TypeScript tests"} <= names
    assert any(name.startswith("mypy") for name in names)
    commands = {str(part) for one in started.lanes[0] for part in one.command}
    assert {"lint", "format:check", "--noEmit"} <= commands
    # No marker: nothing is left out.
    assert "-m" not in started.pytest_arguments


def test_quick_leaves_browsers_and_pyodide_out(program: ModuleType, started: Started) -> None:
    assert program.main(["--quick"]) == 0
    assert sorted(started.built) == ["environment", "packages", "system"]
    given = started.pytest_arguments
    assert given[given.index("-m") + 1] == "not browser and not parity and not slow"
    assert "--quick" not in given


def test_whoever_asks_what_it_does_starts_nothing(
    program: ModuleType, started: Started, capsys: pytest.CaptureFixture[str]
) -> None:
    assert program.main(["--help"]) == 0
    assert (started.built, started.lanes) == ([], ())
    assert "--quick" in capsys.readouterr().out


@pytest.mark.parametrize("first", [[], ["--quick"]])
def test_arguments_go_to_pytest(program: ModuleType, started: Started, first: list[str]) -> None:
    program.main([*first, "-k", "fold", "-x"])
    # The last ones count, so that they may overrule those before.
    assert started.pytest_arguments[-3:] == ["-k", "fold", "-x"]


def test_a_failure_is_the_exit_status(program: ModuleType, started: Started) -> None:
    started.status = 3
    assert program.main(["--quick"]) == 1


def test_the_long_ones_come_first_and_nothing_else_moves() -> None:
    class Item:
        def __init__(self, path: str) -> None:
            self.path = Path(path)

    names = [
        "tests/a/test_b.py",
        "tests/browser/test_b.py",
        "tests/browser/test_a.py",
        "tests/browser/test_keeping.py",
        "tests/parity/test_a.py",
    ]
    items = [Item(f"/x/{name}") for name in (*names, "pycore/a.py")]
    loaded("conftest").in_order(items, root=Path("/x"))
    order = [one.path.relative_to("/x").as_posix() for one in items]
    assert order == [names[4], names[3], names[1], names[2], names[0], "pycore/a.py"]


def test_the_last_process_takes_what_needs_no_browser() -> None:
    units = ["tests/parity/test_a.py", "tests/browser/test_a.py", "tests/test_b.py"]
    assert next_unit(units, waits=True) == units[1]
    assert next_unit(units, waits=False) == units[0]
    assert next_unit(units[1:2], waits=False) == units[1]
    assert next_unit(units[2:], waits=True) == units[2]


def test_every_long_name_and_every_file_apart_is_there() -> None:
    for name in (*loaded("conftest")._LONG, *APART):
        assert (ROOT / name).exists(), name


def test_of_a_test_the_last_case_runs_in_pyodide() -> None:
    cases = [f"a.py::test_many[{number}]" for number in range(9)]
    assert loaded("conftest").one_case([*cases, "a.py::test_one"]) == {cases[8], "a.py::test_one"}


def test_lint_and_format_are_steps_of_the_run(program: ModuleType, started: Started) -> None:
    assert program.main(["--quick"]) == 0
    commands = [[str(part) for part in one.command] for one in started.lanes[0]]
    for script in ("lint", "format:check"):
        assert ["npm", "run", "--silent", script] in [command[:4] for command in commands]
