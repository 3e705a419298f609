"""Long work as generators: each yields how far it is and returns what it made."""

from __future__ import annotations

from collections.abc import Callable, Generator
from typing import TypeVar

Step = TypeVar("Step")
Told = TypeVar("Told")
Made = TypeVar("Made")


def told(steps: Generator[Step, None, Made], tell: Callable[[Step], Told]) -> Generator[Told, None, Made]:
    """Hand on what some work yields, in other words, and return what it made.

    Parameters
    ----------
    steps : generator
        The work.
    tell : callable
        What each of its steps becomes.

    Yields
    ------
    What `tell` makes of each step.

    Returns
    -------
    What the work returns.

    Examples
    --------
    >>> def work():
    ...     yield 0.5
    ...     return "done"
    >>> halves = told(work(), lambda share: share / 2)
    >>> next(halves), last(halves)
    (0.25, 'done')
    """
    while True:
        try:
            step = next(steps)
        except StopIteration as end:
            made: Made = end.value
            return made
        yield tell(step)


def share_of(
    steps: Generator[float, None, Made], *, begin: float, share: float
) -> Generator[float, None, Made]:
    """The shares that some work yields, from 0 to 1, as a part of a greater one.

    Parameters
    ----------
    steps : generator of float
        The work.
    begin, share : float
        Where the part begins in the whole, and how much of it it is.

    Yields
    ------
    float

    Returns
    -------
    What the work returns.

    Examples
    --------
    >>> list(share_of((done for done in (0.0, 1.0)), begin=0.5, share=0.25))
    [0.5, 0.75]
    """
    return told(steps, lambda done: begin + share * done)


def last(steps: Generator[Step, None, Made]) -> Made:
    """Run some work to its end.

    Parameters
    ----------
    steps : generator

    Returns
    -------
    What the work returns.

    Examples
    --------
    >>> def work():
    ...     yield 0.5
    ...     return "done"
    >>> last(work())
    'done'
    """
    while True:
        try:
            next(steps)
        except StopIteration as end:
            made: Made = end.value
            return made
