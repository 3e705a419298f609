"""Serving a site in a thread for as long as a page is open."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager

from pycore.serving.server import HOST, SiteServer


@contextmanager
def served(server: SiteServer, *, under: str = "/") -> Iterator[str]:
    """Serve until the end of the block.

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
    with server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield f"http://{HOST}:{server.server_port}{under}"
        finally:
            server.shutdown()
