"""What is made anew after Python's memory was restored from a snapshot, so that no two pages share it."""

from __future__ import annotations

import random
import tempfile


def renew() -> None:
    """Seed chance anew.

    A restored memory holds all that Python held when it was kept. Of that, two things must differ from page
    to page: the state of `random`, and that of the names of temporary files, which are made of it.
    `os.urandom`, the clocks and local times ask the browser each time. What stays alike in all pages is the
    seed of hashes, on which no result depends, and `time.timezone` with its neighbours, which say UTC and
    which nobody reads.

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
    # The module makes it when it is first needed, and has no function to begin again.
    tempfile._name_sequence = None  # type: ignore[attr-defined]  # Its own name for it.
