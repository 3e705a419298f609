"""Compiled wheels run like their sources, and are wheels."""

from __future__ import annotations

import base64
import hashlib
import importlib.util
import sys
import zipfile
from pathlib import Path
from types import ModuleType

import pytest

pytestmark = pytest.mark.native

TOOL = Path(__file__).resolve().parents[3] / "web" / "tools" / "bytecode.py"


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    spec = importlib.util.spec_from_file_location("bytecode", TOOL)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def compiled(tool: ModuleType, tmp_path: Path) -> Path:
    source = tmp_path / "thing-1.0-py3-none-any.whl"
    with zipfile.ZipFile(source, "w") as wheel:
        wheel.writestr("tuckfold_thing/__init__.py", "'''Doc.'''\nVALUE = 6 * 7\n")
        wheel.writestr("tuckfold_thing/__init__.pyi", "VALUE: int\n")
        wheel.writestr("tuckfold_thing/data.txt", "data")
        wheel.writestr("thing-1.0.dist-info/RECORD", "as it was")
    target = tmp_path / "compiled.whl"
    tool.compile_archive(str(source), str(target))
    return target


def test_modules_run_from_their_bytecode(compiled: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(compiled))
    module = importlib.import_module("tuckfold_thing")
    monkeypatch.delitem(sys.modules, "tuckfold_thing")
    assert (module.VALUE, module.__doc__) == (42, "Doc.")
    assert str(module.__file__).endswith("__init__.pyc")


def test_the_record_lists_what_is_there_with_its_hash(compiled: Path) -> None:
    with zipfile.ZipFile(compiled) as wheel:
        names = wheel.namelist()
        assert names == [
            "tuckfold_thing/__init__.pyc",
            "tuckfold_thing/data.txt",
            "thing-1.0.dist-info/RECORD",
        ]
        lines = wheel.read("thing-1.0.dist-info/RECORD").decode().splitlines()
        data = wheel.read("tuckfold_thing/data.txt")
    expected = base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
    assert lines[1] == f"tuckfold_thing/data.txt,sha256={expected},4"
    assert lines[-1] == "thing-1.0.dist-info/RECORD,,"


def test_the_same_source_gives_the_same_bytes(tool: ModuleType) -> None:
    assert tool.bytecode(b"x = (1, 2)\n", "a.py") == tool.bytecode(b"x = (1, 2)\n", "a.py")
