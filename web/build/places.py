"""Where things lie: the repository's folders, and the user's cache folder for downloads."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Places:
    """The folders of one checkout of the repository."""

    root: Path
    cache: Path

    @property
    def web(self) -> Path:
        """The page's sources, its tools and its build."""
        return self.root / "web"

    @property
    def demo(self) -> Path:
        """The demo's job and picture."""
        return self.root / "demo_data"

    @property
    def node_modules(self) -> Path:
        """The installed npm packages."""
        return self.web / "node_modules"

    @property
    def python(self) -> Path:
        """The Python runtime with the names that Pyodide gives its files."""
        return self.web / "public" / "py"

    @property
    def dist(self) -> Path:
        """The finished site."""
        return self.web / "dist"

    @property
    def viewer(self) -> Path:
        """The program of the client's page, which lies in the core for those who have no page."""
        return self.root / "pycore" / "client" / "data" / "viewer.js"

    @property
    def stamps(self) -> Path:
        """What was built from what; gone with the packages that built it."""
        return self.node_modules / ".tuckfold"

    @property
    def wheels(self) -> Path:
        """Downloaded wheels, shared by all checkouts."""
        return self.cache / "wheels"


def places(root: Path, environ: Mapping[str, str] = os.environ) -> Places:
    """The places of a checkout.

    Parameters
    ----------
    root : Path
        The repository's root.
    environ : mapping, optional
        The environment that names the user's folders.

    Returns
    -------
    Places

    Examples
    --------
    >>> places(Path("/src"), {"XDG_CACHE_HOME": "/var/cache"}).wheels.as_posix()
    '/var/cache/tuckfold/wheels'
    """
    return Places(root=root, cache=_user_cache(environ) / "tuckfold")


def _user_cache(environ: Mapping[str, str]) -> Path:
    named = environ.get("XDG_CACHE_HOME") or (environ.get("LOCALAPPDATA") if os.name == "nt" else None)
    if named:
        return Path(named)
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path.home() / ".cache"
