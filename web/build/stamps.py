"""Building only what changed: a stamp says from which bytes a step made which bytes."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from pathlib import Path


def digest(paths: Iterable[Path], *, base: Path, extra: str = "") -> str:
    """One hash over files: their names, below a base, and their bytes.

    Parameters
    ----------
    paths : iterable of Path
        Files, or folders that are walked; what does not exist counts as absent.
    base : Path
        Names are taken relative to it, so that a checkout may be moved.
    extra : str, optional
        Whatever else the result depends on, such as a version.

    Returns
    -------
    str
        SHA-256, hexadecimal.
    """
    total = hashlib.sha256(extra.encode())
    for path in sorted(one for given in paths for one in _files(given)):
        name = path.relative_to(base).as_posix()
        total.update(f"\n{name}\n{sha256_of(path)}".encode())
    return total.hexdigest()


def sha256_of(path: Path) -> str:
    """The SHA-256 of a file, hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


class Stamp:
    """Remembers one step's inputs and outputs.

    Parameters
    ----------
    folder : Path
        Where stamps are kept.
    name : str
        The step.
    """

    def __init__(self, folder: Path, name: str) -> None:
        self._path = folder / f"{name}.json"

    def is_fresh(self, *, inputs: str, outputs: str) -> bool:
        """Whether the step made these outputs from these inputs, so that it need not run again."""
        try:
            known = json.loads(self._path.read_text(encoding="utf-8"))
        except (FileNotFoundError, ValueError):
            return False
        return bool(known == {"inputs": inputs, "outputs": outputs})

    def write(self, *, inputs: str, outputs: str) -> None:
        """Remember that the step made these outputs from these inputs."""
        self._path.parent.mkdir(parents=True, exist_ok=True)
        text = json.dumps({"inputs": inputs, "outputs": outputs})
        self._path.write_text(text, encoding="utf-8")


def _files(path: Path) -> list[Path]:
    if path.is_dir():
        return [
            one
            for one in path.rglob("*")
            if one.is_file() and "__pycache__" not in one.relative_to(path).parts
        ]
    return [path] if path.is_file() else []
