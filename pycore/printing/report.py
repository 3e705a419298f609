"""The formats of the print file, and what is found when a written one is read again."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from pycore.contract.record import Pair, Record
from pycore.errors import FieldError
from pycore.speech import say


class FileKind(StrEnum):
    """Formats of the print file."""

    TIFF = "tiff"
    PNG = "png"
    JPEG = "jpeg"
    PDF = "pdf"


#: How the names of such files end; the first is the usual one.
_NAME_ENDINGS: Final = {
    FileKind.TIFF: (".tif", ".tiff"),
    FileKind.PNG: (".png",),
    FileKind.JPEG: (".jpg", ".jpeg"),
    FileKind.PDF: (".pdf",),
}

#: The usual ending of each kind.
FILE_ENDINGS: Final[Mapping[FileKind, str]] = MappingProxyType(
    {kind: endings[0] for kind, endings in _NAME_ENDINGS.items()}
)


def kind_of_file(name: str, *, field: str) -> FileKind:
    """The format that a file's name asks for.

    Parameters
    ----------
    name : str
    field : str
        What to call it in a message.

    Returns
    -------
    FileKind

    Raises
    ------
    FieldError
        The ending is none of a print file.

    Examples
    --------
    >>> kind_of_file("canvas.TIFF", field="out").value
    'tiff'
    """
    for kind, endings in _NAME_ENDINGS.items():
        if name.lower().endswith(endings):
            return kind
    raise FieldError(
        field=field,
        expected=say("a name that ends in .tif, .tiff, .png, .jpg, .jpeg or .pdf"),
        got=repr(name),
        remedy=say("choose one of these formats"),
    )


class FileReport(Record):
    """What was re-read from a written file."""

    file: str
    width_px: int
    height_px: int
    ppi: Pair
    size_mm: Pair
    profile_name: str
    bytes: int
    format: str
    bits: int
