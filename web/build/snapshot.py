"""The folder `py/snapshot/` of the site: Python's memory after its start, with its libraries and files.

A page that takes these need not start Python: web/src/worker/snapshot/ says how. The demo as the core shows
it lies there too; the page draws it while the core still starts. All names hold a hash of their bytes;
`py/snapshot.json` names them.
"""

from __future__ import annotations

import base64
import hashlib
import json
import os
import struct
import tempfile
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final

from build.commands import run
from build.failure import BuildError
from build.places import Places
from build.slim import blanked, stored_library, without_unused

#: What the page is told, and the folder that it leads to.
MANIFEST_FILE: Final = "snapshot.json"
FOLDER: Final = "snapshot"
#: Python's own library among the files of the runtime.
LIBRARY_FILE: Final = "python_stdlib.zip"

#: Where Pyodide 0.28.3 keeps packages and its own library.
SITE_PACKAGES: Final = "/lib/python3.13/site-packages"
STANDARD_LIBRARY: Final = "/lib/python313.zip"

#: The libraries that a first picture needs, in the order in which they are linked. Another order would change
#: where their functions lie.
LIBRARIES: Final = (
    "numpy/_core/_multiarray_umath",
    "numpy/linalg/_umath_linalg",
    "PIL/_imaging",
    "PIL/_imagingft",
    "PIL/_imagingmath",
    "pydantic_core/_pydantic_core",
)
LIBRARY_ENDING: Final = ".so"

#: For Node.js: Python is compiled quickly, and not a second time for the few seconds that it works here.
COMPILED_ONCE: Final = "--wasm-tiering-budget=100000000"


def make_snapshot(at: Places, *, wheels: Iterable[Path], node: str) -> None:
    """Make the snapshot of a runtime that is complete otherwise.

    Parameters
    ----------
    at : Places
        The checkout; `at.python` holds Pyodide's program, Python's own library and the lock file.
    wheels : iterable of Path
        The wheels as the site serves them.
    node : str
        The program.

    Raises
    ------
    BuildError
        A library is missing, or making the memory failed.
    """
    contents = without_unused(unpacked(wheels))
    libraries = library_paths(contents)
    with tempfile.TemporaryDirectory(prefix="tuckfold-snapshot-") as temporary:
        work = Path(temporary)
        named = [
            {"path": f"{SITE_PACKAGES}/{path}", "file": Path(path).name.partition(".")[0]}
            for path in libraries
        ]
        for path, entry in zip(libraries, named, strict=True):
            (work / entry["file"]).write_bytes(contents[path])
        # A linked library is found by its path; its bytes are not read again.
        slim = {path: b"" if path in libraries else data for path, data in contents.items()}
        (work / "pack.bin").write_bytes(packed(slim))
        (work / "libraries.json").write_text(json.dumps(named), encoding="utf-8")
        library = stored_library((at.python / LIBRARY_FILE).read_bytes())
        (work / "library.zip").write_bytes(library)
        # The time zone of this machine must not get into the memory.
        env = {**os.environ, "TZ": "UTC"}
        tool = at.web / "tools" / "snapshot.mjs"
        command: list[str | Path] = [node, COMPILED_ONCE, tool, at.python, work, at.demo]
        run(command, cwd=at.web, what="making the memory snapshot", env=env)
        folder = at.python / FOLDER
        folder.mkdir()
        manifest: dict[str, Any] = json.loads((work / "memory.json").read_text(encoding="utf-8"))
        # What the memory holds is not read again.
        loaded = set(manifest.pop("loaded"))
        slim = {path: data for path, data in slim.items() if f"{SITE_PACKAGES}/{path}" not in loaded}
        (work / "pack.bin").write_bytes(packed(slim))
        within = {path.removeprefix(f"{STANDARD_LIBRARY}/") for path in loaded}
        (work / "library.zip").write_bytes(blanked(library, within))
        manifest["library"] = place(work / "library.zip", folder, ".bin")
        manifest["memory"] = place(work / "memory.bin", folder, ".bin")
        manifest["pack"] = place(work / "pack.bin", folder, ".bin")
        manifest["demo_view"] = place(work / "demo_view.bin", folder, ".bin")
        manifest["libraries"] = [
            {"path": entry["path"], **place(work / entry["file"], folder, ".wasm")} for entry in named
        ]
    (at.python / MANIFEST_FILE).write_text(json.dumps(manifest) + "\n", encoding="utf-8")


def unpacked(wheels: Iterable[Path]) -> dict[str, bytes]:
    """The files of wheels.

    Parameters
    ----------
    wheels : iterable of Path
        Wheels without a folder of data that would go elsewhere.

    Returns
    -------
    dict
        Content by path below the packages' folder, in the order of the paths.
    """
    found: dict[str, bytes] = {}
    for wheel in wheels:
        with zipfile.ZipFile(wheel) as archive:
            found |= {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}
    return dict(sorted(found.items()))


def library_paths(contents: Mapping[str, bytes]) -> list[str]:
    """The paths of the libraries that are linked beforehand, in their order.

    Parameters
    ----------
    contents : mapping
        All files by path.

    Returns
    -------
    list of str

    Raises
    ------
    BuildError
        One is missing.
    """
    paths = []
    for start in LIBRARIES:
        fitting = [
            path for path in contents if path.startswith(f"{start}.") and path.endswith(LIBRARY_ENDING)
        ]
        if len(fitting) != 1:
            raise BuildError(
                f"the wheels hold {len(fitting)} libraries {start}",
                "name the right ones in web/build/snapshot.py",
            )
        paths += fitting
    return paths


def packed(contents: Mapping[str, bytes]) -> bytes:
    """One file that holds many.

    Parameters
    ----------
    contents : mapping
        Content by path below the packages' folder.

    Returns
    -------
    bytes
        A length in 32 bits, little-endian, a list of `[path, offset, length]` as JSON, and the contents one
        after another.

    Examples
    --------
    >>> packed({"a.txt": b"xy"})[4:]
    b'[["/lib/python3.13/site-packages/a.txt",0,2]]xy'
    """
    entries, offset = [], 0
    for path, data in contents.items():
        entries.append([f"{SITE_PACKAGES}/{path}", offset, len(data)])
        offset += len(data)
    listed = json.dumps(entries, separators=(",", ":")).encode()
    return b"".join([struct.pack("<I", len(listed)), listed, *contents.values()])


def place(file: Path, folder: Path, ending: str) -> dict[str, str]:
    """Move a file into the site under a name that holds its hash.

    Parameters
    ----------
    file : Path
        The file; its name without an ending begins the new name.
    folder : Path
        Where it goes.
    ending : str
        The new name's.

    Returns
    -------
    dict
        `file`, its path below the runtime's folder, and `integrity`, its hash as browsers check it.
    """
    data = file.read_bytes()
    digest = hashlib.sha256(data)
    name = f"{file.stem}-{digest.hexdigest()[:16]}{ending}"
    (folder / name).write_bytes(data)
    integrity = base64.b64encode(digest.digest()).decode()
    return {"file": f"{folder.name}/{name}", "integrity": f"sha256-{integrity}"}
