"""Files that the user named: on the disk, or in the bundle given as the job."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Self

from pycore.errors import FieldError, reason_of
from pycore.speech import say

if TYPE_CHECKING:
    from pycore.bundle.content import BundledFile


def file_bytes(name: str, *, field: str) -> bytes:
    """The bytes of a file that the user named.

    Parameters
    ----------
    name : str
        A path, or a file of a bundle.
    field : str
        What to call it in the message.

    Returns
    -------
    bytes

    Raises
    ------
    FieldError
        It cannot be read.
    """
    if isinstance(name, BundledName):
        return name.data
    try:
        return Path(name).read_bytes()
    except (OSError, ValueError) as wrong:
        raise FieldError(
            field=field,
            expected=say("a file that can be read"),
            got=f"{name!r} ({reason_of(wrong)})",
            remedy=say("ask for the right to read it")
            if isinstance(wrong, PermissionError)
            else say("check the name"),
        ) from wrong


class BundledName(str):
    """The name of a file that lies in the bundle given as the job, with its bytes."""

    __slots__ = ("data",)

    data: bytes

    @classmethod
    def of(cls, file: BundledFile) -> Self:
        """The name of a bundle's file.

        Parameters
        ----------
        file : BundledFile

        Returns
        -------
        BundledName
        """
        name = cls(file.name)
        name.data = file.data
        return name
