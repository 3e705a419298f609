"""The service worker of a finished site: its program behind the list of the site's files."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Set
from pathlib import Path
from typing import Final

from build.failure import BuildError
from pycore.serving.headers import HASHED_FOLDERS

#: At the site's top: a service worker serves what lies beside and below it.
SERVICE_FILE: Final = "service.js"

#: For hosts and packers, never asked for by a page.
_NOT_SERVED: Final = (".br", ".gz", ".htaccess", "_headers")


def write_service(site: Path, *, late: Set[str]) -> None:
    """Write the service worker's program.

    Parameters
    ----------
    site : Path
        The site's folder, complete otherwise.
    late : set of str
        Names that begin the wheels which both ways to start fetch only when they are needed.

    Raises
    ------
    BuildError
        The program that Vite has built is missing, or would load another.
    """
    program = sorted((site / "assets").glob("service-*.js"))
    if len(program) != 1:
        raise BuildError("the site holds no service worker", "see web/vite.config.ts, which names its inputs")
    text = program[0].read_text(encoding="utf-8")
    if re.search(r"\b(?:im|ex)port\b[^;]{0,400}?from\s*[\"']", text):
        raise BuildError("the service worker's program loads another", "share no module with the page in it")
    files = [described(file, site, late=late) for file in served_files(site) if file not in program]
    listed = json.dumps(files, separators=(",", ":"))
    version = hashlib.sha256((listed + text).encode()).hexdigest()[:16]
    head = f'self.tuckfoldSite = {{"version":"{version}","files":{listed}}};\n'
    (site / SERVICE_FILE).write_text(head + text, encoding="utf-8")


def served_files(site: Path) -> list[Path]:
    """The files that a page can ask for, but the service worker itself.

    Parameters
    ----------
    site : Path
        The site's folder.

    Returns
    -------
    list of Path
    """
    files = sorted(one for one in site.rglob("*") if one.is_file())
    return [one for one in files if not one.name.endswith(_NOT_SERVED) and one != site / SERVICE_FILE]


def described(file: Path, site: Path, *, late: Set[str]) -> dict[str, str | bool]:
    """What the service worker is told of a file.

    Parameters
    ----------
    file : Path
        The file.
    site : Path
        The site's folder.
    late : set of str
        As for `write_service`.

    Returns
    -------
    dict
        As web/src/service/site_files.ts declares it.
    """
    path = file.relative_to(site).as_posix()
    start = "both"
    if path.startswith("py/snapshot/"):
        start = "snapshot"
    elif file.name.startswith("python_stdlib-") or (
        path.endswith(".whl") and file.name.partition("-")[0] not in late
    ):
        start = "plain"
    digest = base64.b64encode(hashlib.sha256(file.read_bytes()).digest()).decode()
    hashed = path.startswith(HASHED_FOLDERS)
    return {"path": path, "integrity": f"sha256-{digest}", "start": start, "hashed": hashed}
