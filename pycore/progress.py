"""Long work as generators: each yields how far it is and returns what it made."""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass
from typing import TypeVar

Step = TypeVar("Step")
Told = TypeVar("Told")
Made = TypeVar("Made")


def map_progress(
    steps: Generator[Step, None, Made], tell: Callable[[Step], Told]
) -> Generator[Told, None, Made]:
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
    >>> halves = map_progress(work(), lambda share: share / 2)
    >>> next(halves), run_to_end(halves)
    (0.25, 'done')
    """
    while True:
        try:
            step = next(steps)
        except StopIteration as end:
            made: Made = end.value
            return made
        yield tell(step)


def part_of_share(
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
    >>> list(part_of_share((done for done in (0.0, 1.0)), begin=0.5, share=0.25))
    [0.5, 0.75]
    """
    return map_progress(steps, lambda done: begin + share * done)


def run_to_end(steps: Generator[Step, None, Made]) -> Made:
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
    >>> run_to_end(work())
    'done'
    """
    while True:
        try:
            next(steps)
        except StopIteration as end:
            made: Made = end.value
            return made


@dataclass(frozen=True, kw_only=True, slots=True)
class Progress:
    """How far a long call is: the share done, 0 to 1, and what is being done."""

    done: float
    label: str


def part_of(
    steps: Generator[Progress, None, Made], *, begin: float, share: float
) -> Generator[Progress, None, Made]:
    """Show the progress of some work as a part of a greater one.

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
    return map_progress(steps, lambda step: Progress(done=begin + share * step.done, label=step.label))
