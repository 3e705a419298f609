"""Printed tables: columns as wide as their longest entry, in any language."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Final

_BETWEEN: Final = "  "


def columns(
    heads: Sequence[str], rows: Sequence[Sequence[str]], *, left: Collection[int] = (0,)
) -> list[str]:
    """Set a table with two blanks between its columns.

    Parameters
    ----------
    heads : sequence of str
        What stands above each column.
    rows : sequence of sequences of str
        Entries, as many in each row as there are heads.
    left : collection of int, optional
        Columns, from 0, whose entries begin at one place; the others' entries end at one place.

    Returns
    -------
    list of str
        The line of heads, then one for each row; none ends in blanks.

    Examples
    --------
    >>> columns(["side", "busy"], [["top", "0.05"], ["bottom", "0.60"]])
    ['side    busy', 'top     0.05', 'bottom  0.60']
    """
    table = [heads, *rows]
    wide = [max(map(len, entries)) for entries in zip(*table, strict=True)]
    return [
        _BETWEEN.join(
            entry.ljust(width) if place in left else entry.rjust(width)
            for place, (entry, width) in enumerate(zip(row, wide, strict=True))
        ).rstrip()
        for row in table
    ]
