"""Figures that stay with their units where a line ends."""

from __future__ import annotations

import re
from typing import Final

NO_BREAK: Final = "\N{NO-BREAK SPACE}"

#: The page has the same rule in web/src/speech/figures.ts.
_PARTED: Final = re.compile(
    r"(?<=\d) (?=(?:[mck]?m[²³]?|mm²|in|px|ppi|m?g(?:/m[²2])?|kg(?:/m[³3])?|[kMG]B|K|N|%|.E00|s)(?!\w))"
    r"|(?<=\d) (?=[x\N{MULTIPLICATION SIGN}] \d)|(?<=\d [x\N{MULTIPLICATION SIGN}]) (?=\d)"
)


def unparted(text: str) -> str:
    r"""A text whose figures stand in one line with their units, and both figures of a size with its sign.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
        With no-break spaces there.

    Examples
    --------
    >>> unparted("2 of 350 mm, 40 x 20 mm in section")
    '2 of 350\xa0mm, 40\xa0x\xa020\xa0mm in section'
    """
    return _PARTED.sub(NO_BREAK, text)
