"""Who makes the pieces: what the batch asks of workers on this machine and of a cluster alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from pycore.batch.making import Order, Outcome


@dataclass(frozen=True, kw_only=True)
class News:
    """What is new of one piece: how far it is, what came of it, or that its worker is gone.

    Attributes
    ----------
    name : str
        Of the piece.
    share : float
        Done, 0 to 1.
    outcome : Outcome or None
        When it has ended.
    lost : str
        How its worker ended without an outcome; empty where it did not.
    """

    name: str
    share: float = 0.0
    outcome: Outcome | None = None
    lost: str = ""


class Crew(Protocol):
    """Workers."""

    def takes(self, order: Order) -> bool:
        """Whether a worker is free whose memory the piece fits, or than which none has more.

        Parameters
        ----------
        order : Order

        Returns
        -------
        bool
        """

    def give(self, order: Order) -> None:
        """Hand an order to a worker that takes it.

        Parameters
        ----------
        order : Order
        """

    def news(self) -> list[News]:
        """Wait a short while for news.

        Returns
        -------
        list of News
        """

    def close(self) -> None:
        """Let all workers go, and stop those at work."""
