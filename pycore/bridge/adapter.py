"""The core's calls as the browser's worker makes them; the only file that knows it runs in Pyodide.

A call is begun, stepped to its end, and released. Between two steps the worker hears whether the page
has stopped it. Only plain data crosses: JSON text, and flat buffers that were copied out of Python's memory
once, so that the worker can transfer them to the page.

Pyodide takes addresses for signed numbers of 32 bits. Above 2 GB it writes nowhere and reads other bytes than
it was asked for, without an error. What lies there crosses by way of `_desk`, piece by piece.
"""

from __future__ import annotations

import dataclasses
import itertools
import json
import re
from collections.abc import Generator, Iterator, Sequence
from typing import Any, Final

import numpy as np
import numpy.typing as npt
from js import Object, Uint8Array
from pyodide.ffi import JsBuffer, JsException, JsProxy, to_js

from pycore.bridge.answer import Answer
from pycore.bridge.messages import ErrorReply
from pycore.bridge.session import Session
from pycore.errors import TuckfoldError
from pycore.progress import Progress
from pycore.speech import speak_in

_session = Session()
_calls: dict[int, Generator[Progress, None, Answer]] = {}
_handles = itertools.count(1)

#: The first address that Pyodide takes for a negative one.
_OUT_OF_REACH: Final = 2**31
#: Made at the start, when all memory lies below that.
_desk: Final = np.zeros(2**20, np.uint8)

_NOT_ASCII: Final = re.compile(r"[^\x00-\x7f]")


def begin(method: str, params_json: str, buffer: JsBuffer | None = None) -> int:
    """Take up a call; nothing is computed yet.

    Parameters
    ----------
    method : str
        One of the contract's methods.
    params_json : str
        Its parameters as JSON.
    buffer : Uint8Array, optional
        The bytes that go with the call; copied.

    Returns
    -------
    int
        The call's handle for `step` and `end`.
    """
    params: dict[str, Any] = json.loads(params_json)
    handle = next(_handles)
    _calls[handle] = _session.call(method, params, None if buffer is None else _copied_in(buffer))
    return handle


def step(handle: int) -> JsProxy:
    """Compute up to the next progress message, or to the end.

    Parameters
    ----------
    handle : int
        From `begin`.

    Returns
    -------
    Object
        `{kind, text, buffers}`: the kind is `progress`, `result` or `error`; the text is that message of the
        contract as JSON, absent values left out; the buffers are ArrayBuffers, none but with a result.

    Raises
    ------
    KeyError
        The call was ended before.
    """
    try:
        progress = next(_calls[handle])
    except StopIteration as end:
        answer: Answer = end.value
        return _plain("result", answer.reply.model_dump_json(exclude_none=True), answer.buffers)
    except TuckfoldError as wrong:
        return _plain("error", error_reply(wrong).model_dump_json(exclude_none=True))
    return _plain("progress", json.dumps(dataclasses.asdict(progress)))


def end(handle: int) -> None:
    """End a call, finished or not, and release all that it uses.

    Parameters
    ----------
    handle : int
        From `begin`.

    Raises
    ------
    KeyError
        The call was ended before.
    """
    _calls.pop(handle).close()


def error_reply(wrong: TuckfoldError) -> ErrorReply:
    """Turn an error into its message.

    Parameters
    ----------
    wrong : TuckfoldError

    Returns
    -------
    ErrorReply
        Its code, field, expected, got and remedy, the sentence of all of them, and their values.
    """
    return ErrorReply.of(wrong)


def speak(language: str) -> None:
    """Say everything from here on in another language.

    Parameters
    ----------
    language : str
        One of `pycore.speech.LANGUAGES`.
    """
    speak_in(language)


def _plain(kind: str, text: str, buffers: Sequence[npt.NDArray[Any]] = ()) -> JsProxy:
    fields = {"kind": kind, "text": _in_ascii(text), "buffers": [_copied_out(one) for one in buffers]}
    plain: JsProxy = to_js(fields, dict_converter=Object.fromEntries)
    return plain


def _copied_out(array: npt.NDArray[Any]) -> JsProxy:
    """An array's bytes as an ArrayBuffer of its own; a view of Python's memory could not be transferred."""
    flat = np.ascontiguousarray(array).reshape(-1).view(np.uint8)
    address: int = flat.__array_interface__["data"][0]
    if address + flat.size <= _OUT_OF_REACH:
        buffer: JsProxy = to_js(flat).buffer
        return buffer
    whole: JsProxy = Uint8Array.new(flat.size)
    for start in range(0, flat.size, _desk.size):
        piece = flat[start : start + _desk.size]
        _desk[: piece.size] = piece
        whole.subarray(start, start + piece.size).assign(_desk[: piece.size])
    copy: JsProxy = whole.buffer
    return copy


def _copied_in(buffer: JsBuffer) -> bytes:
    """The bytes of a Uint8Array."""
    try:
        data: bytes = buffer.to_bytes()
    except JsException:
        # Python found room for them out of reach.
        return b"".join(_pieces(buffer))
    return data


def _pieces(buffer: JsBuffer) -> Iterator[bytes]:
    size: int = buffer.length
    for start in range(0, size, _desk.size):
        end = min(start + _desk.size, size)
        buffer.subarray(start, end).assign_to(_desk[: end - start])
        yield _desk[: end - start].tobytes()


def _in_ascii(text: str) -> str:
    """JSON with its other letters as escapes: text of one byte a letter is read right at any address."""
    return _NOT_ASCII.sub(lambda letter: json.dumps(letter[0])[1:-1], text)
