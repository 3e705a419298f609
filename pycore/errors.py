"""One tree of errors. Each names the field, what was expected, what came, and the remedy."""

from __future__ import annotations

import errno
from typing import Final, Self

from pycore.field_names import plain_name
from pycore.speech import PlainValue, mark, said_again, say, values_of


class TuckfoldError(Exception):
    """Base of every error the core raises on purpose.

    Parameters
    ----------
    field : str
        The dotted name of the job field, or the argument, that is wrong.
    expected : str
        What would have been right.
    got : str
        What came instead.
    remedy : str
        What to do about it.
    said : str, optional
        The sentence, where “X must be …; you gave …” does not say it.

    Attributes
    ----------
    code : str
        A stable word for the kind of error, the same on the page and on the command line.
    message : str
        What is wrong, in a sentence; the error's text is this and the remedy.
    values : dict
        The values in the texts by name.

    Examples
    --------
    >>> str(FieldError(field="bars.depth_mm", expected="6 to 100 mm", got="3", remedy="use deeper bars"))
    'Bar depth must be 6 to 100 mm; you gave 3. Use deeper bars.'
    """

    code: str = "error"

    #: What is said of what was expected and of what came.
    _sentence: str = mark("{field} must be {expected}; you gave {got}.")

    def __init__(self, *, field: str, expected: str, got: str, remedy: str, said: str = "") -> None:
        self.field = field
        # A text of a module's table was made before the language was chosen: it is said again.
        self.expected = said_again(expected)
        self.got = said_again(got)
        self.remedy = said_again(remedy)
        self.said = said_again(said)
        super().__init__(f"{self.message} {self.remedy[:1].upper()}{self.remedy[1:]}.")

    @property
    def message(self) -> str:
        """What is wrong, in a sentence."""
        if self.said:
            return self.said
        name = plain_name(self.field)
        return say(
            self._sentence,
            field=name[:1].upper() + name[1:],
            expected=self.expected,
            got=self.got,
        )

    @property
    def values(self) -> dict[str, PlainValue]:
        """The values in its texts by name, the same in every language."""
        return values_of(self.said, self.expected, self.got, self.remedy)

    def about(self, field: str, *, file: str = "") -> Self:
        """Make the same error about another field, for example the option that held the value.

        Parameters
        ----------
        field : str
        file : str, optional
            The name of the file that it is about, where there are several; it stands before the sentence.

        Returns
        -------
        TuckfoldError
            Of the same kind.
        """
        said = say("{file:s}: {message}", file=file, message=self.message) if file else self.said
        return type(self)(field=field, expected=self.expected, got=self.got, remedy=self.remedy, said=said)


class FieldError(TuckfoldError):
    """A job field holds a value that is out of range, of the wrong kind, or unknown."""

    code = "field"


class GeometryError(TuckfoldError):
    """The sizes are each allowed, but no canvas can be folded or filled with them together."""

    code = "geometry"


class PictureError(TuckfoldError):
    """A picture file cannot be used: not an image, damaged, too large, or of an unknown kind."""

    code = "picture"
    _sentence = mark("{field} must be {expected}; it is {got}.")


class ProfileError(TuckfoldError):
    """An ICC profile is damaged, lies about itself, or is of a kind that is not meant here."""

    code = "profile"
    _sentence = mark("{field} must be {expected}; it is {got}.")


class BundleError(TuckfoldError):
    """A bundle cannot be opened: no archive, damaged, or holding what no bundle holds."""

    code = "bundle"
    _sentence = mark("{field} must be {expected}; it is {got}.")


class OutputError(TuckfoldError):
    """A file could not be written, or what was re-read from it is not what was meant."""

    code = "output"
    _sentence = mark("{field} must be {expected}; it is {got}.")


#: What the system says in its own language, by its number.
_REASONS: Final = {
    errno.ENOENT: mark("there is no such file or folder"),
    errno.EACCES: mark("permission denied"),
    errno.EPERM: mark("permission denied"),
    errno.EISDIR: mark("it is a folder"),
    errno.ENOTDIR: mark("a part of its path is no folder"),
    errno.ENOSPC: mark("no space is left"),
    errno.EROFS: mark("nothing can be written on that disk"),
    errno.EADDRINUSE: mark("another program uses it"),
}


def reason_of(wrong: Exception) -> str:
    """Why the system refused, in the language in use where it is one of the usual reasons.

    Parameters
    ----------
    wrong : Exception

    Returns
    -------
    str

    Examples
    --------
    >>> reason_of(FileNotFoundError(errno.ENOENT, "ENOENT")), reason_of(ValueError("embedded null byte"))
    ('there is no such file or folder', 'embedded null byte')
    """
    if not isinstance(wrong, OSError):
        return str(wrong)
    known = None if wrong.errno is None else _REASONS.get(wrong.errno)
    return say(known) if known else wrong.strerror or str(wrong)


def shown(value: object, *, limit: int = 60) -> str:
    """A short, one-line form of a user's value, for messages.

    Parameters
    ----------
    value : object
    limit : int
        Most characters, at least 2.

    Returns
    -------
    str
        Its `repr`, cut with an ellipsis where it is longer; a whole number without a decimal.

    Examples
    --------
    >>> shown("a" * 100, limit=10)
    "'aaaaaaaa…"
    >>> shown(3.5), shown(-3.0)
    ('3.5', '-3')
    """
    text = repr(value)
    if isinstance(value, float):
        text = text.removesuffix(".0")
    return text if len(text) <= limit else text[: limit - 1] + "…"
