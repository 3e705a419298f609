"""Serving a site in a thread for as long as a page is open."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

from pycore.serving.server import HOST, SiteServer


@contextmanager
def served(server: SiteServer, *, under: str = "/") -> Iterator[str]:
    """Serve until the end of the block; after it, what a browser asks on an open connection is not answered.

    Parameters
    ----------
    server : SiteServer
        Opened, not serving yet.
    under : str, optional
        The path at which it has the site; it begins and ends with a slash.

    Yields
    ------
    str
        The site's address.
    """
    accept = server.get_request
    connections: list[socket.socket] = []

    def get_request() -> tuple[socket.socket, Any]:
        connection, address = accept()
        connections.append(connection)
        return connection, address

    vars(server)["get_request"] = get_request
    with server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield f"http://{HOST}:{server.server_port}{under}"
        finally:
            server.shutdown()
            for one in connections:
                # Most are closed.
                with suppress(OSError):
                    one.shutdown(socket.SHUT_RDWR)
