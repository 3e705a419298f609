"""Settings that all tests share, and what stands for native libraries inside Pyodide."""

from __future__ import annotations

import ast
import sys
from pathlib import Path
from types import ModuleType
from typing import Any, Final

import pytest
from hypothesis import settings

# No deadline: the same tests run in Pyodide and on busy machines. No database: each run starts the same.
settings.register_profile("tuckfold", deadline=None, max_examples=50, database=None, derandomize=True)
settings.load_profile("tuckfold")

IN_PYODIDE: Final = sys.platform == "emscripten"

#: What the tests compare with natively, and Pyodide has not (ImageCms is LittleCMS).
NATIVE_PACKAGES: Final = ("PIL.ImageCms", "colour", "cv2", "playwright", "skimage", "sklearn", "trimesh")

#: Folders whose files take minutes, the longest first.
_LONG: Final = {"parity": 0, "browser": 1}


class Missing(ModuleType):
    """Stands for a native package: a test that uses it is skipped, the others of its file run."""

    def __getattr__(self, name: str) -> Any:
        if name in {"__path__", "__spec__"}:
            raise AttributeError(name)
        pytest.skip(f"Pyodide has no {self.__name__}", allow_module_level=True)


def pytest_configure() -> None:
    """Put the stand-ins in place, inside Pyodide only."""
    if IN_PYODIDE:
        sys.modules.update({name: Missing(name) for name in NATIVE_PACKAGES})


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The Pyodide run comes first, then browsers: of files shared out, the long ones must not be last."""
    items.sort(key=lambda item: _LONG.get(item.path.parent.name, len(_LONG)))


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    """Inside Pyodide, leave out the files that take parts of a native package as they are read."""
    if not IN_PYODIDE or collection_path.suffix != ".py":
        return None
    parts = _parts_taken(collection_path)
    if parts:
        print(f"left out for want of {', '.join(sorted(parts))}: {collection_path}")
    return True if parts else None


def _parts_taken(path: Path) -> set[str]:
    """Native modules whose names or submodules a file imports; `import cv2` alone does not count."""
    taken: set[str] = set()
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Import):
            taken |= {alias.name for alias in node.names if "." in alias.name}
        elif isinstance(node, ast.ImportFrom) and node.module:
            taken.add(node.module)
    return {name for name in taken if name.partition(".")[0] in NATIVE_PACKAGES}
