"""A phrase: the English template that is its key, the values in it, and its text in the language in use."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, Final, Self

from pycore.speech.rounding import written
from pycore.speech.template import fill, parsed

#: The language in use and its catalogue; English needs none.
_in_use: dict[str, Any] = {"language": "en", "words": {}}

_NUMBER: Final = re.compile("[-+\N{MINUS SIGN}]?\\d+\\.\\d+")
_COMMA: Final = str.maketrans(".,", ",.")


def language() -> str:
    """The language in use, as a tag of BCP 47.

    Returns
    -------
    str
    """
    return str(_in_use["language"])


def in_use() -> tuple[str, Mapping[str, str]]:
    """The language in use and its words, for `speak`.

    Returns
    -------
    (str, mapping)
    """
    return _in_use["language"], _in_use["words"]


def speak(tag: str, words: Mapping[str, str]) -> None:
    """Take a language into use, for the whole process.

    Parameters
    ----------
    tag : str
        A tag of BCP 47.
    words : mapping
        Its template for each English one.
    """
    _in_use.update(language=tag, words=words)


class Phrase(str):
    """A text that knows its English template and its values, so that it can be made in another language.

    Parameters
    ----------
    key : str
        The English template; its places are named. Where one English word has two in another language, `##`
        and what it means stand behind it: `Light##theme`.
    values : mapping, optional
        Each place's value.

    Attributes
    ----------
    key : str
    values : dict

    Examples
    --------
    >>> wide = Phrase("{width_mm:g} mm wide", {"width_mm": 300.0})
    >>> wide, wide.key
    ('300 mm wide', '{width_mm:g} mm wide')
    """

    key: str
    values: dict[str, object]

    def __new__(cls, key: str, values: Mapping[str, object] | None = None) -> Self:
        """Put the values into the template of the language in use."""
        given = dict(values or {})
        made = super().__new__(cls, fill(parsed(template_in_use(key)), given, _shown))
        made.key, made.values = key, given
        return made

    def __getnewargs__(self) -> tuple[str, dict[str, object]]:  # type: ignore[override]  # A text's own holds a text alone.
        """What a copy, or a worker elsewhere, makes it from."""
        return self.key, self.values


def say(text: str, /, **values: object) -> str:
    """Say something in the language in use.

    Parameters
    ----------
    text : str
        The English template, as a literal so that the catalogue's test sees it; or a phrase, which is said
        again, for example one of a table that was made before the language was chosen.
    **values : object
        Each place's value. Numbers and texts of digits get the language's decimal sign; a place with the
        format `s` keeps its text as it is.

    Returns
    -------
    str
        A `Phrase`, which keeps the template and the values.

    Examples
    --------
    >>> say("{spare_mm:.1f} mm are free.", spare_mm=2.04)
    '2.0 mm are free.'
    """
    if isinstance(text, Phrase):
        return Phrase(text.key, text.values)
    return Phrase(text, values)


def figure(value: float, spec: str) -> str:
    """A number with the decimal sign of the language in use.

    Parameters
    ----------
    value : float
    spec : str
        Python's format.

    Returns
    -------
    str

    Examples
    --------
    >>> figure(2.5, ".2f")
    '2.50'
    """
    return _localised(written(value, spec))


def _localised(text: str) -> str:
    if _in_use["language"] != "de":
        return text
    # German sets the sign of percent apart from its number (DIN 5008).
    return text.translate(_COMMA).replace("%", "\N{NO-BREAK SPACE}%")


def _shown(value: object, conversion: str, spec: str) -> str:
    if isinstance(value, Phrase):
        value = str(Phrase(value.key, value.values))
    if conversion == "r":
        return format(repr(value), spec)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _localised(written(value, spec))
    text = format(value, spec)
    return _localised(text) if spec != "s" and _NUMBER.fullmatch(text) else text


def template_in_use(key: str) -> str:
    """A template in the language in use, its places open, for another program that fills them.

    Parameters
    ----------
    key : str
        The English template.

    Returns
    -------
    str

    Examples
    --------
    >>> template_in_use("{mm} mm")
    '{mm} mm'
    """
    return str(_in_use["words"].get(key) or key.partition("##")[0])


def mark(text: str) -> str:
    """Mark a template of a table, whose values come later, for the catalogue: `say` it with them.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
        The template itself.

    Examples
    --------
    >>> say(mark("closed at the {over}"), over="top")
    'closed at the top'
    """
    return text


def join_said(texts: Sequence[str], between: str) -> str:
    """Texts in a row as one phrase, which keeps what each of them keeps.

    Parameters
    ----------
    texts : sequence of str
        At least one.
    between : str

    Returns
    -------
    str

    Examples
    --------
    >>> join_said(["top", "left"], ", ")
    'top, left'
    """
    if len(texts) == 1:
        return texts[0]
    # The template is made of places alone, so that it is the same in every language.
    places = [f"{{part_{number}:s}}" for number in range(1, len(texts) + 1)]
    values = {f"part_{number}": text for number, text in enumerate(texts, 1)}
    return Phrase("{between:s}".join(places), {**values, "between": between})


def listed(words: Sequence[str]) -> str:
    """Words in a row, in the language in use.

    Parameters
    ----------
    words : sequence of str
        At least one.

    Returns
    -------
    str

    Examples
    --------
    >>> listed(["top"]), listed(["top", "right", "left"])
    ('top', 'top, right and left')
    """
    spoken = [say(one) for one in words]
    return join_said([join_said(spoken[:-1], ", "), spoken[-1]], say(" and ")) if spoken[1:] else spoken[0]


def said_again(text: str) -> str:
    """A text that may come from a module's table, in the language in use.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
        What is no phrase stays as it is.

    Examples
    --------
    >>> said_again("picture.jpg")
    'picture.jpg'
    """
    return say(text) if isinstance(text, Phrase) else text


def lowered(text: str) -> str:
    """A label as it stands within a sentence; German keeps its capitals.

    Parameters
    ----------
    text : str

    Returns
    -------
    str

    Examples
    --------
    >>> lowered("Edge drawn out")
    'edge drawn out'
    """
    return text if language() == "de" else text.lower()
