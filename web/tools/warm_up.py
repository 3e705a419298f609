"""What runs in Python before its memory is kept; inside Pyodide, while the site is built.

The core's modules are imported, and a session that is thrown away opens and shows a small picture, so that
all that a first picture needs is there. Nothing of that session may stay.
"""

from __future__ import annotations

import gc
import io
import json
import sys
from collections.abc import Mapping
from typing import Any

import numpy as np
from PIL import Image

#: Modules whose state must differ from page to page and is not made anew by `pycore.bridge.restored`.
FORBIDDEN = ("numpy.random", "secrets", "ssl", "hypothesis")

WIDTH_PX, HEIGHT_PX = 640, 480


def warm_up() -> None:
    """Check a job, open a picture and show it, as a page does at its start."""
    from pycore.bridge.session import Session

    session = Session()
    job = answered(session, "hello", {})[0]["job"]
    job = answered(session, "check", {"text": json.dumps(job)})[0]["job"]
    answered(session, "open", {"file": "small.jpg"}, _picture())
    answered(session, "show", {"job": job, "fresh": True})


def loaded_files() -> str:
    """The files of all modules that the memory holds; nobody reads them again.

    Returns
    -------
    str
        Paths, a list as JSON.
    """
    files = {getattr(module, "__file__", None) for module in sys.modules.values()}
    return json.dumps(sorted(file for file in files if file is not None and file.endswith(".pyc")))


def leave_nothing() -> None:
    """Take away what making the memory has left, this module too.

    Raises
    ------
    RuntimeError
        Something of the session is still there, or a module whose state must not be shared.
    """
    # Pyodide puts it there at each start.
    while "" in sys.path:
        sys.path.remove("")
    sys.path_importer_cache.pop("/home/pyodide", None)
    loaded = [name for name in FORBIDDEN if name in sys.modules]
    if loaded:
        raise RuntimeError(f"loaded before the memory is kept: {', '.join(loaded)}")
    del sys.modules[__name__]
    gc.collect()
    kept = [type(one).__name__ for one in gc.get_objects() if _is_of_a_session(one)]
    # The adapter's own session is the one that the page will use.
    if kept != ["Session"]:
        raise RuntimeError(f"kept of the session that is thrown away: {kept}")


def _is_of_a_session(one: object) -> bool:
    module, name = type(one).__module__, type(one).__name__
    return module.startswith("pycore.") and name in ("Session", "OpenPicture", "Preview", "ProfileStore")


def answered(
    session: Any, method: str, params: Mapping[str, Any], buffer: bytes | None = None
) -> tuple[Any, list[Any]]:
    """Make a call to its end.

    Parameters
    ----------
    session : pycore.bridge.session.Session
    method : str
        One of the contract's methods.
    params : mapping
        Its parameters.
    buffer : bytes, optional
        What goes with the call.

    Returns
    -------
    tuple
        The reply as plain data, and its buffers.
    """
    steps = session.call(method, params, buffer)
    while True:
        try:
            next(steps)
        except StopIteration as end:
            reply = json.loads(end.value.reply.model_dump_json(exclude_none=True))
            return reply, list(end.value.buffers)


def _picture() -> bytes:
    """A JPEG file with slopes in all three channels."""
    across = np.linspace(0, 255, WIDTH_PX).astype(np.uint8)
    down = np.linspace(0, 255, HEIGHT_PX).astype(np.uint8)
    pixels = np.empty((HEIGHT_PX, WIDTH_PX, 3), np.uint8)
    pixels[..., 0] = across
    pixels[..., 1] = down[:, np.newaxis]
    pixels[..., 2] = across[::-1]
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "JPEG")
    return file.getvalue()
