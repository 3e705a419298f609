"""Whatever a document tells a person to run is run: here, or by a test that is named here.

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
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import pytest
from build.pins import read_pins
from build.places import places

pytestmark = pytest.mark.native

ROOT: Final = Path(__file__).resolve().parents[1]
DEMO: Final = ROOT / "demo_data"
PROFILE: Final = ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"
LETTERS: Final = ROOT / "pycore" / "printing" / "pdf" / "data" / "letters.ttf"
COLOUR: Final = ROOT / "tests" / "pycore" / "colour"

#: The smallest of the wheels that the site carries.
WHEEL: Final = places(ROOT).wheels / read_pins(ROOT / "web" / "pins.json").carried[0].file

_STARTS: Final = r"(?:python3?|tuckfold|node|npm)\b"
_INLINE: Final = re.compile(rf"(?<!`)`({_STARTS}[^`]*)`")
_LINE: Final = re.compile(rf"^(?:    |// )?({_STARTS}.*)$", re.MULTILINE)


@dataclass(frozen=True)
class Here:
    """A command that is run here: what follows the program, `{folder}` being a folder of the test's own.

    What the file `made` holds is to be what `committed` holds, byte for byte.
    """

    arguments: str
    made: str = ""
    committed: Path | None = None
    program: str = sys.executable
    browser: bool = False
    slow: bool = False


@dataclass(frozen=True)
class Elsewhere:
    """A command that another test runs, and why it is not run here."""

    reason: str
    test: str


#: What `spring.csv` holds.
TABLE: Final = "name,picture.file,face.width_mm,face.height_mm\nLow tide,tide.jpg,240,180\n"

COMPARE: Final = "tests/compare_commits.py HEAD --jobs mirror --commands layout"
MAKER: Final = "python -m pycore.colour.illustrative.make_profile"

#: Every command but `tuckfold`, whose lines are run as they stand.
KNOWN: Final[dict[str, Here | Elsewhere]] = {
    "python -m pycore.cli": Here("-m pycore.cli --help"),
    f"{MAKER} pycore/colour/illustrative/illustrative-matte.icc": Here(
        "-m pycore.colour.illustrative.make_profile {folder}/matte.icc", "matte.icc", PROFILE, slow=True
    ),
    "python -m pycore.printing.pdf.make_letters pycore/printing/pdf/data": Here(
        "-m pycore.printing.pdf.make_letters {folder}", "letters.ttf", LETTERS
    ),
    "python tests/pycore/colour/make_profiles.py tests/pycore/colour/data": Here(
        "tests/pycore/colour/make_profiles.py {folder}", "cmyk-v2.icc", COLOUR / "data" / "cmyk-v2.icc"
    ),
    "python tests/pycore/colour/littlecms.py table FILE...": Here(
        "tests/pycore/colour/littlecms.py table tests/pycore/colour/data/grey-v2.icc"
    ),
    "python tests/pycore/colour/littlecms.py table": Here(
        "tests/pycore/colour/littlecms.py table tests/pycore/colour/data/matrix-v4.icc"
    ),
    "python tests/pycore/colour/littlecms.py store": Here(
        "tests/pycore/colour/littlecms.py store --out {folder}/stored.json",
        "stored.json",
        COLOUR / "data" / "littlecms_reference.json",
    ),
    "python3 demo_data/paint.py": Here(
        # At its full size, test_the_script_paints_the_picture compares it with the committed one.
        "demo_data/paint.py --out {folder}/estuary.jpg --scale 0.1",
        "estuary.jpg",
        slow=True,
    ),
    "python3 demo_data/paint_room.py": Here(
        "demo_data/paint_room.py --out {folder}/room.jpg --scale 0.05", "room.jpg", slow=True
    ),
    "python3 demo_data/bake_preview.py http://127.0.0.1:8137/": Here(
        "demo_data/bake_preview.py {address} --folder {folder} --only light_phone",
        "preview_light_phone.webp",
        browser=True,
    ),
    "python3 demo_data/take_pictures.py http://127.0.0.1:8137/": Here(
        "demo_data/take_pictures.py {address} --folder {folder} --only narrow",
        "page-390.webp",
        browser=True,
    ),
    "python3 demo_data/take_finishes.py http://127.0.0.1:8137/": Here(
        "demo_data/take_finishes.py {address} --folder {folder} --only lapped",
        "finish-lapped.webp",
        browser=True,
    ),
    "python tests/bench_print.py": Elsewhere(
        "it needs libvips", "tests/test_bench_print.py::test_our_half_is_made_and_measured"
    ),
    "python tests/bench_plan.py": Here("tests/bench_plan.py --sets 6"),
    "python tests/bench_batch.py": Here("tests/bench_batch.py --jobs 4 --planned 4 --ppi 36", slow=True),
    "python3 tests/bench.py": Here("tests/bench.py --small --part native"),
    "python3 tests/fuzz.py": Here("tests/fuzz.py --mutants 20"),
    "python3 tests/soak.py": Here("tests/soak.py --minutes 0.02", browser=True),
    "python -m tests.pycore.wall.write_page_walls": Elsewhere(
        "it writes into the repository",
        "tests/pycore/wall/test_page_walls.py::test_the_file_holds_what_the_core_measures",
    ),
    "python -m tests.pycore.wall.write_page_exif": Elsewhere(
        "it writes into the repository",
        "tests/pycore/wall/test_page_walls.py::test_the_focal_lengths_are_those_that_the_core_reads",
    ),
    "python tests/pycore/wall/measure_wall.py": Here("tests/pycore/wall/measure_wall.py 3"),
    "python tests/pycore/wall/measure_finder.py 1000 1060": Elsewhere(
        "it renders for minutes", "tests/pycore/wall/test_find_paper.py::test_the_measure_counts_what_it_sees"
    ),
    "node tools/snapshot.mjs PROGRAM WORK DEMO": Elsewhere(
        "it takes parts that the build makes",
        "tests/web/tools/test_snapshot.py::test_made_again_it_is_the_same_to_the_byte",
    ),
    "node tools/load_snapshot.mjs PY": Elsewhere(
        "it takes a made snapshot",
        "tests/web/tools/test_snapshot.py::test_the_core_is_there_without_an_import_and_answers",
    ),
    "python tests/browser/measure_core.py": Here("tests/browser/measure_core.py --share 0.02", browser=True),
    "python tests/browser/measure_keeping.py": Here(
        "tests/browser/measure_keeping.py --rounds 1", browser=True
    ),
    "python tests/browser/measure_load.py": Here("tests/browser/measure_load.py --runs 1", browser=True),
    "python3 web/serve.py": Elsewhere(
        "it ends by a key alone", "tests/test_documented_commands.py::test_a_script_that_needs_a_browser_runs"
    ),
    "python3 web/serve.py --port 8137": Elsewhere(
        "the port may be taken: it serves at a free one",
        "tests/test_documented_commands.py::test_a_script_that_needs_a_browser_runs",
    ),
    "python3 web/serve.py --build-only": Elsewhere(
        "packing takes minutes after a change", "tests/web/test_serve.py::test_a_repeated_run_does_nothing"
    ),
    "python3 web/serve.py --wheel FOLDER": Elsewhere(
        "it needs the built site",
        "tests/web/build/test_page_wheel.py::test_the_wheel_brings_the_page_and_serves_it",
    ),
    "python web/tools/draw_icon.py": Here(
        "web/tools/draw_icon.py {folder}", "icon.svg", ROOT / "web" / "static" / "icon.svg"
    ),
    "node tools/pack.mjs OUT FILE...": Here(
        "web/tools/pack.mjs {folder} {wheel}", f"{WHEEL.name}.br", program="node"
    ),
    "python3 tests/run.py": Elsewhere(
        "it would run this test again",
        "tests/test_documented_commands.py::test_ci_runs_what_the_readme_says",
    ),
    "python3 tests/run.py --quick": Elsewhere(
        "it would run this test again", "tests/test_run.py::test_quick_leaves_browsers_and_pyodide_out"
    ),
    "python3 tests/run.py -k fold": Elsewhere(
        "it would run this test again", "tests/test_run.py::test_arguments_go_to_pytest"
    ),
    "python tests/speech_keys.py": Here("tests/speech_keys.py"),
    "python tests/speech_keys.py missing": Here("tests/speech_keys.py missing"),
    "python tests/list_messages.py > tests/data/messages.txt": Elsewhere(
        "it writes into the checkout", "tests/test_messages.py::test_the_list_is_current"
    ),
    "python3 tests/compare_commits.py OLD": Here(COMPARE),
    **{
        f"npm run {name}": Elsewhere(reason, "tests/test_run.py::test_everything_is_built_and_run")
        for name, reason in (
            ("lint", "it is a step of every run"),
            ("format:check", "it is a step of every run"),
            ("format", "it writes into the checkout; format:check says what it would change"),
        )
    },
    "python -m pycore.bridge.schema": Elsewhere(
        "it writes into the checkout",
        "tests/pycore/bridge/test_schema.py::test_the_committed_schema_is_that_of_the_models",
    ),
    "python web/write_guide.py": Elsewhere(
        "it writes into the checkout",
        "tests/web/guidebook/test_drawings.py::test_the_committed_drawings_are_those_that_are_made",
    ),
    "python demo_data/write_readme_outputs.py": Elsewhere(
        "it writes into the checkout",
        "tests/demo_data/test_readme.py::test_the_outputs_are_those_that_are_printed",
    ),
    "npm run types": Elsewhere(
        "it writes into the checkout", "tests/web/contract/types.test.ts::the committed types"
    ),
    "npm run client": Elsewhere(
        "it writes into the checkout",
        "tests/web/tools/test_client.py::test_the_committed_viewer_is_the_one_that_is_built",
    ),
    "node web/tools/validate_model.mjs FILE.glb": Elsewhere(
        "it needs models",
        "tests/pycore/model/test_validator.py::test_the_validator_finds_no_error_and_no_warning",
    ),
    "node tools/compile.mjs OUT FILE...": Here(
        "web/tools/compile.mjs {folder} {wheel}", WHEEL.name, program="node"
    ),
    "node tools/pyodide_node.mjs ROOT OUT WHEEL... -- ARGUMENT...": Elsewhere(
        "it takes minutes", "tests/parity/test_parity.py::test_the_cores_own_tests_pass_inside_pyodide"
    ),
}


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
        docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")), clean=False) or ""
        found[path.relative_to(ROOT).as_posix()] = commands_of(docstring)
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
    assert project["project"]["scripts"] == {"tuckfold": "pycore.cli.main:run"}


@pytest.mark.parametrize("line", ALONE)
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
    if len(words) == 1:
        # The name of a command alone, which asks for more.
        words.append("--help")
    printed = run([sys.executable, "-m", "pycore.cli", *words], cwd=tmp_path, stdin=stdin)
    if "--json" in words:
        assert json.loads(printed)
    else:
        assert printed.strip()
    if "--out" in words:
        made = tmp_path / words[words.index("--out") + 1]
        files = [one for one in (made, *made.rglob("*")) if one.is_file()]
        assert sum(one.stat().st_size for one in files) > 1000


def run_here(how: Here, folder: Path, address: str = "") -> None:
    words = [one.format(folder=folder, address=address, wheel=WHEEL) for one in how.arguments.split()]
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


@pytest.fixture(scope="module")
def served() -> Iterator[str]:
    """The address at which `python3 web/serve.py` says that it serves the site."""
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
                yield found[1]
                server.send_signal(signal.SIGINT)
                break
        else:
            pytest.fail(f"it serves nothing:\n{printed}")
        assert server.wait(timeout=30) == 0


@pytest.mark.browser
@pytest.mark.parametrize("command", [name for name, how in HERE.items() if how.browser])
def test_a_script_that_needs_a_browser_runs(command: str, served: str, tmp_path: Path) -> None:
    run_here(HERE[command], tmp_path, served)
