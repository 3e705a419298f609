"""Which process takes which tests: pytest-xdist's scheduler with an order that keeps every core busy.

A browser test waits for half of its time: for a frame, a timer, the other side. A test of the core alone
never does. So all processes but the last take the browser files first, the last takes the rest first, and
who has nothing left of its own kind takes from the other. A file stays in one process, for its tests share
pages and fixtures; only the tests of the files in `APART`, which share nothing, go one by one.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final

from xdist.scheduler import LoadScopeScheduling

if TYPE_CHECKING:
    from xdist.workermanage import WorkerController

#: Files whose tests share nothing but what is quickly made.
APART: Final = frozenset({"tests/test_documented_commands.py"})
#: Folders and files that drive a browser.
WAITING: Final = ("tests/browser/", "tests/test_documented_commands.py::test_a_script_that_needs_a_browser")


def unit_of(node_id: str) -> str:
    """What is given to a process as a whole.

    Parameters
    ----------
    node_id : str
        pytest's name of a test.

    Returns
    -------
    str
        Its file, or its own name where the file is in `APART`.

    Examples
    --------
    >>> unit_of("tests/test_run.py::test_a_failure_is_the_exit_status")
    'tests/test_run.py'
    """
    file = node_id.partition("::")[0]
    return node_id if file in APART else file


def next_unit(units: Iterable[str], *, waits: bool) -> str:
    """The first unit that waits for a browser, or the first that does not; of the other kind if none is left.

    Parameters
    ----------
    units : iterable of str
        At least one, in their order.
    waits : bool
        Whether one with a browser is wanted.

    Returns
    -------
    str

    Examples
    --------
    >>> next_unit(["tests/a.py", "tests/browser/b.py"], waits=True)
    'tests/browser/b.py'
    """
    left = list(units)
    return next((one for one in left if one.startswith(WAITING) == waits), left[0])


class SharedOut(LoadScopeScheduling):
    """Gives each process what suits it."""

    def _split_scope(self, nodeid: str) -> str:
        return unit_of(nodeid)

    def _assign_work_unit(self, node: WorkerController) -> None:
        is_last = node.gateway.id == f"gw{self.numnodes - 1}"
        chosen = next_unit(self.workqueue, waits=not is_last)
        self.workqueue.move_to_end(chosen, last=False)
        super()._assign_work_unit(node)
