"""What a static host is told: headers in two common forms."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from pycore.serving.headers import ASKED_ANEW, HASHED_FOLDERS, LASTING, SAFETY, policy_of
from pycore.serving.media_types import MEDIA_TYPES

#: Read by several hosts of static sites: a path, then its headers.
HEADERS_FILE: Final = "_headers"
#: Read by Apache.
APACHE_FILE: Final = ".htaccess"

#: The endings of packed copies, and what HTTP calls their coding.
_CODINGS: Final = ((".br", "br"), (".gz", "gzip"))
#: Endings that a host may not know, or may give another type.
_TYPES: Final = (".js", ".wasm", ".webmanifest", ".whl", ".bin")


def write_host_files(site: Path) -> None:
    """Write the headers that every host of the site shall send, in two forms.

    Parameters
    ----------
    site : Path
        The site's folder, with its page.
    """
    headers = [("Content-Security-Policy", policy_of(site)), *SAFETY]
    (site / HEADERS_FILE).write_text(headers_text(headers), encoding="utf-8")
    (site / APACHE_FILE).write_text(apache_text(headers), encoding="utf-8")


def headers_text(headers: list[tuple[str, str]]) -> str:
    """The form with one path a block.

    Parameters
    ----------
    headers : list of tuple
        Name and value of what goes with every file.

    Returns
    -------
    str

    Examples
    --------
    >>> print(headers_text([("X-Content-Type-Options", "nosniff")]).splitlines()[1])
      X-Content-Type-Options: nosniff
    """
    # Hosts join the headers of all blocks that fit, so that each name stands once for each path.
    lines = ["/*", *(f"  {name}: {value}" for name, value in headers)]
    for folder in HASHED_FOLDERS:
        lines += [f"/{folder}*", f"  Cache-Control: {LASTING}"]
    return "\n".join(lines) + "\n"


def apache_text(headers: list[tuple[str, str]]) -> str:
    """The form that Apache reads; it serves the packed copies that lie beside the files.

    Parameters
    ----------
    headers : list of tuple
        Name and value of what goes with every file.

    Returns
    -------
    str
    """
    types = [f"AddType {MEDIA_TYPES[ending].partition(';')[0]} {ending}" for ending in _TYPES]
    folders = "|".join(HASHED_FOLDERS)
    packed = []
    for ending, coding in _CODINGS:
        packed += [
            f"RewriteCond %{{HTTP:Accept-Encoding}} \\b{coding}\\b",
            f"RewriteCond %{{REQUEST_FILENAME}}{ending} -f",
            f"RewriteRule ^(.+)$ $1{ending} [L]",
        ]
    served = [
        line
        for ending, coding in _CODINGS
        for line in (
            f'<FilesMatch "\\{ending}$">',
            f"  Header set Content-Encoding {coding}",
            "  Header append Vary Accept-Encoding",
            f"  RemoveType {ending}",
            "</FilesMatch>",
        )
    ]
    return (
        "\n".join(
            [
                "Options -Indexes",
                *types,
                "<IfModule mod_headers.c>",
                *(f'Header always set {name} "{value}"' for name, value in headers),
                f'Header set Cache-Control "{ASKED_ANEW}"',
                f'<If "%{{REQUEST_URI}} =~ m#/({folders})[^/]#">',
                f'  Header set Cache-Control "{LASTING}"',
                "</If>",
                "</IfModule>",
                "<IfModule mod_rewrite.c>",
                "RewriteEngine On",
                *packed,
                "</IfModule>",
                *served,
            ]
        )
        + "\n"
    )
