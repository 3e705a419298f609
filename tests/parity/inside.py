"""What is done inside Pyodide: the comparable results are computed, then the core's own tests run."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest
from computed import write_results

#: A folder of the machine, mounted by web/tools/pyodide_node.mjs.
OUT = Path("/out")


def main(arguments: Iterable[str]) -> int:
    """Compute, test, and return pytest's exit status.

    Parameters
    ----------
    arguments : iterable of str
        What else pytest shall be told.
    """
    write_results(OUT / "computed.npz")
    # No signals and no second process in here, and nothing is kept for a next run.
    left_out = ["-p", "no:faulthandler", "-p", "no:cacheprovider", "--tb=short"]
    return int(pytest.main(["tests/pycore", "-m", "not native", *left_out, *arguments]))
