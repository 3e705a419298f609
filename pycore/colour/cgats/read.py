"""Reading CGATS text: every count is checked, and what is wrong is said in one sentence."""

from __future__ import annotations

import re
from typing import Final

from pycore.colour.cgats.table import CgatsTable, cgats_fault
from pycore.errors import shown
from pycore.speech import say

#: A chart of a few thousand patches with spectra has less than this.
LARGEST_BYTES: Final = 4 * 1024 * 1024
_MOST_ROWS: Final = 20_000
_MOST_FIELDS: Final = 500

_WORD = re.compile(r'"([^"]*)"|(\S+)')

_AGAIN: Final = say("export it again from the measuring program as CGATS text")


def read_cgats(data: bytes, *, name: str) -> CgatsTable:
    r"""Read the first table of a CGATS text.

    Parameters
    ----------
    data : bytes
        The file: UTF-8, or Latin-1 where it is none.
    name : str
        What the text is called in a message, for example "measured".

    Returns
    -------
    CgatsTable

    Raises
    ------
    FieldError
        It is too large, is no such text, or its counts do not agree with what it holds.

    References
    ----------
    ISO 28178:2009, clause 5.

    Examples
    --------
    >>> text = b"CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L\nEND_DATA_FORMAT\nBEGIN_DATA\nA1 95\nEND_DATA\n"
    >>> read_cgats(text, name="measured").rows
    (('A1', '95'),)
    """
    if len(data) > LARGEST_BYTES:
        raise cgats_fault(
            name,
            say(
                "The file has {data_count:.1f} MB; the values of a strip have at most "
                "{largest_bytes:.0f} MB.",
                data_count=len(data) / 1000000.0,
                largest_bytes=LARGEST_BYTES / 1000000.0,
            ),
            say("choose the file with the values"),
        )
    reading = _Reading(name)
    for line in _text(data).splitlines():
        if reading.done:
            # Further tables of the same file, such as spectra, follow; the first one counts.
            break
        reading.take(line)
    return reading.table()


def _text(data: bytes) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


class _Reading:
    """A table while it is read, line by line."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._fields: list[str] = []
        self._words: list[str] = []
        self._rows: list[tuple[str, ...]] = []
        self._keywords: dict[str, list[str]] = {}
        self._part = ""
        self.done = False

    def take(self, line: str) -> None:
        """Read one line."""
        words = [quoted or bare for quoted, bare in _WORD.findall(line)]
        if not words or line.lstrip().startswith("#"):
            return
        first = words[0].upper()
        if first in ("BEGIN_DATA_FORMAT", "BEGIN_DATA"):
            self._part = first
        elif first == "END_DATA_FORMAT":
            self._part = ""
        elif first == "END_DATA":
            self.done = True
        elif self._part == "BEGIN_DATA_FORMAT":
            self._fields += [word.upper() for word in words]
            if len(self._fields) > _MOST_FIELDS:
                raise self._fault(say("names more than {most_fields} fields", most_fields=_MOST_FIELDS))
        elif self._part == "BEGIN_DATA":
            cells = [cell.strip().strip('"') for cell in line.split("\t")]
            # Between two tabs a patch may have no name.
            self._row(cells if len(cells) == len(self._fields) else words)
        elif len(words) > 1:
            self._keywords.setdefault(first, []).append(" ".join(words[1:]))

    def _row(self, words: list[str]) -> None:
        if not self._fields:
            raise self._fault(say("has data before it names their fields (BEGIN_DATA_FORMAT)"))
        if len(self._rows) >= _MOST_ROWS:
            raise self._fault(say("has more than {most_rows} patches", most_rows=_MOST_ROWS))
        if len(words) != len(self._fields):
            raise self._fault(
                say(
                    "has {word_count} values in row {row_count} of the data and names {field_count} fields",
                    word_count=len(words),
                    row_count=len(self._rows) + 1,
                    field_count=len(self._fields),
                )
            )
        self._rows.append(tuple(words))

    def table(self) -> CgatsTable:
        """The whole table, once its counts agree."""
        if not self._fields:
            raise self._fault(say("names no fields (BEGIN_DATA_FORMAT)"))
        if not self.done:
            raise self._fault(
                say("ends before END_DATA") if self._part == "BEGIN_DATA" else say("has no BEGIN_DATA")
            )
        for keyword, found, what in (
            ("NUMBER_OF_FIELDS", len(self._fields), "fields"),
            ("NUMBER_OF_SETS", len(self._rows), "rows"),
        ):
            said = self._keywords.get(keyword, [str(found)])[0]
            if said != str(found):
                raise self._fault(
                    say(
                        "has {found} {what} and says {keyword} {said}",
                        found=found,
                        what=what,
                        keyword=keyword,
                        said=shown(said, limit=20),
                    )
                )
        twice = {one for one in self._fields if self._fields.count(one) > 1}
        if twice:
            raise self._fault(say("names the field {twice} twice", twice=shown(min(twice), limit=30)))
        return CgatsTable(
            fields=tuple(self._fields),
            rows=tuple(self._rows),
            keywords={name: tuple(values) for name, values in self._keywords.items()},
        )

    def _fault(self, what: str) -> Exception:
        return cgats_fault(self._name, say("The CGATS text {what}.", what=what), _AGAIN)
