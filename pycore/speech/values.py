"""The values in what is said, the same in every language: what a program reads beside the sentence."""

from __future__ import annotations

import numbers
from typing import TypeAlias

from pycore.speech.choice import speaking
from pycore.speech.phrase import Phrase

#: A value as a message carries it; a word is the English one.
PlainValue: TypeAlias = bool | int | float | str


def values_of(*texts: str) -> dict[str, PlainValue]:
    """The values in the places of some texts, by name.

    Parameters
    ----------
    *texts : str
        Phrases as `say` makes them; a text of another kind has no values.

    Returns
    -------
    dict
        In the order of the texts. A phrase within a phrase brings its own values, and its English text under
        the name of its place. A second value of a name has `_2` behind it, and so on.

    Examples
    --------
    >>> from pycore.speech import say
    >>> side = say("the {side} side", side=say("left"))
    >>> values_of(say("{width_mm:.1f} mm are free on {place}.", width_mm=2.04, place=side))
    {'width_mm': 2.04, 'place': 'the left side', 'side': 'left'}
    """
    found: dict[str, PlainValue] = {}
    for text in texts:
        if isinstance(text, Phrase):
            for name, value in text.values.items():
                _put(found, name, _plain(value))
            for value in text.values.values():
                if isinstance(value, str):
                    for name, inner in values_of(value).items():
                        _put(found, name, inner)
    return found


def _put(found: dict[str, PlainValue], name: str, value: PlainValue) -> None:
    free, number = name, 1
    while free in found and found[free] != value:
        number += 1
        free = f"{name}_{number}"
    found[free] = value


def _plain(value: object) -> PlainValue:
    if isinstance(value, Phrase):
        with speaking("en"):
            return str(Phrase(value.key, value.values))
    if isinstance(value, bool | str):
        return value
    if isinstance(value, numbers.Integral):
        return int(value)
    if isinstance(value, numbers.Real):
        return float(value)
    return str(value)
