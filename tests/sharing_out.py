"""Which process takes which tests: pytest-xdist's scheduler with an order that keeps every core busy.

A browser test waits for half of its time: for a frame, a timer, the other side. A test of the core alone
never does. So all processes but the last take the browser files first, the last takes the rest first, and
who has nothing left of its own kind takes from the other. A file stays in one process, for its tests share
pages and fixtures; only the tests of the files in `APART`, which share nothing, go one by one.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

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


def share_out(scheduler: Any) -> None:
    """Let a scheduler of pytest-xdist give each process what suits it.

    Parameters
    ----------
    scheduler : xdist.scheduler.LoadScopeScheduling
        Before it has given anything; changed in place.
    """
    give = scheduler._assign_work_unit

    def give_what_suits(node: Any) -> None:
        is_last = node.gateway.id == f"gw{scheduler.numnodes - 1}"
        chosen = next_unit(scheduler.workqueue, waits=not is_last)
        scheduler.workqueue.move_to_end(chosen, last=False)
        give(node)

    scheduler._split_scope = unit_of
    scheduler._assign_work_unit = give_what_suits
