"""One job of a batch: what it is, where its files lie, and what is ordered of it."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from pycore.bundle.content import Role
from pycore.contract.error_record import ErrorRecord
from pycore.contract.job import Job
from pycore.errors import FieldError, reason_of
from pycore.speech import say
from pycore.tasks.bundle import read_bundle

#: Names that one system keeps for its devices.
_DEVICES: Final = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)")


@dataclass(frozen=True, kw_only=True)
class FileSource:
    """Where a picture or a profile is read from.

    Attributes
    ----------
    name : str
        Of the file alone.
    path : str
        Of the file, or of the bundle that it lies in.
    field : str
        The job's field that names it.
    role : Role or None
        In a bundle: which of its files.
    data : bytes or None
        Its bytes, where they travel with the order.
    """

    name: str
    path: str
    field: str
    role: Role | None = None
    data: bytes | None = None

    def read(self) -> bytes:
        """Its bytes.

        Returns
        -------
        bytes

        Raises
        ------
        FieldError, BundleError
            It cannot be read.
        """
        if self.data is not None:
            return self.data
        try:
            data = Path(self.path).read_bytes()
        except (OSError, ValueError) as wrong:
            raise FieldError(
                field=self.field,
                expected=say("a file beside the job that can be read"),
                got=f"{self.name!r} ({reason_of(wrong)})",
                remedy=say("put it there, or correct its name in the job"),
            ) from wrong
        return data if self.role is None else read_bundle(data).files[self.role].data

    def with_data(self) -> FileSource:
        """The same with its bytes, for a machine that does not see the file.

        Returns
        -------
        FileSource
        """
        return replace(self, data=self.read())


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One job of a batch.

    Attributes
    ----------
    name : str
        Of its folder and its files.
    source : str
        The file, or the row of a table, that it was read from.
    job : Job or None
        None where it cannot be made.
    picture : FileSource or None
    profile : FileSource or None
        None: the illustrative one.
    error : str
        Why nothing can be made of it.
    refusal : ErrorRecord or None
        The same with its code and values.
    lacks : str
        Which of its files is not there, in a sentence; it can be planned all the same.
    """

    name: str
    source: str
    job: Job | None = None
    picture: FileSource | None = None
    profile: FileSource | None = None
    error: str = ""
    refusal: ErrorRecord | None = None
    lacks: str = ""


def safe_name(text: str) -> str:
    """A name for a folder and its files, on any system.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
        Letters, digits, hyphens and underscores, 1 to 80 characters.

    Examples
    --------
    >>> safe_name("Low tide / 2"), safe_name("../.."), safe_name("NUL")
    ('Low-tide-2', 'piece', 'NUL-piece')
    """
    name = "-".join(re.findall(r"\w+", text))[:80].strip("-_")
    if not name:
        return "piece"
    return f"{name}-piece" if _DEVICES.fullmatch(name) else name
