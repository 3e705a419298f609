"""How far a long call is."""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeVar

from pycore.bridge.message import Message
from pycore.progress import told


class Progress(Message):
    """How far a long call is."""

    done: float
    """0 to 1."""
    label: str


Made = TypeVar("Made")


def part_of(
    steps: Generator[Progress, None, Made], *, begin: float, share: float
) -> Generator[Progress, None, Made]:
    """The progress of some work as a part of a greater one.

    Parameters
    ----------
    steps : generator
        Yields `Progress` from 0 to 1.
    begin, share : float
        Where the part begins in the whole, and how much of it it is.

    Yields
    ------
    Progress

    Returns
    -------
    What the work returns.

    Examples
    --------
    >>> def work():
    ...     yield Progress(done=0.5, label="Folding")
    >>> [step.done for step in part_of(work(), begin=0.5, share=0.25)]
    [0.625]
    """
    return told(steps, lambda step: Progress(done=begin + share * step.done, label=step.label))
