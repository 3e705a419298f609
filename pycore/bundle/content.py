"""What a bundle holds: a job, and files that have their name and their bytes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from pycore.contract.job import Job
from pycore.contract.notes import Note


class Role(StrEnum):
    """What a file is to the job."""

    PICTURE = "picture"
    PROFILE = "profile"
    WALL = "wall"
    WALL_MARKS = "wall-marks"
    """What is marked on the photograph of the wall, as a JSON object; the page alone knows its fields."""


@dataclass(frozen=True, kw_only=True)
class BundledFile:
    """One file of a bundle.

    Attributes
    ----------
    name : str
        Of the file alone, without a folder.
    data : bytes
    """

    name: str
    data: bytes

    @cached_property
    def sha256(self) -> str:
        """Of the bytes, hexadecimal."""
        # The page's start knows this module, and needs no hash.
        import hashlib

        return hashlib.sha256(self.data).hexdigest()


@dataclass(frozen=True, kw_only=True)
class Bundle:
    """A job and its files.

    Attributes
    ----------
    job : Job
        It names its picture by file and hash, and its profile by file, where the bundle holds them.
    files : dict of Role to BundledFile
    notes : list of Note
        What of an older job is worth a look.
    text : str
        The job as it stands in the bundle, as JSON.
    """

    job: Job
    files: dict[Role, BundledFile]
    notes: list[Note]
    text: str


def plain_file_name(text: str) -> str:
    r"""A file's name that any disk takes, from a name or a path.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
        At most 120 characters, no folder, no control characters; `file` where nothing is left.

    Examples
    --------
    >>> plain_file_name("../low: tide.jpg"), plain_file_name("C:\\scans\\quay.tif"), plain_file_name("..")
    ('low- tide.jpg', 'quay.tif', 'file')
    """
    last = re.split(r"[\\/]", text)[-1].strip()
    safe = re.sub(r'[:*?"<>|\x00-\x1f\x7f]+', "-", last).lstrip(".")
    return safe[-120:] or "file"
