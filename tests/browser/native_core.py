"""The core in a native Python, behind the page in place of Pyodide, for tests of what the page does.

The page, its worker's envelopes and the core are the real ones; what Python runs in is not. A page starts in
a quarter of the processor time, and what it asks is answered five times as quickly. Tests of what Pyodide
does ask for the fixture `pyodide_site`, or set `IN_PYODIDE` in their module.

Each worker of a page gets a process of its own, forked from one that has the core loaded, and ends it by
ending: its connection closes then.
"""

from __future__ import annotations

import json
import multiprocessing
import select
import struct
import sys
import threading
import traceback
from collections.abc import Callable, Sequence
from functools import partial
from http import HTTPStatus
from importlib import import_module
from multiprocessing.connection import Connection
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any, Final
from urllib.parse import parse_qs, urlsplit

from pycore.bridge.messages import ErrorReply
from pycore.serving.handler import SiteHandler
from pycore.serving.server import HOST, SiteServer, handler_for

_WORKER: Final = Path(__file__).with_name("native_worker.js")
#: What a start loads, so that a forked process has it.
_PRELOADED: Final = (
    "pycore.bridge.session",
    "pycore.tasks.show",
    "pycore.tasks.edges",
    "pycore.tasks.choices",
    "pycore.tasks.wall_view",
    "tests.browser.warm_core",
)
#: Of a canvas on the wall, where the page names no number: a sixth of what it gets of Pyodide. Without a
#: graphics card, most of what an edit costs is to bring it there.
PREVIEW_PX: Final = 300_000
#: Of the canvas that the page hangs on a photographed wall, for the same reason.
WALL_CANVAS_PX: Final = 300_000
#: Names the folder through which the cores of a run know what one of them has worked out (`warm_core.py`).
RESULTS: Final = "TUCKFOLD_CORE_RESULTS"
_FORKS: Final = multiprocessing.get_context("forkserver")
_FORKS.set_forkserver_preload(list(_PRELOADED))


def framed(message: dict[str, Any], buffers: Sequence[bytes] | None = None) -> bytes:
    r"""A message as bytes: the length of its JSON, the JSON, which names the sizes of the buffers, and these.

    Examples
    --------
    >>> framed({"kind": "pong"})
    b'\x00\x00\x00\x10{"kind": "pong"}'
    >>> framed({}, [b"ab"])[4:]
    b'{"sizes": [2]}ab'
    """
    sizes = {} if buffers is None else {"sizes": [len(one) for one in buffers]}
    text = json.dumps(message | sizes).encode()
    return b"".join((struct.pack(">I", len(text)), text, *(buffers or ())))


def parted(data: bytes) -> tuple[dict[str, Any], bytes]:
    """A message that came, and the bytes after it.

    Examples
    --------
    >>> parted(framed({"kind": "ping"}) + b"more")
    ({'kind': 'ping'}, b'more')
    """
    (length,) = struct.unpack_from(">I", data)
    message: dict[str, Any] = json.loads(data[4 : 4 + length])
    return message, data[4 + length :]


def stand_for_pyodide() -> None:
    """Put in place what `pycore.bridge.adapter` takes from JavaScript: here values stay as they are."""

    def to_js(value: Any, **_: object) -> Any:
        return value if isinstance(value, dict) else SimpleNamespace(buffer=value.tobytes())

    names = {
        "Object": SimpleNamespace(fromEntries=None),
        "Uint8Array": object,
        "JsBuffer": object,
        "JsException": Exception,
        "JsProxy": object,
        "to_js": to_js,
    }
    for name in ("js", "pyodide", "pyodide.ffi"):
        module = ModuleType(name)
        vars(module).update(names)
        sys.modules[name] = module


class _Given(bytes):
    """A buffer from the page, as the adapter takes it."""

    def to_bytes(self) -> bytes:
        return bytes(self)


