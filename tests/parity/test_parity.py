"""The core gives the same inside Pyodide as natively, and its own tests pass there."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from build.pins import read_pins
from build.places import places
from build.wheels import cached_wheels
from computed import EDGES, JOBS, compute
from inside import CHOSEN

pytestmark = [pytest.mark.parity, pytest.mark.native, pytest.mark.slow]

Arrays = dict[str, npt.NDArray[Any]]


ROOT = Path(__file__).resolve().parents[2]

#: Python is compiled quickly, and better only where it works for long: a minute is too short for the rest.
COMPILED_ONCE = "--wasm-tiering-budget=100000000"


@dataclass(frozen=True)
class PyodideRun:
    """What came of one run of Pyodide in Node.js: exit status, output, and the folder of its results."""

    status: int
    printed: str
    out: Path

    @property
    def results(self) -> Path:
        """The computed arrays."""
        return self.out / "computed.npz"

    def tests(self) -> tuple[list[str], dict[str, str]]:
        """Node ids of the collected tests, and the outcome of each test that ran."""
        account = json.loads((self.out / "tests.json").read_text(encoding="utf-8"))
        return account["collected"], account["outcomes"]

    def left_out(self) -> dict[str, str]:
        """Files that were not collected, with the reason that was printed for each."""
        lines = re.findall(r"^left out for want of (.+): (\S+)$", self.printed, flags=re.MULTILINE)
        return {file: reason for reason, file in lines}


@pytest.fixture(scope="module")
def pyodide_run(tmp_path_factory: pytest.TempPathFactory) -> PyodideRun:
    """Run the core's own tests and compute the comparable results inside Pyodide."""
    at = places(ROOT)
    if not (at.python / "pyodide-lock.json").is_file():
        pytest.fail("the Python runtime is not built: run python3 web/serve.py --build-only first")
    node = shutil.which("node")
    assert node is not None, "Node.js is missing"
    tools = cached_wheels(read_pins(at.web / "pins.json").parity, folder=at.wheels)
    out = tmp_path_factory.mktemp("pyodide")
    tool = at.web / "tools" / "pyodide_node.mjs"
    command = [node, COMPILED_ONCE, tool, ROOT, out, *tools.values(), "--", "-q"]
    ended = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, timeout=1800, check=False
    )
    return PyodideRun(ended.returncode, ended.stdout + ended.stderr[-4000:], out)


