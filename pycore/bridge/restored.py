"""What is made anew after Python's memory was restored from a snapshot, so that no two pages share it."""

from __future__ import annotations

import random
import tempfile
import time


def renew() -> None:
    """Seed chance, and read the time zone of this machine.

    A restored memory holds all that Python held when it was kept. Of that, these must differ from page to
    page: the seed of `random`, the seed of the names of temporary files, and the time zone. The clocks,
    `os.urandom` and all that rests on it keep no state. The seed of hashes is the same in all pages, and no
    result depends on it.

    Examples
    --------
    >>> random.seed(1)
    >>> first = random.random()
    >>> random.seed(1)
    >>> renew()
    >>> random.random() == first
    False
    """
    random.seed()
    # Made when it is first needed.
    tempfile._name_sequence = None  # type: ignore[attr-defined]  # the module has no function for it
    if hasattr(time, "tzset"):
        time.tzset()
