"""A short command loads only what it needs."""

from __future__ import annotations

import subprocess
import sys

import pytest

pytestmark = pytest.mark.native

#: What `tuckfold layout` without a picture can do without.
NOT_NEEDED = ("numpy", "PIL", "asyncio", "ssl", "pycore.colour", "pycore.render", "pycore.printing")


def modules_after(code: str) -> set[str]:
    """Names of all modules that a fresh interpreter holds as the code leaves it."""
    code = f"import atexit, sys; atexit.register(lambda: print('MODULES', *sys.modules)); {code}"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(ran.stdout.rpartition("MODULES ")[2].split())


def test_a_layout_without_a_picture_loads_only_what_it_needs() -> None:
    held = modules_after("sys.argv[1:] = ['layout']; from pycore.cli.start import run; run()")

    # derived: the command was run.
    assert "pycore.tasks.layout" in held
    assert held.isdisjoint(NOT_NEEDED)


def test_help_loads_no_task() -> None:
    held = modules_after("from pycore.cli.main import COMMANDS, main; print(COMMANDS)")

    # derived: the list of commands is a table.
    assert "pycore.cli.main" in held
    assert not any(name.startswith(("pycore.tasks", "pydantic")) for name in held)


def test_the_decorator_for_old_functions_works_afterwards() -> None:
    code = (
        "from pycore.cli.quick_start import import_pydantic; import_pydantic(); import warnings; "
        "from typing_extensions import deprecated; warnings.simplefilter('error'); "
        "old = deprecated('old')(lambda: 1)\ntry: old()\nexcept DeprecationWarning: print('warned')\nx = 1"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    # derived: outside the import the decorator does its work.
    assert ran.stdout.split() == ["warned"]
