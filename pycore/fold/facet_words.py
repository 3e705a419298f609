"""What the facets are called in the language in use; their names in files stay as they are."""

from __future__ import annotations

from typing import Final

from pycore.speech import mark, say

#: Where a facet lies: the first word of its name.
_PLACES: Final = {
    "top": say("top"),
    "right": say("right"),
    "bottom": say("bottom"),
    "left": say("left"),
    "top-right": say("top-right"),
    "top-left": say("top-left"),
    "bottom-right": say("bottom-right"),
    "bottom-left": say("bottom-left"),
}
#: What it is: the rest of its name.
_PARTS: Final = {
    "side": mark("{place} side"),
    "turn-over": mark("{place} turn-over"),
    "tab": mark("{place} tab"),
    "folded corner, under half": mark("{place} folded corner, under half"),
    "folded corner, over half": mark("{place} folded corner, over half"),
    "back folded corner, under part": mark("{place} back folded corner, under part"),
    "back folded corner, middle part": mark("{place} back folded corner, middle part"),
    "back folded corner, over part": mark("{place} back folded corner, over part"),
}


def facet_words(name: str) -> str:
    """A facet's name in the language in use.

    Parameters
    ----------
    name : str
        As `pycore.fold.facets` gives it.

    Returns
    -------
    str

    Examples
    --------
    >>> facet_words("top side"), facet_words("bottom-left folded corner, over half")
    ('top side', 'bottom-left folded corner, over half')
    """
    place, _, part = name.partition(" ")
    return say(_PARTS[part], place=say(_PLACES[place])) if part else say("face")
