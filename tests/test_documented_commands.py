"""Whatever a document tells a person to run is run: here, or by a test that documented_commands.py names.

The documents are README.md, DEVELOPERS.md, the docstrings of all modules, and the first lines of web/tools/.
"""

from __future__ import annotations

import ast
import json
import os
import re
import shlex
import shutil
import signal
import subprocess
import sys
import tomllib
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
from build.places import places
from native_core import open_native_server
from served import served as serving

from pycore.cli.main import main
from tests.documented_commands import DEMO, KNOWN, PROFILE, ROOT, TABLE, WHEEL, Elsewhere, Here

pytestmark = pytest.mark.native

_STARTS: Final = r"(?:python3?|tuckfold|node|npm)\b"
_INLINE: Final = re.compile(rf"(?<!`)`({_STARTS}[^`]*)`")
_LINE: Final = re.compile(rf"^(?:    |// )?({_STARTS}.*)$", re.MULTILINE)


def commands_of(text: str) -> set[str]:
    """Commands in a text, without what is optional and without the remark that may follow after a gap."""
    found = {*_INLINE.findall(text), *_LINE.findall(text)}
    bare = (re.sub(r" *\[.*?\]", "", re.split(r"   +|: ", one)[0]).rstrip(":") for one in found)
    return {one for one in bare if " " in one}


def documented() -> dict[str, set[str]]:
    """The commands of every document."""
    found = {}
    for name in ("README.md", "DEVELOPERS.md"):
        found[name] = commands_of((ROOT / name).read_text(encoding="utf-8"))
    modules = [
        path for top in ("demo_data", "pycore", "tests", "web/build") for path in (ROOT / top).rglob("*.py")
    ]
    for path in (*modules, ROOT / "web" / "serve.py"):
        text = path.read_text(encoding="utf-8")
        # Few sources hold anything that looks like a command, and to parse all of them takes long.
        docstring = ast.get_docstring(ast.parse(text), clean=False) if commands_of(text) else ""
        found[path.relative_to(ROOT).as_posix()] = commands_of(docstring or "")
    for path in (ROOT / "web" / "tools").glob("*.mjs"):
        lines = path.read_text(encoding="utf-8").splitlines()
        head = "\n".join(line for line in lines if line.startswith("// node"))
        found[path.relative_to(ROOT).as_posix()] = commands_of(head)
    return found


DOCUMENTED: Final = documented()
ALL: Final = set().union(*DOCUMENTED.values())
LINES: Final = sorted(one for one in ALL if one.startswith("tuckfold "))
#: Those with their output below them: tests/demo_data/test_readme.py runs them, and compares what they print.
WITH_OUTPUT: Final = frozenset(
    re.findall(r"^```\n(tuckfold [^\n]*)\n", (ROOT / "README.md").read_text(encoding="utf-8"), re.MULTILINE)
)
ALONE: Final = [one for one in LINES if one not in WITH_OUTPUT]
HERE: Final = {name: how for name, how in KNOWN.items() if isinstance(how, Here)}


def test_every_documented_command_is_known() -> None:
    places = {
        command: sorted(place for place, commands in DOCUMENTED.items() if command in commands)
        for command in ALL - KNOWN.keys() - set(LINES)
    }
    assert places == {}, "a command that no test runs: run it here, or name the test that does"


def test_every_known_command_is_documented() -> None:
    assert KNOWN.keys() - ALL == set()


def test_the_documents_are_read() -> None:
    # derived: the README's tables hold two commands, and its block one of each kind that writes a file.
    assert {"python3 web/serve.py", "python3 tests/run.py"} <= DOCUMENTED["README.md"]
    assert {line.split()[1] for line in DOCUMENTED["README.md"] if line in LINES} >= {
        "print",
        "client",
        "model",
    }
    assert commands_of("    python3 a.py FILE [--b C]    over there\n") == {"python3 a.py FILE"}
    assert commands_of("Say `npm run x` or `python`.") == {"npm run x"}


@pytest.mark.parametrize("command", [name for name, how in KNOWN.items() if isinstance(how, Elsewhere)])
def test_the_test_that_runs_it_is_there(command: str) -> None:
    how = KNOWN[command]
    assert isinstance(how, Elsewhere)
    path, _, name = how.test.partition("::")
    text = (ROOT / path).read_text(encoding="utf-8")
    assert name
    assert (f"def {name}(" if path.endswith(".py") else f'test("{name}') in text


def test_ci_runs_what_the_readme_says() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "exec python3 tests/run.py\n" in script
    assert "python3 tests/run.py" in DOCUMENTED["README.md"]


def run(command: list[str], *, cwd: Path, stdin: Path | None = None) -> str:
    """Run a program with the checkout's core and return what it prints."""
    given = None if stdin is None else stdin.read_text(encoding="utf-8")
    environ = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        command,
        cwd=cwd,
        env=environ,
        input=given,
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_name_of_the_command_is_that_of_the_module_that_is_run() -> None:
    project: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["scripts"] == {"tuckfold": "pycore.cli.start:run"}


