"""Settings that all tests share, and what stands for native libraries inside Pyodide."""

from __future__ import annotations

import ast
import gc
import re
import sys
from collections.abc import Generator, Sequence
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any, Final

import pytest
from _pytest.doctest import DoctestModule
from hypothesis import settings

IN_PYODIDE: Final = sys.platform == "emscripten"

# No deadline: the same tests run in Pyodide, which takes five times as long, and on busy machines. Without a
# database each run starts the same.
EXAMPLES: Final = 10 if IN_PYODIDE else 50
settings.register_profile("tuckfold", deadline=None, max_examples=EXAMPLES, database=None, derandomize=True)
settings.load_profile("tuckfold")

#: What the tests compare with natively, and Pyodide has not (ImageCms is LittleCMS).
NATIVE_PACKAGES: Final = (
    "PIL.ImageCms",
    "colour",
    "cv2",
    "distributed",
    "playwright",
    "pypdf",
    "skimage",
    "sklearn",
    "trimesh",
)

#: A line that may import one of them.
_IMPORTS_NATIVE: Final = re.compile(rf"^(import|from) .*\b({'|'.join(NATIVE_PACKAGES)})\b", re.MULTILINE)

#: Files that were not collected inside Pyodide, and what they import that it has not.
LEFT_OUT: dict[Path, list[str]] = {}
#: What an example in a docstring begins with.
_EXAMPLE: Final = b">>> "
#: A whole file's mark that keeps its tests out of Pyodide.
_NOT_HERE: Final = re.compile(r"^pytestmark = .*\b(native|once)\b", re.MULTILINE)
#: Files of tests that take some three seconds and more each; `--quick` leaves them out.
_SLOW: Final = frozenset(
    {
        "tests/pycore/batch/test_local_crew.py",
        "tests/pycore/batch/test_run.py",
        "tests/pycore/bridge/test_choices_call.py",
        "tests/pycore/bridge/test_colour_calls.py",
        "tests/pycore/bridge/test_compare_call.py",
        "tests/pycore/bridge/test_edges_call.py",
        "tests/pycore/cli/test_compare.py",
        "tests/pycore/cli/test_full_output.py",
        "tests/pycore/cli/test_print_pdf.py",
        "tests/pycore/cli/test_proofing.py",
        "tests/pycore/cli/test_ticket.py",
        "tests/pycore/cli/test_wall.py",
        "tests/pycore/client/test_page.py",
        "tests/pycore/colour/link/test_convert.py",
        "tests/pycore/colour/link/test_device_link.py",
        "tests/pycore/colour/mapping/test_bring_in.py",
        "tests/pycore/colour/mapping/test_node_moves.py",
        "tests/pycore/edges/test_by_eye.py",
        "tests/pycore/fold/test_creases.py",
        "tests/pycore/fold/test_layers.py",
        "tests/pycore/fold/test_motion.py",
        "tests/pycore/model/test_texture.py",
        "tests/pycore/model/test_validator.py",
        "tests/pycore/picture/test_guard.py",
        "tests/pycore/printing/pdf/test_page.py",
        "tests/pycore/proofing/test_print_colours.py",
        "tests/pycore/proofing/test_profile_store.py",
        "tests/pycore/proofing/test_proofed.py",
        "tests/pycore/render/test_canvas_strips.py",
        "tests/pycore/render/test_continued_plans.py",
        "tests/pycore/render/test_corner_canvas.py",
        "tests/pycore/render/test_corner_view.py",
        "tests/pycore/render/test_preview.py",
        "tests/pycore/render/test_resample.py",
        "tests/pycore/strip/test_strip.py",
        "tests/pycore/tasks/test_choices.py",
        "tests/pycore/tasks/test_metadata.py",
        "tests/pycore/tasks/test_outside_share.py",
        "tests/pycore/ticket/test_make.py",
        "tests/pycore/wall/test_find_paper.py",
        "tests/pycore/wall/test_fit.py",
        "tests/test_bench.py",
        "tests/test_documented_commands.py",
        "tests/test_fuzz.py",
    }
)
#: Folders and files that are not run once more inside Pyodide, for one of two reasons: what they find is what
#: tests/parity compares there, or the calls that they make are made there by tests/browser/test_start.py.
_ONCE: Final = (
    "tests/pycore/edges/",
    "tests/pycore/fold/",
    "tests/pycore/bridge/test_choices_call.py",
    "tests/pycore/bridge/test_client_call.py",
    "tests/pycore/bridge/test_colour_calls.py",
    "tests/pycore/bridge/test_compare_call.py",
    "tests/pycore/bridge/test_detail_call.py",
    "tests/pycore/bridge/test_edges_call.py",
    "tests/pycore/bridge/test_group_calls.py",
    "tests/pycore/bridge/test_model_call.py",
    "tests/pycore/bridge/test_session.py",
    "tests/pycore/bridge/test_ticket_call.py",
    "tests/pycore/client/test_page.py",
    "tests/pycore/client/test_still.py",
    "tests/pycore/colour/link/test_convert.py",
    "tests/pycore/colour/link/test_device_link.py",
    "tests/pycore/fill/test_continued_strip.py",
    "tests/pycore/model/test_scene.py",
    "tests/pycore/model/test_texture.py",
    "tests/pycore/plan/test_make.py",
    "tests/pycore/printing/test_marks.py",
    "tests/pycore/proofing/test_profile_store.py",
    "tests/pycore/render/test_canvas_strips.py",
    "tests/pycore/render/test_continued_plans.py",
    "tests/pycore/render/test_corner_canvas.py",
    "tests/pycore/render/test_corner_view.py",
    "tests/pycore/strip/test_strip.py",
    "tests/pycore/tasks/test_choices.py",
)
#: Folders and files that take long, the longest first: what begins last must be short.
_LONG: Final = (
    "tests/parity",
    "tests/browser/test_keeping.py",
    "tests/browser/test_colour_profile.py",
    "tests/browser/test_access.py",
    "tests/browser/test_axe_states.py",
    "tests/browser/test_client_page.py",
    "tests/browser/test_main_job.py",
    "tests/browser/test_other_browsers.py",
    "tests/browser/test_start.py",
    "tests/browser",
    "tests/test_documented_commands.py",
    "tests/pycore/contract/test_dependencies.py",
    "tests/pycore/colour/link/test_public_profiles.py",
    "tests/pycore/tasks/test_two_doors.py",
    "tests/demo_data",
)


