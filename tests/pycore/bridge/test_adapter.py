"""The adapter: plain data out, everything let go.

Natively it runs against stand-ins for `js` and `pyodide`; the browser tests have the real ones.
"""

from __future__ import annotations

import importlib
import json
import sys
from types import ModuleType, SimpleNamespace
from typing import Any

import numpy as np
import pytest

from pycore.contract.job import Job

pytestmark = pytest.mark.native


class Bytes:
    """What `to_js` makes of a flat array: bytes of its own."""

    def __init__(self, array: np.ndarray[Any, Any]) -> None:
        assert array.ndim == 1
        assert array.dtype == np.uint8
        self.buffer = array.tobytes()


def to_js(value: Any, *, dict_converter: Any = None) -> Any:
    """As Pyodide's, as far as it is used here."""
    if isinstance(value, np.ndarray):
        return Bytes(value)
    assert dict_converter is not None
    return dict_converter(value.items())


class JsError(Exception):
    """What JavaScript throws, as Python sees it."""


class Uint8Array:
    """As JavaScript's, as far as it is used here; like Pyodide it meets only the adapter's own desk."""

    def __init__(self, data: np.ndarray[Any, Any]) -> None:
        self.data, self.length, self.buffer = data, data.size, data

    @classmethod
    def new(cls, size: int) -> Uint8Array:
        return cls(np.zeros(size, np.uint8))

    def subarray(self, start: int, end: int) -> Uint8Array:
        return Uint8Array(self.data[start:end])

    def assign(self, array: np.ndarray[Any, Any]) -> None:
        assert np.shares_memory(array, sys.modules["pycore.bridge.adapter"]._desk)
        self.data[:] = array

    def assign_to(self, array: np.ndarray[Any, Any]) -> None:
        assert np.shares_memory(array, sys.modules["pycore.bridge.adapter"]._desk)
        array[:] = self.data

    def to_bytes(self) -> bytes:
        raise JsError("RangeError: offset is out of bounds")


@pytest.fixture
def adapter(monkeypatch: pytest.MonkeyPatch) -> Any:
    """The adapter as the worker imports it, with a fresh session."""
    js, pyodide, ffi = ModuleType("js"), ModuleType("pyodide"), ModuleType("pyodide.ffi")
    vars(js).update(Object=SimpleNamespace(fromEntries=dict), Uint8Array=Uint8Array)
    vars(ffi).update(to_js=to_js, JsBuffer=object, JsProxy=object, JsException=JsError)
    for name, module in {"js": js, "pyodide": pyodide, "pyodide.ffi": ffi}.items():
        monkeypatch.setitem(sys.modules, name, module)
    monkeypatch.delitem(sys.modules, "pycore.bridge.adapter", raising=False)
    imported = importlib.import_module("pycore.bridge.adapter")
    yield imported
    sys.modules.pop("pycore.bridge.adapter", None)


def steps(adapter: Any, method: str, params: Any, *buffer: Any) -> list[Any]:
    """All steps of a call; it is let go afterwards."""
    handle = adapter.begin(method, json.dumps(params), *buffer)
    taken: list[Any] = []
    while not taken or taken[-1]["kind"] == "progress":
        taken.append(adapter.step(handle))
    adapter.end(handle)
    return taken


def test_a_reply_is_json_without_nulls(adapter: Any) -> None:
    (only,) = steps(adapter, "hello", {})
    assert only["kind"] == "result"
    assert only["buffers"] == []
    assert json.loads(only["text"])["job"] == Job().model_dump(mode="json", exclude_none=True)
    assert "null" not in only["text"]


def test_an_error_keeps_its_code_field_and_remedy(adapter: Any) -> None:
    (only,) = steps(adapter, "check", {"text": '{"face": {"width_mm": 1}}'})
    assert only["kind"] == "error"
    error = json.loads(only["text"])
    assert (error["code"], error["field"]) == ("field", "face.width_mm")
    assert error["expected"] == "50 to 5000 mm"
    assert error["remedy"]


def test_buffers_come_out_flat_and_whole(adapter: Any) -> None:
    job = Job().model_dump(mode="json", exclude_none=True)
    last = steps(adapter, "show", {"job": job, "preview_px": 10_000})[-1]
    reply = json.loads(last["text"])
    for sent in (reply["fold"]["positions"], reply["fold"]["triangles"]):
        size = int(np.prod(sent["shape"])) * np.dtype(sent["dtype"]).itemsize
        assert len(last["buffers"][sent["place"]]) == size


def test_bytes_that_come_with_a_call_are_copied_in(adapter: Any) -> None:
    class JsBuffer:
        def to_bytes(self) -> bytes:
            return b"not a picture"

    last = steps(adapter, "open", {"file": "a.jpg"}, JsBuffer())[-1]
    assert json.loads(last["text"])["code"] == "picture"


@pytest.mark.parametrize("size", [0, 7, 2**20, 2**20 + 1, 3 * 2**20 + 5])
def test_what_lies_above_two_gigabytes_crosses_whole(
    adapter: Any, monkeypatch: pytest.MonkeyPatch, size: int
) -> None:
    """Pyodide reads other bytes there, and writes nowhere."""
    data = np.random.default_rng(8).integers(0, 256, size, np.uint8)
    monkeypatch.setattr(adapter, "_OUT_OF_REACH", 0)
    assert np.array_equal(adapter._copied_out(data.reshape(1, -1)), data)
    assert adapter._copied_in(Uint8Array(data)) == data.tobytes()


def test_text_is_ascii_and_means_the_same(adapter: Any) -> None:
    name = 'Größe “Low tide” 潮, 🖼, "quoted"'
    (only,) = steps(adapter, "check", {"text": json.dumps({"name": name}, ensure_ascii=False)})
    assert only["text"].isascii()
    assert json.loads(only["text"])["job"]["name"] == name


def test_an_ended_call_is_forgotten_and_its_generator_closed(adapter: Any) -> None:
    handle = adapter.begin("hello", "{}")
    call = adapter._calls[handle]
    adapter.end(handle)
    assert adapter._calls == {}
    assert call.gi_frame is None
    with pytest.raises(KeyError):
        adapter.step(handle)


def test_what_is_no_error_of_the_core_is_not_swallowed(adapter: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> Any:
        raise ValueError("a fault")
        yield

    monkeypatch.setattr(adapter._session, "call", broken)
    handle = adapter.begin("hello", "{}")
    with pytest.raises(ValueError, match="a fault"):
        adapter.step(handle)
