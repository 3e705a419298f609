"""What a batch says when it has ended, as plain data."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from pycore.contract.error_record import ErrorRecord
from pycore.contract.notes import Note
from pycore.contract.record import Record


class JobResult(Record):
    """What came of one job."""

    name: str
    """Of its folder and its files."""
    source: str
    """The file, or the row of a table, that it was read from."""
    ok: bool
    files: list[str] = Field(default_factory=list)
    """Paths below the batch's folder."""
    error: str = ""
    """Why it was not done; empty where it was."""
    refusal: ErrorRecord | None = None
    """The same with its code and values, where the core refused it."""
    skipped: bool = False
    """Everything was there from an earlier batch, and unchanged."""
    notes: list[str] = Field(default_factory=list)
    """What to look at before it is printed."""
    note_records: list[Note] = Field(default_factory=list)
    """The same with their codes and values."""


class WholeResult(Record):
    """What was made of all jobs together, for example the shopping list."""

    kind: str
    files: list[str] = Field(default_factory=list)
    """Paths below the batch's folder."""
    lines: list[str] = Field(default_factory=list)
    """In words."""
    figures: dict[str, Any] = Field(default_factory=dict)
    """The same as data."""
    error: str = ""


class BatchReport(Record):
    """A batch's summary."""

    jobs: list[JobResult]
    whole: list[WholeResult]
    done: int
    skipped: int
    failed: int
    seconds: float
    """From its begin to its end."""