@pytest.mark.parametrize("line", [line for line in ALONE if line.count(" ") == 1])
def test_a_command_says_what_it_takes(line: str, capsys: pytest.CaptureFixture[str]) -> None:
    """The name of a command alone, which asks for more."""
    with pytest.raises(SystemExit) as ended:
        main([line.split()[1], "--help"])
    assert ended.value.code == 0
    assert capsys.readouterr().out.startswith(f"usage: {line} ")


@pytest.mark.parametrize("line", [line for line in ALONE if line.count(" ") > 1])
def test_a_line_of_the_command_line_runs_as_it_stands(line: str, tmp_path: Path) -> None:
    """On the demo's picture and job, under the names that the documents use."""
    for source, name in (
        (DEMO / "estuary.jpg", "tide.jpg"),
        (DEMO / "room.jpg", "room.jpg"),
        (DEMO / "demo_job.json", "job.json"),
        (PROFILE, "canvas.icc"),
        *((DEMO / name, name) for name in ("strip.cgats.txt", "measured.txt", "answer.txt", "shop.json")),
    ):
        shutil.copy(source, tmp_path / name)
    (tmp_path / "colours.txt").write_text("0.5 0.25 0.75\n0 0 0\n", encoding="utf-8")
    (tmp_path / "spring.csv").write_text(TABLE, encoding="utf-8")
    words = shlex.split(line)[1:]
    stdin = None
    if "<" in words:
        words, stdin = words[: words.index("<")], tmp_path / words[-1]
    printed = run([sys.executable, "-m", "pycore.cli", *words], cwd=tmp_path, stdin=stdin)
    if "--json" in words:
        assert json.loads(printed)
    else:
        assert printed.strip()
    if "--out" in words:
        made = tmp_path / words[words.index("--out") + 1]
        files = [one for one in (made, *made.rglob("*")) if one.is_file()]
        assert sum(one.stat().st_size for one in files) > 1000


def run_here(how: Here, folder: Path, **addresses: str) -> None:
    words = [one.format(folder=folder, wheel=WHEEL, **addresses) for one in how.arguments.split()]
    printed = run([how.program, *words], cwd=ROOT)
    if not how.made:
        assert printed.strip()
        return
    made = (folder / how.made).read_bytes()
    assert made
    if how.committed is not None:
        assert made == how.committed.read_bytes()


@pytest.mark.parametrize(
    "command",
    [
        pytest.param(name, marks=[pytest.mark.slow] if how.slow else [])
        for name, how in HERE.items()
        if not how.browser
    ],
)
def test_a_script_runs(command: str, tmp_path: Path) -> None:
    run_here(HERE[command], tmp_path)


@pytest.mark.browser
def test_the_site_is_served_until_a_key_ends_it() -> None:
    """Its server is that of the browser tests: asked is what it serves, and how it sends that."""
    dist = places(ROOT).dist
    (program,) = (dist / "py").glob("pyodide.asm-*.wasm")
    sent = {}
    command = [sys.executable, str(ROOT / "web" / "serve.py"), "--port", "0"]

    def hear_interrupts() -> None:
        # A run in the background hands on that it hears none.
        signal.signal(signal.SIGINT, signal.SIG_DFL)

    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, encoding="utf-8", preexec_fn=hear_interrupts
    ) as server:
        printed = ""
        for line in server.stdout or ():
            printed += line
            found = re.match(r"Tuckfold is at (http://\S+) ", line)
            if found:
                try:
                    for name in ("", "runtime.json", f"py/{program.name}"):
                        with urllib.request.urlopen(f"{found[1]}{name}", timeout=30) as answer:
                            sent[name] = (answer.headers, answer.read())
                finally:
                    server.send_signal(signal.SIGINT)
                break
        else:
            pytest.fail(f"it serves nothing:\n{printed}")
        assert server.wait(timeout=30) == 0
    assert {name or "index.html": data for name, (_, data) in sent.items()} == {
        name: (dist / name).read_bytes() for name in ("index.html", "runtime.json", f"py/{program.name}")
    }
    policy = sent[""][0]["Content-Security-Policy"]
    assert "'wasm-unsafe-eval'" in policy
    assert sent[f"py/{program.name}"][0]["Content-Type"] == "application/wasm"


@pytest.fixture(scope="module")
def quick() -> Iterator[str]:
    """The address of the site with the core in a native Python."""
    with serving(open_native_server(places(ROOT).dist, under="/")) as address:
        yield address


@pytest.mark.browser
@pytest.mark.parametrize("command", [name for name, how in HERE.items() if how.browser])
def test_a_script_that_needs_a_browser_runs(command: str, quick: str, tmp_path: Path) -> None:
    run_here(HERE[command], tmp_path, quick=quick)