@pytest.fixture(scope="module")
def collected_here() -> set[str]:
    """Node ids of the same tests, collected by this interpreter."""
    command = [sys.executable, "-m", "pytest", "tests/pycore", "-m", CHOSEN, "--collect-only", "-q"]
    command += ["--one-case", "--ignore=tests/pycore/cli"]
    ended = subprocess.run(
        [*command, "-p", "no:cacheprovider"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return {line for line in ended.stdout.splitlines() if "::" in line}


def file_of(node_id: str) -> str:
    """The file that a test stands in."""
    return node_id.partition("::")[0]


@pytest.fixture(scope="module")
def both(pyodide_run: PyodideRun) -> tuple[Arrays, Arrays]:
    """The native results and Pyodide's."""
    assert pyodide_run.results.is_file(), pyodide_run.printed
    with np.load(pyodide_run.results) as inside:
        return compute(), dict(inside)


def test_the_cores_own_tests_pass_inside_pyodide(pyodide_run: PyodideRun) -> None:
    assert pyodide_run.status == 0, pyodide_run.printed
    collected, outcomes = pyodide_run.tests()
    assert {test: outcome for test, outcome in outcomes.items() if outcome != "passed"} == {}
    assert sorted(outcomes) == sorted(collected)
    # The count that pytest prints is a second witness: nothing failed, nothing was skipped.
    summary = re.search(r"^(\d+) passed(?:, \d+ deselected)? in ", pyodide_run.printed, flags=re.MULTILINE)
    assert summary is not None, pyodide_run.printed
    assert int(summary[1]) == len(collected)


def test_no_test_file_is_missing_inside_pyodide(pyodide_run: PyodideRun, collected_here: set[str]) -> None:
    collected, _ = pyodide_run.tests()
    left_out = pyodide_run.left_out()
    expected = {test for test in collected_here if file_of(test) not in left_out}
    assert set(collected) == expected
    # Each file runs there, or is left out with a reason, or is native as a whole.
    inside = {file_of(test) for test in collected}
    assert inside.isdisjoint(left_out)
    assert inside | left_out.keys() >= {file_of(test) for test in collected_here}
    for file, reason in left_out.items():
        text = (ROOT / file).read_text(encoding="utf-8")
        assert all(
            re.search(rf"^(from|import) {re.escape(one)}\b", text, re.MULTILINE) for one in reason.split(", ")
        )


def test_the_same_things_are_computed(both: tuple[Arrays, Arrays]) -> None:
    native, inside = both
    assert native.keys() == inside.keys()
    assert {name.split("/")[0] for name in native} == {*JOBS, "colour", "cutting", "ticket", "wall"}


def test_no_machine_decides_a_colour(both: tuple[Arrays, Arrays]) -> None:
    native, inside = both
    names = [name for name in native if name.startswith("colour/")]
    converted = ("of 8 bits", "dithered", "of 16 bits", "proofed", "proofed as it is")
    brought = ("brought in", "brought in and proofed", "what clips")
    assert {f"colour/{one}" for one in (*converted, *brought)} <= set(names)
    # A part of the picture clips, and a part does not.
    assert len(np.unique(native["colour/what clips"])) > 1
    assert [name for name in names if not np.array_equal(native[name], inside[name])] == []


def test_a_ticket_is_the_same_file(both: tuple[Arrays, Arrays]) -> None:
    native, inside = both
    assert native["ticket/bytes"].tobytes() == inside["ticket/bytes"].tobytes()


def test_a_sheet_on_a_wall_is_found_at_the_same_place(both: tuple[Arrays, Arrays]) -> None:
    native, inside = both
    # derived: the polygon's corners divided by 4; the pixels' edges lie half a pixel of the drawing farther.
    drawn = np.array([[500, 330], [900, 380], [890, 930], [480, 910]]) / 4
    assert np.abs(native["wall/corners"] - drawn).max() < 0.5
    # A thousandth of a pixel: hundreds of steps are summed, in another order.
    np.testing.assert_allclose(inside["wall/corners"], native["wall/corners"], rtol=0, atol=1e-3)


@pytest.mark.parametrize("job", [*JOBS, "cutting"])
def test_whole_numbers_bytes_and_texts_are_equal(both: tuple[Arrays, Arrays], job: str) -> None:
    native, inside = both
    names = [name for name in native if name.startswith(f"{job}/") and native[name].dtype.kind != "f"]
    # derived: the filled canvas, the pixel grid and the mesh's triangles are among them.
    parts = ("plan/text",) if job == "cutting" else ("fill", "mesh/triangles")
    assert {f"{job}/{part}" for part in parts} <= set(names)
    assert (f"{job}/edges/text" in names) == (job in EDGES)
    different = [name for name in names if not np.array_equal(native[name], inside[name])]
    assert different == []


@pytest.mark.parametrize("job", [*JOBS, "cutting"])
def test_lengths_and_positions_agree(both: tuple[Arrays, Arrays], job: str) -> None:
    native, inside = both
    names = [name for name in native if name.startswith(f"{job}/") and native[name].dtype.kind == "f"]
    assert (f"{job}/plan/floats" if job == "cutting" else f"{job}/mesh/positions") in names
    for name in names:
        # 1e-9 mm in double precision: the two differ by a few roundings of sines, a million times less than
        # a pixel. What is handed over in single precision may differ by its last place, 1e-7 of the value.
        relative = 2e-7 if native[name].dtype == np.float32 else 1e-12
        np.testing.assert_allclose(inside[name], native[name], rtol=relative, atol=1e-9, err_msg=name)
