"""From the address that a browser asks for to a file of the site, and to nothing else."""

from __future__ import annotations

import stat
from pathlib import Path
from typing import Final
from urllib.parse import unquote_to_bytes

#: What a folder answers with.
INDEX: Final = "index.html"

#: Letters that no name of the site holds: controls, and what other systems take for a folder or a drive.
_REFUSED: Final = frozenset(map(chr, range(0x20))) | frozenset("\x7f\\:")


def site_path(target: str) -> str | None:
    """The path below the site's folder that a request means.

    Parameters
    ----------
    target : str
        The request's target, as it stands in the request's first line.

    Returns
    -------
    str or None
        Names joined by slashes; None where no file of a site can be meant.

    Examples
    --------
    >>> site_path("/py/a%2Db.wasm?x#y"), site_path("/")
    ('py/a-b.wasm', 'index.html')
    >>> [site_path(one) for one in ("/../a", "/%2e%2e/a", "/%00", "//a", "/.htaccess", "a")]
    [None, None, None, None, None, None]
    """
    path = target.partition("#")[0].partition("?")[0]
    if not path.startswith("/"):
        return None
    try:
        text = unquote_to_bytes(path[1:]).decode("utf-8")
    except UnicodeError:
        return None
    if not _REFUSED.isdisjoint(text):
        return None
    *folders, name = text.split("/")
    # Hidden files are none of the site; "." and ".." begin so too.
    if any(not one or one.startswith(".") for one in folders) or name.startswith("."):
        return None
    return "/".join([*folders, name or INDEX])


def site_file(folder: Path, target: str) -> Path | None:
    """The file that a request means.

    Parameters
    ----------
    folder : Path
        The site's folder, resolved.
    target : str
        The request's target.

    Returns
    -------
    Path or None
        A plain file that lies in the folder, links followed; None where there is none.
    """
    path = site_path(target)
    if path is None:
        return None
    try:
        file = (folder / path).resolve(strict=True)
        plain = stat.S_ISREG(file.stat().st_mode)
    except (OSError, RuntimeError, ValueError):
        # Missing, too long a name, a circle of links, a name that the system does not take.
        return None
    return file if plain and file.is_relative_to(folder) else None
