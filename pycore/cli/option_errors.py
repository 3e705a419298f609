"""What the reader of options says of a wrong one, in the language in use."""

from __future__ import annotations

import re
from typing import Final

from pycore.speech import mark, say

#: Python's argparse says these in English only. What it says otherwise stays as it is.
_SAID: Final = (
    (
        r"the following arguments are required: (?P<names>.+)",
        mark("the following arguments are required: {names}"),
    ),
    (r"unrecognized arguments: (?P<names>.+)", mark("unrecognized arguments: {names}")),
    (
        r"ambiguous option: (?P<name>.+) could match (?P<names>.+)",
        mark("ambiguous option: {name} could match {names}"),
    ),
    (
        r"argument (?P<name>.+?): invalid choice: (?P<got>.+?) \(choose from (?P<names>.+)\)",
        mark("argument {name}: invalid choice: {got} (choose from {names})"),
    ),
    (
        r"argument (?P<name>.+?): invalid (?P<kind>\w+) value: (?P<got>.+)",
        mark("argument {name}: invalid {kind} value: {got}"),
    ),
    (r"argument (?P<name>.+?): expected one argument", mark("argument {name}: expected one argument")),
    (
        r"argument (?P<name>.+?): expected at least one argument",
        mark("argument {name}: expected at least one argument"),
    ),
    (
        r"argument (?P<name>.+?): not allowed with argument (?P<other>.+)",
        mark("argument {name}: not allowed with argument {other}"),
    ),
)


def said_again(message: str) -> str:
    """Say a message of argparse in the language in use.

    Parameters
    ----------
    message : str

    Returns
    -------
    str
        The message itself where it is none of those that are known.

    Examples
    --------
    >>> said_again("unrecognized arguments: --colour")
    'unrecognized arguments: --colour'
    """
    for pattern, sentence in _SAID:
        found = re.fullmatch(pattern, message, re.DOTALL)
        if found is not None:
            return say(sentence, **found.groupdict())
    return message
