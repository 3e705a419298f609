"""Things of known size in the wall's plane: a sheet of paper, or any rectangle."""

from __future__ import annotations

import re
from typing import Final

from pycore.contract.record import Pair, Record
from pycore.conventions import PAPERS_MM
from pycore.errors import FieldError, shown
from pycore.speech import say

_WAYS: Final = ("upright", "lying")
#: From a light switch's plate to a large door.
_LEAST_MM: Final = 20.0
_MOST_MM: Final = 5000.0
_TYPED: Final = re.compile(r"\s*(\d+(?:\.\d+)?)\s*[xX\u00d7]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*")

Corners = tuple[Pair, Pair, Pair, Pair]


class Reference(Record):
    """A rectangle of known size on the wall, and where its corners lie in the photograph."""

    size: str = "a4"
    """a4 or letter, alone or with -upright or -lying behind it; or WIDTHxHEIGHT in mm."""
    corners: Corners | None = None
    """Upper left, upper right, lower right, lower left, in pixels of the upright photograph from its
    upper-left corner; without them they are looked for."""


def reference_sizes(size: str) -> list[Pair]:
    """The widths and heights in mm that a reference may have.

    Parameters
    ----------
    size : str
        See `Reference.size`.

    Returns
    -------
    list of (float, float)
        One; of a sheet whose direction is not told two, upright and lying.

    Raises
    ------
    FieldError
        It is neither a known sheet nor two lengths of 20 to 5000 mm.

    Examples
    --------
    >>> reference_sizes("a4"), reference_sizes("86x86"), reference_sizes("letter-lying")
    ([(210.0, 297.0), (297.0, 210.0)], [(86.0, 86.0)], [(279.4, 215.9)])
    """
    name, _, way = size.strip().lower().partition("-")
    if name in PAPERS_MM and (not way or way in _WAYS):
        width, height = PAPERS_MM[name]
        both = {"upright": (width, height), "lying": (height, width)}
        return [both[way]] if way else list(both.values())
    typed = _TYPED.fullmatch(size)
    if typed is None:
        raise FieldError(
            field="reference",
            expected=say("a4, letter, or WIDTHxHEIGHT in mm"),
            got=shown(size),
            remedy=say("write for example a4, a4-lying, or 80x80 for a light switch's plate"),
        )
    width, height = float(typed[1]), float(typed[2])
    if not (_LEAST_MM <= width <= _MOST_MM and _LEAST_MM <= height <= _MOST_MM):
        raise FieldError(
            field="reference",
            expected=say(
                "{least_mm:g} to {most_mm:g} mm wide and high", least_mm=_LEAST_MM, most_mm=_MOST_MM
            ),
            got=say("{width:g} x {height:g} mm", width=width, height=height),
            remedy=say("measure the reference, and give its width and height in mm"),
        )
    return [(width, height)]
