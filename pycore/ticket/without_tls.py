"""Loading fpdf2 where Python has no `ssl` module, as in the browser."""

from __future__ import annotations

import contextlib
import http.client
import urllib.request
from collections.abc import Iterator
from types import ModuleType


class _NoConnection(http.client.HTTPConnection):
    """Stands for a connection that cannot be made; nothing here makes one."""


class _NoHandler(urllib.request.HTTPHandler):
    """Stands for the handler of such connections."""


@contextlib.contextmanager
def names_for_tls() -> Iterator[None]:
    """Let a library be imported that names two classes which are missing without `ssl`.

    fpdf2 derives classes of its own from them, for pictures that it would fetch by their address. The ticket
    hands it pixels alone, so none of these classes is ever used.

    Yields
    ------
    None
        The block inside runs; what was missing is missing again after it.

    Examples
    --------
    >>> before = hasattr(http.client, "HTTPSConnection")
    >>> with names_for_tls():
    ...     hasattr(http.client, "HTTPSConnection")
    True
    >>> hasattr(http.client, "HTTPSConnection") == before
    True
    """
    wanted: list[tuple[ModuleType, str, type]] = [
        (http.client, "HTTPSConnection", _NoConnection),
        (urllib.request, "HTTPSHandler", _NoHandler),
    ]
    missing = [one for one in wanted if not hasattr(one[0], one[1])]
    for module, name, stand_in in missing:
        setattr(module, name, stand_in)
    try:
        yield
    finally:
        for module, name, _ in missing:
            delattr(module, name)
