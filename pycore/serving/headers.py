"""The headers that go with every file of the site; the build writes the same down for static hosts."""

from __future__ import annotations

import html
import re
from pathlib import Path
from typing import Final

#: Below these, each name holds a hash of its bytes.
HASHED_FOLDERS: Final = ("assets/", "py/")

LASTING: Final = "public, max-age=31536000, immutable"
#: It may be kept, and is asked for anew each time.
ASKED_ANEW: Final = "no-cache"
NEVER_KEPT: Final = "no-store"

#: Beside the policy. Nothing of the page may be read or held by a page of another origin.
SAFETY: Final = (
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"),
)

#: Where a site has no page that says one: nothing is loaded at all.
_NO_POLICY: Final = "default-src 'none'"
#: A page cannot say this of itself.
_UNFRAMED: Final = "frame-ancestors 'none'"

_META: Final = re.compile(r'<meta\s+http-equiv="Content-Security-Policy"\s+content="([^"]*)"', re.IGNORECASE)


def policy_of(folder: Path) -> str:
    """The content security policy of a site: the one that its page holds, and that nobody may frame it.

    Parameters
    ----------
    folder : Path
        The site's folder.

    Returns
    -------
    str
        The header's value. A worker takes its policy from its own header alone.
    """
    try:
        text = (folder / "index.html").read_text(encoding="utf-8")
    except (OSError, UnicodeError):
        text = ""
    found = _META.search(text)
    return f"{html.unescape(found[1]) if found else _NO_POLICY}; {_UNFRAMED}"


def kept(path: str) -> str:
    """How long a file of the site may be kept.

    Parameters
    ----------
    path : str
        Below the site's folder.

    Returns
    -------
    str
        The value of `Cache-Control`.

    Examples
    --------
    >>> kept("index.html"), kept("assets/index-BljWjoEO.js")
    ('no-cache', 'public, max-age=31536000, immutable')
    """
    return LASTING if any(f"/{folder}" in f"/{path}" for folder in HASHED_FOLDERS) else ASKED_ANEW
