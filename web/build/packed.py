"""Packed copies of the site's files, for hosts that send files as they are; kept in the cache folder."""

from __future__ import annotations

import os
import shutil
import tempfile
from pathlib import Path
from typing import Final

from build.commands import run
from build.places import Places
from build.service import SERVICE_FILE, served_files
from build.stamps import Stamp, digest, sha256_of

#: The endings of packed copies: Brotli (RFC 7932) and gzip (RFC 1952).
PACKED: Final = (".br", ".gz")

#: Pictures and wheels are packed already.
_WORTH_IT: Final = (".bin", ".css", ".html", ".js", ".json", ".svg", ".wasm", ".webmanifest", ".zip")


def pack_site(at: Places, *, node: str) -> bool:
    """Lay a packed copy of each kind beside each file that is worth it.

    Parameters
    ----------
    at : Places
        The checkout; the site is complete otherwise.
    node : str
        The program.

    Returns
    -------
    bool
        Whether anything had changed.

    Raises
    ------
    BuildError
        Packing failed.
    """
    tool = at.web / "tools" / "pack.mjs"
    files = [one for one in [*served_files(at.dist), at.dist / SERVICE_FILE] if one.suffix in _WORTH_IT]
    stamp = Stamp(at.stamps, "packed")
    inputs = digest([tool, *files], base=at.web)
    if stamp.is_fresh(inputs=inputs, outputs=digest(packed_copies(at.dist), base=at.dist)):
        return False
    for copy in packed_copies(at.dist):
        copy.unlink()
    kept = at.cache / "packed" / sha256_of(tool)[:16]
    hashes = {file: sha256_of(file) for file in files}
    missing = {hashes[file]: file for file in files if not (kept / f"{hashes[file]}{PACKED[-1]}").is_file()}
    if missing:
        kept.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=kept, prefix="pack-") as temporary:
            # Under the names of their hashes: two folders may hold files of one name.
            given, made = Path(temporary) / "given", Path(temporary) / "made"
            given.mkdir()
            made.mkdir()
            for known, file in missing.items():
                shutil.copyfile(file, given / known)
            largest = sorted(given.iterdir(), key=lambda one: one.stat().st_size, reverse=True)
            run([node, tool, made, *largest], cwd=at.web, what="packing the site's files")
            for packed in sorted(made.iterdir()):
                os.replace(packed, kept / packed.name)
    for file, known in hashes.items():
        for ending in PACKED:
            shutil.copyfile(kept / f"{known}{ending}", file.with_name(file.name + ending))
    stamp.write(inputs=inputs, outputs=digest(packed_copies(at.dist), base=at.dist))
    return True


def packed_copies(site: Path) -> list[Path]:
    """The packed copies that lie in a site.

    Parameters
    ----------
    site : Path
        The site's folder; it may be absent.

    Returns
    -------
    list of Path
    """
    return sorted(one for one in site.rglob("*") if one.suffix in PACKED)