class _Answering:
    """One worker's calls, step by step, as web/src/worker/running.ts does it."""

    def __init__(self, connection: Connection) -> None:
        from pycore.bridge import adapter

        self._adapter: Any = adapter
        # Here no address is out of reach.
        vars(adapter)["_OUT_OF_REACH"] = sys.maxsize
        self._connection = connection
        self._handles: dict[int, int] = {}

    def answer(self, language: str) -> None:
        """Answer until the page is gone."""
        self._adapter.speak(language)
        self._post({"kind": "ready"})
        while True:
            while not self._handles or self._connection.poll(0):
                try:
                    self._take(*parted(self._connection.recv_bytes()))
                except EOFError:
                    return
            for one in list(self._handles):
                self._attempt(one, partial(self._step, one))

    def _take(self, message: dict[str, Any], rest: bytes) -> None:
        kind, one = message["kind"], message.get("id", 0)
        if kind == "ping":
            self._post({"kind": "pong"})
        elif kind == "stop":
            self._end(one)
        else:
            given = _Given(rest) if message["hasBuffer"] else None
            self._attempt(one, lambda: self._begin(one, message["method"], message["params"], given))

    def _begin(self, one: int, method: str, params: str, given: bytes | None) -> None:
        if method == "show":
            params = json.dumps({"preview_px": PREVIEW_PX} | json.loads(params))
        self._handles[one] = self._adapter.begin(method, params, given)

    def _step(self, one: int) -> None:
        step = self._adapter.step(self._handles[one])
        is_result = step["kind"] == "result"
        buffers = list(step["buffers"]) if is_result else None
        self._post({"kind": step["kind"], "id": one, "text": step["text"]}, buffers)
        if step["kind"] != "progress":
            self._end(one)

    def _attempt(self, one: int, work: Callable[[], None]) -> None:
        try:
            work()
        except Exception as wrong:
            self._post({"kind": "fault", "text": traceback.format_exc()})
            fault = ErrorReply(
                code="crash",
                field="",
                expected="",
                got=str(wrong),
                remedy="",
                values={},
                message=f"The program in the page failed: {wrong}.",
            )
            self._post({"kind": "error", "id": one, "text": fault.model_dump_json()})
            self._end(one)

    def _end(self, one: int) -> None:
        handle = self._handles.pop(one, None)
        if handle is not None:
            self._adapter.end(handle)

    def _post(self, message: dict[str, Any], buffers: Sequence[bytes] | None = None) -> None:
        self._connection.send_bytes(framed(message, buffers))


def answer_page(connection: Connection, language: str) -> None:
    """What a forked process does: answer one worker of a page until that is gone."""
    stand_for_pyodide()
    wall_view = import_module("pycore.tasks.wall_view")
    vars(wall_view).update(CANVAS_PX=WALL_CANVAS_PX)
    _Answering(connection).answer(language)


class NativeSiteHandler(SiteHandler):
    """The site, with another program in its worker's place, and the cores behind it."""

    #: The connection to each worker's process.
    cores: Final[dict[str, Connection]] = {}
    _posting: Final = threading.Lock()

    def do_GET(self) -> None:  # noqa: N802 (the name that http.server looks for)
        """Send a file, or all that a core says."""
        path, _, query = self.path.partition("?")
        inner = path.removeprefix(self._under)
        if inner.startswith("native-core/"):
            (language,) = parse_qs(query)["language"]
            self._open_core(inner, language)
        elif inner.startswith("assets/core.worker-"):
            program = _WORKER.read_bytes()
            self.send_response(HTTPStatus.OK)
            self.send_header("Content-Type", "text/javascript")
            self.send_header("Content-Length", str(len(program)))
            self.end_headers()
            self.wfile.write(program)
        else:
            super().do_GET()

    def do_POST(self) -> None:  # noqa: N802 (the name that http.server looks for)
        """Pass a message on to its core."""
        data = self.rfile.read(int(self.headers["Content-Length"]))
        core = self.cores.get(urlsplit(self.path).path.removeprefix(self._under))
        if core is not None:
            with self._posting:
                core.send_bytes(data)
        self.send_response(HTTPStatus.NO_CONTENT if core else HTTPStatus.GONE)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _open_core(self, name: str, language: str) -> None:
        ours, theirs = _FORKS.Pipe()
        process = _FORKS.Process(target=answer_page, args=(theirs, language), daemon=True)
        process.start()
        theirs.close()
        self.cores[name] = ours
        self.close_connection = True
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "application/octet-stream")
        self.send_header("Connection", "close")
        self.end_headers()
        try:
            # The page sends nothing more here: what comes is its end.
            while self.connection not in select.select([ours, self.connection], [], [])[0]:
                self.wfile.write(ours.recv_bytes())
        except (EOFError, ConnectionError):
            pass
        finally:
            del self.cores[name]
            process.kill()
            process.join()
            with self._posting:
                ours.close()


def open_native_server(folder: Path, *, under: str) -> SiteServer:
    """A server like `pycore.serving.server.open_server`'s, at any free port."""
    handler = handler_for(folder, under=under)
    return SiteServer((HOST, 0), partial(NativeSiteHandler, **handler.keywords))
