"""The messages about the proof strip: made, and measured."""

from __future__ import annotations

from pycore.bridge.message import Buffer, Message
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.strip.report import StripReport


class StripParams(Message):
    """Make the proof strip of a job."""

    job: Job
    date: str
    """Of today, YYYY-MM-DD."""


class StripReply(Message):
    """The written strip, re-opened and measured, and its values."""

    report: StripReport
    parts: list[Buffer]
    """The strip's bytes in order, each (n,), uint8, file."""
    values: str
    """What the profile promises for its patches, CGATS text."""
    notes: list[Note]


class MeasureStripParams(Message):
    """The values that were saved beside a strip; those that a device measured travel as the call's buffer."""

    expected: str
