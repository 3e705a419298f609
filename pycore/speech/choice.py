"""Which language a person asks for, and its catalogue."""

from __future__ import annotations

import contextlib
import functools
import json
from collections.abc import Iterator, Mapping
from typing import Final

from pycore.speech.phrase import in_use, speak

#: The languages that there are, as tags of BCP 47; English needs no catalogue.
LANGUAGES: Final = ("en", "de")

#: The environment's names for the language of messages, the strongest first (POSIX, and GNU's LANGUAGE).
_ASKED: Final = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


def language_asked(environment: Mapping[str, str]) -> str:
    """The language that the environment asks for.

    Parameters
    ----------
    environment : mapping
        For example `os.environ`.

    Returns
    -------
    str
        English where it asks for none of ours.

    Examples
    --------
    >>> language_asked({"LANG": "de_AT.UTF-8"}), language_asked({"LC_ALL": "C", "LANG": "de_DE"})
    ('de', 'en')
    >>> language_asked({"LANGUAGE": "fr:de:en", "LANG": "fr_FR"})
    'de'
    """
    told = next((environment[name] for name in _ASKED if environment.get(name)), "")
    if _locale(environment) in ("C", "POSIX"):
        return "en"
    for one in told.split(":"):
        tag = one.replace("-", "_").split("_")[0].split(".")[0].lower()
        if tag in LANGUAGES:
            return tag
    return "en"


def _locale(environment: Mapping[str, str]) -> str:
    """The locale itself: where it is C, GNU's LANGUAGE counts for nothing."""
    told = next((environment[name] for name in _ASKED[1:] if environment.get(name)), "")
    return told.split(".")[0]


@functools.cache
def catalogue(tag: str) -> Mapping[str, str]:
    """A language's template for each English one.

    Parameters
    ----------
    tag : str
        One of `LANGUAGES`.

    Returns
    -------
    mapping
        Empty for English.
    """
    if tag == "en":
        return {}
    # Few starts need it, and it takes longer to load than all of this room.
    from importlib.resources import files

    text = files("pycore.speech").joinpath("data", f"{tag}.json").read_text(encoding="utf-8")
    words: dict[str, str] = json.loads(text)
    return words


def speak_in(tag: str) -> None:
    """Take a language into use by its own catalogue.

    Parameters
    ----------
    tag : str
        One of `LANGUAGES`.
    """
    speak(tag, catalogue(tag))


@contextlib.contextmanager
def speaking(tag: str) -> Iterator[None]:
    """Speak a language for a while, then again the one before.

    Parameters
    ----------
    tag : str
        One of `LANGUAGES`.

    Yields
    ------
    None

    Examples
    --------
    >>> from pycore.speech import language
    >>> with speaking("de"):
    ...     language()
    'de'
    """
    before = in_use()
    speak(tag, catalogue(tag))
    try:
        yield
    finally:
        speak(*before)
