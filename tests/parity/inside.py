"""What is done inside Pyodide: the comparable results are computed, then the core's own tests run."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest
from computed import write_results

#: A folder of the machine, mounted by web/tools/pyodide_node.mjs.
OUT = Path("/out")

#: What is not run in here: what needs libraries that are not there, and what asks for numbers that
#: test_parity.py compares with the machine's own.
CHOSEN = "not native and not once"


class Account:
    """Notes each test that pytest collected, and how it ended.

    Attributes
    ----------
    collected : list of str
        Node ids of the tests to run, without those that the markers leave out.
    outcomes : dict
        By node id: `passed`, or `failed` or `skipped` if any of its phases did.
    """

    def __init__(self) -> None:
        self.collected: list[str] = []
        self.outcomes: dict[str, str] = {}

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Note what is about to run."""
        self.collected = [item.nodeid for item in session.items]

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Note how one phase of a test ended."""
        if self.outcomes.get(report.nodeid, "passed") == "passed":
            self.outcomes[report.nodeid] = report.outcome

    def write(self, path: Path) -> None:
        """Write both as JSON."""
        path.write_text(json.dumps({"collected": self.collected, "outcomes": self.outcomes}))


def main(arguments: Iterable[str]) -> int:
    """Compute, test, and return pytest's exit status.

    Parameters
    ----------
    arguments : iterable of str
        Further arguments of pytest.

    Returns
    -------
    int
        0 if every test passed.
    """
    write_results(OUT / "computed.npz")
    # No signals and no second process in here, and nothing is kept for a next run. To rewrite the assertions
    # takes a third of the time in which the tests are read; `--assert=rewrite` among the arguments explains.
    left_out = ["-p", "no:faulthandler", "-p", "no:cacheprovider", "--tb=short", "--assert=plain"]
    account = Account()
    given: Sequence[str] = ["tests/pycore", "-m", CHOSEN, *left_out, *arguments]
    status = int(pytest.main(list(given), plugins=[account]))
    account.write(OUT / "tests.json")
    return status
