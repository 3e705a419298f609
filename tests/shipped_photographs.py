"""Photographs that packages ship, found without importing those packages, which takes seconds."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path


def shipped_photograph(name: str) -> Path:
    """One of the two photographs of scikit-learn, 640 x 427; its README.txt beside them names the licences.

    Parameters
    ----------
    name : str
        `china` or `flower`.

    Returns
    -------
    Path
        A JPEG file.

    Raises
    ------
    ModuleNotFoundError
        There is no scikit-learn.
    """
    found = find_spec("sklearn")
    if found is None or found.origin is None:
        raise ModuleNotFoundError("scikit-learn, whose photographs the tests use, is not installed")
    return Path(found.origin).parent / "datasets" / "images" / f"{name}.jpg"
