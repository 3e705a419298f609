"""The core gives the same inside Pyodide as natively, and its own tests pass there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt
import pytest
from computed import JOBS, compute

pytestmark = [pytest.mark.parity, pytest.mark.native, pytest.mark.slow]

Arrays = dict[str, npt.NDArray[Any]]


class PyodideRun(Protocol):
    """See conftest.py."""

    status: int
    printed: str
    results: Path


@pytest.fixture(scope="module")
def both(pyodide_run: PyodideRun) -> tuple[Arrays, Arrays]:
    """The native results and Pyodide's."""
    assert pyodide_run.results.is_file(), pyodide_run.printed
    with np.load(pyodide_run.results) as inside:
        return compute(), dict(inside)


def test_the_cores_own_tests_pass_inside_pyodide(pyodide_run: PyodideRun) -> None:
    assert pyodide_run.status == 0, pyodide_run.printed
    passed = re.search(r"(\d+) passed", pyodide_run.printed)
    assert passed is not None, pyodide_run.printed
    # regression: more were run when this was written; far fewer would mean that they were not found.
    assert int(passed[1]) > 100


def test_the_same_things_are_computed(both: tuple[Arrays, Arrays]) -> None:
    native, inside = both
    assert native.keys() == inside.keys()
    assert {name.split("/")[0] for name in native} == set(JOBS)


@pytest.mark.parametrize("job", JOBS)
def test_whole_numbers_bytes_and_texts_are_equal(both: tuple[Arrays, Arrays], job: str) -> None:
    native, inside = both
    names = [name for name in native if name.startswith(f"{job}/") and native[name].dtype.kind != "f"]
    # derived: the filled canvas, the pixel grid and the mesh's triangles are among them.
    assert {f"{job}/fill", f"{job}/mesh/triangles"} <= set(names)
    different = [name for name in names if not np.array_equal(native[name], inside[name])]
    assert different == []


@pytest.mark.parametrize("job", JOBS)
def test_lengths_and_positions_agree(both: tuple[Arrays, Arrays], job: str) -> None:
    native, inside = both
    names = [name for name in native if name.startswith(f"{job}/") and native[name].dtype.kind == "f"]
    assert f"{job}/mesh/positions" in names
    for name in names:
        # 1e-9 mm in double precision: the two differ by a few roundings of sines, a million times less than
        # a pixel. What is handed over in single precision may differ by its last place, 1e-7 of the value.
        relative = 2e-7 if native[name].dtype == np.float32 else 1e-12
        np.testing.assert_allclose(inside[name], native[name], rtol=relative, atol=1e-9, err_msg=name)
