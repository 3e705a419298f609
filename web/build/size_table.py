"""What the site weighs: a line for each file that a first visit fetches, and the sums."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from build.packed import PACKED
from build.service import served_files

#: What the page fetches until its first folded preview, in a browser that takes the snapshot and on a wide,
#: light screen. tests/browser/test_core.py compares it with what a browser asks for.
_FIRST_VISIT: Final = re.compile(
    r"index\.html|runtime\.json|icon\.svg"
    r"|assets/(?:index|modulepreload-polyfill|say|types|table|stage|loop|strokes|views)-.*"
    r"|assets/(?:core\.worker|estuary|preview_light_desk)-.*"
    r"|py/pyodide\.asm-.*|py/snapshot/.*"
)


@dataclass(frozen=True)
class Sizes:
    """Bytes of some files: as they lie there, by gzip and by Brotli; what is not packed counts as it is."""

    plain: int
    gzip: int
    brotli: int

    def line(self, name: str) -> str:
        """The table's line of it."""
        return f"{self.plain:>12,}{self.gzip:>12,}{self.brotli:>12,}  {name}"


def first_visit_files(site: Path) -> list[Path]:
    """The files that a first visit fetches.

    Parameters
    ----------
    site : Path
        The site's folder.

    Returns
    -------
    list of Path
        The largest first.
    """
    found = [one for one in served_files(site) if _FIRST_VISIT.fullmatch(one.relative_to(site).as_posix())]
    return sorted(found, key=lambda one: one.stat().st_size, reverse=True)


def sizes(files: Iterable[Path]) -> Sizes:
    """Add up files.

    Parameters
    ----------
    files : iterable of Path
        Files of a site that is packed.

    Returns
    -------
    Sizes
    """
    total = {"": 0, **dict.fromkeys(PACKED, 0)}
    for file in files:
        plain = file.stat().st_size
        for ending in total:
            packed = file.with_name(file.name + ending)
            total[ending] += packed.stat().st_size if packed.is_file() else plain
    return Sizes(plain=total[""], gzip=total[".gz"], brotli=total[".br"])


def size_table(site: Path) -> str:
    """The table of a packed site.

    Parameters
    ----------
    site : Path
        The site's folder.

    Returns
    -------
    str
    """
    first = first_visit_files(site)
    everything = served_files(site)
    lines = [f"{'bytes':>12}{'gzip':>12}{'brotli':>12}  a first visit fetches"]
    lines += [sizes([file]).line(file.relative_to(site).as_posix()) for file in first]
    lines += [
        sizes(first).line("together"),
        sizes(everything).line(f"the whole site, {len(everything)} files"),
    ]
    return "\n".join(lines)
