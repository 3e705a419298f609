"""What memory a page in Chromium holds: its objects, its workers' WebAssembly, all of its processes."""

from __future__ import annotations

import itertools
import json
import os
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import BrowserContext, Page

#: Runs in a worker before its own script, and keeps every memory that is made there or comes with a module.
_KEEP: Final = """(() => {
  const made = (globalThis.memoriesMade = new Set());
  const Memory = WebAssembly.Memory;
  WebAssembly.Memory = new Proxy(Memory, {
    construct(target, given) {
      const memory = Reflect.construct(target, given);
      made.add(memory);
      return memory;
    },
  });
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const begin = WebAssembly[name];
    WebAssembly[name] = async (...given) => {
      const found = await begin.apply(WebAssembly, given);
      for (const one of Object.values((found.instance ?? found).exports)) {
        if (one instanceof Memory) made.add(one);
      }
      return found;
    };
  }
})()"""

_SUM: Final = "[...globalThis.memoriesMade].reduce((sum, one) => sum + one.buffer.byteLength, 0)"


class PageMemory:
    """Asks a page and its workers over the browser's own protocol.

    Parameters
    ----------
    context : BrowserContext
    page : Page
        Before it is loaded, so that each of its workers is met.
    """

    def __init__(self, context: BrowserContext, page: Page) -> None:
        self._page = page
        self._client = context.new_cdp_session(page)
        self._workers: set[str] = set()
        self._answers: dict[int, Any] = {}
        self._numbers = itertools.count(1)
        self._client.on("Target.attachedToTarget", self._meet)
        self._client.on("Target.detachedFromTarget", lambda said: self._workers.discard(said["sessionId"]))
        self._client.on("Target.receivedMessageFromTarget", self._hear)
        self._client.send(
            "Target.setAutoAttach", {"autoAttach": True, "waitForDebuggerOnStart": True, "flatten": False}
        )

    def objects_mb(self) -> float:
        """JavaScript's objects of the page, after a collection."""
        self._client.send("HeapProfiler.collectGarbage")
        return float(self._client.send("Runtime.getHeapUsage")["usedSize"]) / 1e6

    def wasm_mb(self) -> float:
        """The WebAssembly memories of all of the page's workers."""
        total = 0.0
        for worker in list(self._workers):
            summed = self._ask(worker, "Runtime.evaluate", {"expression": _SUM, "returnByValue": True})
            total += float(summed["result"]["value"])
        return total / 1e6

    def _meet(self, said: dict[str, Any]) -> None:
        worker = said["sessionId"]
        if said["targetInfo"]["type"] == "worker":
            self._workers.add(worker)
            self._tell(worker, "Runtime.evaluate", {"expression": _KEEP})
        self._tell(worker, "Runtime.runIfWaitingForDebugger", {})

    def _tell(self, worker: str, method: str, params: dict[str, Any]) -> int:
        number = next(self._numbers)
        message = json.dumps({"id": number, "method": method, "params": params})
        self._client.send("Target.sendMessageToTarget", {"sessionId": worker, "message": message})
        return number

    def _ask(self, worker: str, method: str, params: dict[str, Any]) -> Any:
        number = self._tell(worker, method, params)
        for _ in range(600):
            if number in self._answers:
                return self._answers.pop(number)
            # Lets the protocol's messages in.
            self._page.wait_for_timeout(50)
        raise TimeoutError(f"the worker does not answer {method}")

    def _hear(self, said: dict[str, Any]) -> None:
        message = json.loads(said["message"])
        if "id" in message:
            self._answers[message["id"]] = message.get("result", {})


def browsers_mb() -> float:
    """What the browsers' processes that this one has begun hold, shared pages by their share; on Linux.

    The program that drives them (Node.js) is none of theirs: it keeps what it was told.
    """
    children: dict[int, list[int]] = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except (FileNotFoundError, ProcessLookupError):
            continue
        children.setdefault(int(fields[1]), []).append(int(stat.parent.name))
    waiting, total = [*children.get(os.getpid(), [])], 0
    while waiting:
        process = waiting.pop()
        waiting += children.get(process, [])
        try:
            if Path(f"/proc/{process}/exe").resolve().name == "node":
                continue
            lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
        except OSError:
            continue
        total += sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
    return total / 1000
