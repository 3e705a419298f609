"""Messages about bundles: a job with its files, opened and saved."""

from __future__ import annotations

from pydantic import Field

from pycore.bridge.message import Buffer, Message
from pycore.bundle.content import Role
from pycore.bundle.report import BundleReport
from pycore.contract.job import Job
from pycore.contract.notes import Note


class GivenFile(Message):
    """A file of the job; its bytes lie in the call's buffer, behind those of the file before it."""

    role: Role
    file: str
    bytes: int = Field(ge=0)


class SaveBundleParams(Message):
    """Write a bundle of a job and its files."""

    job: Job
    files: list[GivenFile]


class SaveBundleReply(Message):
    """The bundle, opened again and found to hold what was meant."""

    report: BundleReport
    parts: list[Buffer]
    """The file's bytes in order, each (n,), uint8, file."""


class OpenBundleParams(Message):
    """The bundle's bytes travel as the call's buffer."""


class BundledFileReply(Message):
    """A file of a bundle."""

    role: Role
    file: str
    parts: list[Buffer]
    """Its bytes in order, each (n,), uint8, file."""


class OpenBundleReply(Message):
    """The job and the files of a bundle."""

    job: Job
    files: list[BundledFileReply]
    notes: list[Note]
    """What of an earlier version's job is worth a look."""
