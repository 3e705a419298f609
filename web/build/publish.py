"""Putting the site together: the page, the Python runtime under hashed names, and what tells of them."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any, Final

from build.host_files import APACHE_FILE, HEADERS_FILE, write_host_files
from build.packed import PACKED, packed_copies
from build.pins import read_pins
from build.places import Places
from build.runtime import LOCK_FILE, PROGRAM_FILES
from build.service import SERVICE_FILE, write_service
from build.snapshot import LIBRARY_FILE, MANIFEST_FILE, place
from build.stamps import Stamp, digest

#: Beside the page: what the worker asks for first.
INDEX_FILE: Final = "runtime.json"
#: The runtime's folder in the site.
RUNTIME_FOLDER: Final = "py"

#: The worker brings its own.
_UNUSED: Final = "pyodide.mjs"
#: The worker gets these through the index.
_LISTED: Final = (LOCK_FILE, MANIFEST_FILE)


def publish(at: Places) -> bool:
    """Add to the built page all that a host serves beside it.

    Parameters
    ----------
    at : Places
        The checkout; the page and the runtime are built.

    Returns
    -------
    bool
        Whether anything had changed.
    """
    stamp = Stamp(at.stamps, "site")
    inputs = digest([at.python, *page_files(at.dist), at.web / "build"], base=at.web)
    if stamp.is_fresh(inputs=inputs, outputs=digest(added_files(at.dist), base=at.dist)):
        return False
    for file in [*added_files(at.dist), *packed_copies(at.dist)]:
        file.unlink()
    publish_runtime(at.python, at.dist)
    write_service(at.dist, late=late_packages(at))
    write_host_files(at.dist)
    stamp.write(inputs=inputs, outputs=digest(added_files(at.dist), base=at.dist))
    return True


def publish_runtime(runtime: Path, site: Path) -> None:
    """Place the files of the runtime under names that hold their hashes, and write down which is which.

    Parameters
    ----------
    runtime : Path
        The folder of the runtime; its wheels and the parts of its snapshot are named by their hashes already.
    site : Path
        The site's folder.
    """
    target = site / RUNTIME_FOLDER
    target.mkdir(exist_ok=True)
    files: dict[str, dict[str, str]] = {}
    for source in sorted(one for one in runtime.rglob("*") if one.is_file()):
        name = source.relative_to(runtime).as_posix()
        if name in (*PROGRAM_FILES, LIBRARY_FILE):
            if name != _UNUSED:
                placed = place(source, target, source.suffix)
                files[name] = {**placed, "file": placed["file"].removeprefix(f"{RUNTIME_FOLDER}/")}
        elif name not in _LISTED:
            copy = target / name
            copy.parent.mkdir(exist_ok=True)
            shutil.copyfile(source, copy)
    index: dict[str, Any] = {
        "files": files,
        "lock": json.loads((runtime / LOCK_FILE).read_text(encoding="utf-8")),
        "snapshot": json.loads((runtime / MANIFEST_FILE).read_text(encoding="utf-8")),
    }
    text = json.dumps(index, separators=(",", ":")) + "\n"
    (site / INDEX_FILE).write_text(text, encoding="utf-8")


def late_packages(at: Places) -> set[str]:
    """The packages that the page fetches when they are first needed.

    Parameters
    ----------
    at : Places
        The checkout.

    Returns
    -------
    set of str
        The names of their wheels up to the first hyphen.
    """
    pins = read_pins(at.web / "pins.json")
    return {pin.file.partition("-")[0] for pin in pins.when_needed}


def page_files(site: Path) -> list[Path]:
    """The files of a site that Vite has built.

    Parameters
    ----------
    site : Path
        The site's folder; it may be absent.

    Returns
    -------
    list of Path
    """
    return sorted(
        {one for one in site.rglob("*") if one.is_file()} - {*added_files(site), *packed_copies(site)}
    )


def added_files(site: Path) -> list[Path]:
    """The files of a site that are added to what Vite has built, but for packed copies.

    Parameters
    ----------
    site : Path
        The site's folder; it may be absent.

    Returns
    -------
    list of Path
    """
    named = [site / name for name in (INDEX_FILE, SERVICE_FILE, HEADERS_FILE, APACHE_FILE)]
    found = [*(site / RUNTIME_FOLDER).rglob("*"), *named]
    return sorted(one for one in found if one.is_file() and one.suffix not in PACKED)
