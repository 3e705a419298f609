"""The error of a resolution that makes more pixels than a file, or the memory, can hold."""

from __future__ import annotations

from typing import TypeVar

from pycore.errors import TuckfoldError
from pycore.speech import say

_Error = TypeVar("_Error", bound=TuckfoldError)


def too_fine(
    kind: type[_Error], *, size_px: tuple[int, int], expected: str, remedy: str, said: str = ""
) -> _Error:
    """Make the error.

    Parameters
    ----------
    kind : type
        Its class.
    size_px : (width, height)
        Of the canvas at that resolution.
    expected, remedy : str
    said : str, optional
        The whole sentence, where it is not the usual one.

    Returns
    -------
    TuckfoldError
        Of `kind`, about the field `print.ppi`.

    Examples
    --------
    >>> from pycore.errors import OutputError
    >>> too_fine(OutputError, size_px=(300, 200), expected="lower", remedy="lower it").got
    'a resolution that makes 300 x 200 pixels'
    """
    width_px, height_px = size_px
    got = say(
        "a resolution that makes {width_px} x {height_px} pixels", width_px=width_px, height_px=height_px
    )
    return kind(field="print.ppi", expected=expected, got=got, remedy=remedy, said=said)