class Missing(ModuleType):
    """Stands for a native package, so that the tests of a file that do without it run."""

    def __getattr__(self, name: str) -> Any:
        # Python itself asks for these, to find a module's file as it prints a failure.
        if name.startswith("__"):
            raise AttributeError(name)
        raise ModuleNotFoundError(f"Pyodide has no {self.__name__}: mark the test native")


def pytest_configure() -> None:
    """Put the stand-ins in place, inside Pyodide only."""
    if IN_PYODIDE:
        sys.modules.update({name: Missing(name) for name in NATIVE_PACKAGES})


def pytest_itemcollected(item: pytest.Item) -> None:
    """Mark files by their names; inside Pyodide, no test has more examples than all others."""
    if IN_PYODIDE:
        function = getattr(item, "obj", None)
        own = getattr(function, "_hypothesis_internal_use_settings", None)
        if own is not None and own.max_examples > EXAMPLES:
            vars(function)["_hypothesis_internal_use_settings"] = settings(own, max_examples=EXAMPLES)
    name = _name(item.path, item.config.rootpath)
    if name in _SLOW:
        item.add_marker(pytest.mark.slow)
    if name.startswith(_ONCE):
        item.add_marker(pytest.mark.once)


@cache
def _name(file: Path, root: Path) -> str:
    """A file's name in the repository; to work it out for each of thousands of tests takes long."""
    return file.relative_to(root).as_posix()


def in_order(items: list[pytest.Item], *, root: Path) -> None:
    """Put what takes long first and move nothing else: of files shared out, a long one must not be last."""

    def rank(item: pytest.Item) -> int:
        name = _name(item.path, root)
        return next((rank for rank, long in enumerate(_LONG) if name.startswith(long)), len(_LONG))

    items.sort(key=rank)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Share the tests out by tests/sharing_out.py."""
    from xdist.scheduler import LoadScopeScheduling

    from tests.sharing_out import share_out

    scheduler = LoadScopeScheduling(config, log)
    share_out(scheduler)
    return scheduler


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """What is collected stays to the end: no search for garbage goes through it, then or later."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.enable()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Long files first; inside Pyodide, and with `--one-case`, one case of a test is kept."""
    in_order(items, root=config.rootpath)
    if IN_PYODIDE or config.getoption("--one-case"):
        kept = one_case([item.nodeid for item in items])
        config.hook.pytest_deselected(items=[item for item in items if item.nodeid not in kept])
        items[:] = [item for item in items if item.nodeid in kept]


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let the native run say what Pyodide's should collect."""
    parser.addoption("--one-case", action="store_true", help="of each test the case that runs in Pyodide")


def one_case(node_ids: Sequence[str]) -> set[str]:
    """Of each test its last case: what differs in Pyodide is the interpreter and its libraries.

    Every test meets those; all cases run natively.
    """
    return set({one.partition("[")[0]: one for one in node_ids}.values())


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Inside Pyodide, leave out the files that take parts of a native package as they are read."""
    if collection_path.suffix != ".py" or not (IN_PYODIDE or config.getoption("--one-case")):
        return None
    # A file of which nothing is run inside Pyodide need not be read, nor where it is listed what should be.
    name = _name(collection_path, Path(__file__).parents[1])
    if name.startswith(_ONCE):
        return True
    if not IN_PYODIDE:
        return None
    # Nothing of the command line runs in a browser.
    text = collection_path.read_text(encoding="utf-8")
    if name.startswith("tests/pycore/cli/") or _NOT_HERE.search(text):
        return True
    # To read a program as Python does takes long there; most name none of the packages.
    parts = _parts_taken(text) if _IMPORTS_NATIVE.search(text) else set()
    if not parts:
        return None
    LEFT_OUT[collection_path] = sorted(parts)
    return True


@pytest.hookimpl(wrapper=True)
def pytest_collect_file(file_path: Path) -> Generator[None, list[pytest.Collector], list[pytest.Collector]]:
    """Look for examples only in files that have any; pytest would read, import and search every other one."""
    found = yield
    if not found or _EXAMPLE in file_path.read_bytes():
        return found
    return [one for one in found if not isinstance(one, DoctestModule)]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say which files were left out, and for want of what."""
    for path, parts in LEFT_OUT.items():
        name = path.relative_to(terminalreporter.config.rootpath).as_posix()
        terminalreporter.write_line(f"left out for want of {', '.join(parts)}: {name}")


def _parts_taken(text: str) -> set[str]:
    """Native modules whose names or submodules a program imports; `import cv2` alone does not count."""
    taken: set[str] = set()
    for node in ast.parse(text).body:
        if isinstance(node, ast.Import):
            taken |= {alias.name for alias in node.names if "." in alias.name}
        elif isinstance(node, ast.ImportFrom) and node.module:
            taken.add(node.module)
    return {name for name in taken if name.partition(".")[0] in NATIVE_PACKAGES}
