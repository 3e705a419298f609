"""The media type of each file of the site, by its ending alone: the system's own table differs by machine."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

#: RFC 9239 for JavaScript; the IANA registry for the rest. A wheel is a zip file.
MEDIA_TYPES: Final = MappingProxyType(
    {
        ".bin": "application/octet-stream",
        ".css": "text/css; charset=utf-8",
        ".html": "text/html; charset=utf-8",
        ".icc": "application/vnd.iccprofile",
        ".jpg": "image/jpeg",
        ".js": "text/javascript; charset=utf-8",
        ".json": "application/json; charset=utf-8",
        ".mjs": "text/javascript; charset=utf-8",
        ".png": "image/png",
        ".svg": "image/svg+xml; charset=utf-8",
        ".txt": "text/plain; charset=utf-8",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json; charset=utf-8",
        ".webp": "image/webp",
        ".whl": "application/zip",
        ".woff2": "font/woff2",
        ".zip": "application/zip",
    }
)

_UNKNOWN: Final = "application/octet-stream"


def media_type(name: str) -> str:
    """The media type of a file.

    Parameters
    ----------
    name : str
        The file's name.

    Returns
    -------
    str
        With the character set where it is text.

    Examples
    --------
    >>> media_type("page.HTML"), media_type("odd")
    ('text/html; charset=utf-8', 'application/octet-stream')
    """
    _, dot, ending = name.rpartition(".")
    return MEDIA_TYPES.get(f".{ending.lower()}", _UNKNOWN) if dot else _UNKNOWN
