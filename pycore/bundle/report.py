"""What is found in a written bundle."""

from __future__ import annotations

from pycore.bundle.content import Role
from pycore.contract.record import Record


class BundledFileName(Record):
    """One file in a bundle."""

    role: Role
    name: str


class BundleReport(Record):
    """What was found in a written bundle."""

    file: str
    bytes: int
    files: list[BundledFileName]
