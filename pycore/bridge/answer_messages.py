"""The messages about the client's answer."""

from __future__ import annotations

from pycore.bridge.message import Message
from pycore.contract.job import Job
from pycore.contract.notes import Note


class AnswerParams(Message):
    """The text that a client page gave, for the job that it was made from."""

    job: Job
    text: str


class AnswerReply(Message):
    """The job with what the client picked, and with their words."""

    job: Job
    chosen: str
    """The answer's first sentence."""
    changed: list[str]
    """The fields that the answer changed besides `answer`, dotted."""
    notes: list[Note]
