"""What a command prints, with an exit status of its own."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Said:
    """Text for standard output, and the exit status.

    Attributes
    ----------
    text : str
    status : int
        0: all was done; 3: of many jobs some were not.
    """

    text: str
    status: int = 0
