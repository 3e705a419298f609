"""What is wrong with an option, as an error of the core: one sentence, in the language in use."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from typing import Any, Final

from pycore.errors import FieldError
from pycore.speech import mark, say

#: What Python's argparse says in English only; what was expected, and what came. What argparse says otherwise
#: stays as it is. A group called `got` is what came, where no text says it.
_SAID: Final = (
    (r"the following arguments are required: (?P<field>.+)", mark("given##an option"), mark("nothing")),
    (r"ambiguous option: (?P<field>(?P<got>.+)) could match (?P<names>.+)", mark("one of {names}"), ""),
    (
        r"argument (?P<field>.+?): invalid choice: (?P<got>.+?) \(choose from (?P<names>.+)\)",
        mark("one of {names}"),
        "",
    ),
    (
        r"argument (?P<field>.+?): invalid float value: (?P<got>.+)",
        mark("a number, with a point before its decimals"),
        "",
    ),
    (r"argument (?P<field>.+?): invalid int value: (?P<got>.+)", mark("a whole number"), ""),
    (r"argument (?P<field>.+?): expected one argument", mark("followed by a value"), mark("nothing")),
    (
        r"argument (?P<field>.+?): expected at least one argument",
        mark("followed by at least one value"),
        mark("nothing"),
    ),
    (
        r"argument (?P<field>.+?): not allowed with argument (?P<other>.+)",
        mark("given without {other}"),
        mark("both"),
    ),
)
_UNKNOWN: Final = r"unrecognized arguments: (?P<names>.+)"


class Once(argparse.Action):
    """Stores an option's value, and refuses a second one: it is never guessed which of two is meant."""

    _is_given = False

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        """Store the value.

        Parameters
        ----------
        parser : argparse.ArgumentParser
        namespace : argparse.Namespace
            Changed in place.
        values : object
        option_string : str, optional
            The option as it was written; None for what has its place instead.

        Raises
        ------
        FieldError
            The option was given before.
        """
        if option_string is not None and self._is_given:
            raise FieldError(
                field=self.option_strings[-1],
                expected=say("given once"),
                got=say("it twice"),
                remedy=say("leave one of the two out"),
            )
        self._is_given = True
        setattr(namespace, self.dest, values)


def option_error(message: str, *, prog: str) -> FieldError:
    """The error of the core for a message of argparse.

    Parameters
    ----------
    message : str
    prog : str
        The program's name and the command's, whose help says more.

    Returns
    -------
    FieldError

    Examples
    --------
    >>> str(option_error("argument --at: invalid float value: '0,5'", prog="tuckfold fold"))
    "--at must be a number, with a point before its decimals; you gave '0,5'. See tuckfold fold --help."
    """
    remedy = say("see {prog} --help", prog=prog)
    for pattern, expected, got in _SAID:
        found = re.fullmatch(pattern, message, re.DOTALL)
        if found is not None:
            words = found.groupdict()
            return FieldError(
                field=words["field"],
                expected=say(expected, **words),
                got=say(got) if got else words["got"],
                remedy=remedy,
            )
    unknown = re.fullmatch(_UNKNOWN, message, re.DOTALL)
    names = unknown["names"] if unknown else ""
    return FieldError(
        field=names or say("the command"),
        expected=say("what the command takes"),
        got=names or message,
        remedy=remedy,
        said=say("This command does not take {names}.", names=names) if unknown else f"{message}.",
    )
