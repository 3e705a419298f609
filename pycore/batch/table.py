"""A table of pieces as a spreadsheet saves it: one row a piece, columns named as the fields of a job."""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from pycore.contract.check import check_job
from pycore.contract.edits import edit_tree
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.errors import FieldError, shown
from pycore.field_names import FIELD_NAMES, nearest_field
from pycore.speech import say

#: Rows of one table.
MOST_ROWS: Final = 10_000

#: What may part columns. Spreadsheets take semicolons where numbers have a decimal comma, and tabs for text.
_MARKS: Final = (",", ";", "\t")

#: What text in UTF-16 begins with.
_UTF_16: Final = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)

#: As in 240,5.
_DECIMAL_COMMA: Final = re.compile(r"[+-]?\d+,\d+")


@dataclass(frozen=True, kw_only=True)
class Row:
    """One piece of a table.

    Attributes
    ----------
    number : int
        As a spreadsheet counts; the names of the columns are row 1.
    job : Job or FieldError
        Its job, or why it is none.
    cells : dict of str to str
        What the row itself says, by field.
    """

    number: int
    job: Job | FieldError
    cells: dict[str, str]


def read_table(data: bytes, *, file: str, base: dict[str, Any], edits: list[str]) -> list[Row]:
    r"""Read a table of pieces.

    Parameters
    ----------
    data : bytes
        The file: columns parted by commas, semicolons or tabs, in UTF-8, or in UTF-16 with its byte order
        mark. A number may have a decimal comma.
    file : str
        Its name, for messages.
    base : dict
        The parsed job that every row begins from. An empty cell leaves its field as it is there.
    edits : list of str
        `field=value`, for every row.

    Returns
    -------
    list of Row
        One that is no job says why; the others are used.

    Raises
    ------
    FieldError
        It is no table, or its columns are not fields of a job.

    Examples
    --------
    >>> rows = read_table(b"name,face.width_mm\nLow tide,240\n", file="a.csv", base={}, edits=[])
    >>> [(row.number, row.job.name, row.job.face.width_mm) for row in rows]
    [(2, 'Low tide', 240.0)]
    """
    rows = _numbered(data, file)
    first = next(rows, None)
    if first is None:
        raise _wrong(file, say("it is empty"), remedy=say("give it a row with the names of the fields"))
    fields = _fields(first[1], file)
    found = [_row(number, cells, fields, base, edits) for number, cells in rows]
    if not found:
        raise _wrong(
            file, say("it has no piece below the names of the fields"), remedy=say("give each piece a row")
        )
    return found


def _numbered(data: bytes, file: str) -> Iterator[tuple[int, list[str]]]:
    try:
        text = data.decode("utf-16" if data.startswith(_UTF_16) else "utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise _wrong(file, say("it is not text in UTF-8"), remedy=say("save it as CSV in UTF-8")) from wrong
    # The names of the columns hold none of the marks.
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = max(_MARKS, key=first.count)
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
        for number, cells in enumerate(reader, 1):
            if number > MOST_ROWS + 1:
                raise _wrong(
                    file,
                    say("it has more than {most_rows} rows", most_rows=MOST_ROWS),
                    remedy=say("make several tables of it"),
                )
            if any(cell.strip() for cell in cells):
                yield number, [cell.strip() for cell in cells]
    except csv.Error as wrong:
        raise _wrong(
            file, say("it is no CSV ({wrong})", wrong=wrong), remedy=say("save it as CSV with commas")
        ) from wrong


def _fields(names: list[str], file: str) -> list[str]:
    """The columns' fields, each known and there once."""
    known = _known_fields()
    for column, name in enumerate(names, 1):
        at = say("row 1, column {column}: ", column=column)
        if not name:
            raise _wrong(
                file, say("{at}the column has no name", at=at), remedy=say("name it as a field of the job")
            )
        if name not in known:
            near = nearest_field(name)
            hint = say("did you mean {near}?", near=near) if near in known else say("no field is like it.")
            raise _wrong(
                file,
                say("{at}the job has no field {name}; {hint}", at=at, name=shown(name), hint=hint),
                remedy=say("correct the name"),
            )
        if name in names[: column - 1]:
            raise _wrong(
                file,
                say("{at}the field {name} stands twice", at=at, name=name),
                remedy=say("leave one of them out"),
            )
    return names


def _known_fields() -> set[str]:
    """The fields that hold a value of their own, and not further fields."""
    leaves = {
        name
        for name in FIELD_NAMES
        if name != "version" and not any(other.startswith(f"{name}.") for other in FIELD_NAMES)
    }
    own = {name.removeprefix("sides.") for name in leaves if name.startswith("sides.")}
    sides = {side.value for side in Side}
    return (leaves - {f"sides.{side}" for side in sides}) | {
        f"sides.{side}.{field}" for side in sides for field in own if field not in sides
    }


def _row(number: int, cells: list[str], fields: list[str], base: dict[str, Any], edits: list[str]) -> Row:
    own = {field: cell for field, cell in zip(fields, cells, strict=False) if cell}
    try:
        if any(cells[len(fields) :]):
            raise FieldError(
                field="JOBS",
                expected=say("a value under the name of a field"),
                got=cells[-1],
                remedy=say("name the column, or put a text that holds commas between quotation marks"),
                said=say(
                    "There is a value in column {column}, where no field is named.", column=len(fields) + 1
                ),
            )
        job, own = _checked(own, base, edits)
    except FieldError as wrong:
        return Row(number=number, job=wrong, cells=own)
    return Row(number=number, job=job, cells=own)


def _checked(own: dict[str, str], base: dict[str, Any], edits: list[str]) -> tuple[Job, dict[str, str]]:
    """A row's job, and its cells with a decimal point for a comma where a number is asked for."""
    while True:
        try:
            edited = edit_tree(base, [*(f"{field}={cell}" for field, cell in own.items()), *edits])
            return check_job(edited), own
        except FieldError as wrong:
            cell = own.get(wrong.field, "")
            if not _DECIMAL_COMMA.fullmatch(cell):
                raise
            own = own | {wrong.field: cell.replace(",", ".")}


def _wrong(file: str, reason: str, *, remedy: str) -> FieldError:
    end = "" if reason.endswith(("?", ".")) else "."
    return FieldError(
        field="JOBS",
        expected=say("a table of pieces (CSV)"),
        got=file,
        remedy=remedy,
        said=say("The table {file} cannot be used: {reason}{end}", file=file, reason=reason, end=end),
    )
