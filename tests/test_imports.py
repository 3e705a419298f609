"""The core stands by itself: what it may import, and where the browser may be known of."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]
CORE = sorted((ROOT / "pycore").rglob("*.py"))

#: What runs in both interpreters; see pyproject.toml.
ALLOWED = {
    "numpy",
    "PIL",
    "pydantic",
    "pydantic_core",
    "rectpack",
    "tifffile",
    "pycore",
    *sys.stdlib_module_names,
}
BROWSER = {"js", "pyodide", "pyodide_js"}

#: What single files may import besides: the adapter knows the browser, pydantic brings typing_extensions, the
#: ticket alone loads fpdf2, which the page fetches when a ticket is first asked for, and a cluster and the
#: makers of the illustrative profile and of the PDFs' letters are used natively only (extras `cluster`,
#: `profile-maker` and `letter-maker`).
BESIDES = {
    ROOT / "pycore" / "cli" / "quick_start.py": {"typing_extensions"},
    ROOT / "pycore" / "bridge" / "adapter.py": BROWSER,
    ROOT / "pycore" / "batch" / "cluster_crew.py": {"distributed"},
    ROOT / "pycore" / "colour" / "illustrative" / "make_profile.py": {"colour"},
    ROOT / "pycore" / "colour" / "illustrative" / "matte_inversion.py": {"scipy"},
    ROOT / "pycore" / "printing" / "pdf" / "make_letters.py": {"fontTools"},
    ROOT / "pycore" / "ticket" / "paper.py": {"fpdf"},
}


def imported(path: Path) -> set[str]:
    """Every package that a module imports anywhere in it."""
    packages: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            packages |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            packages.add((node.module or ".").partition(".")[0] if node.level == 0 else ".")
    return packages


def test_the_core_is_found() -> None:
    # derived: pycore/ holds more than these two files.
    assert {ROOT / "pycore" / "errors.py", ROOT / "pycore" / "bridge" / "adapter.py"} < set(CORE)


@pytest.mark.parametrize("path", CORE, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_module_imports_only_what_both_interpreters_have(path: Path) -> None:
    assert imported(path) - ALLOWED - BESIDES.get(path, set()) == set()
