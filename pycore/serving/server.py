"""A server of the site for this machine alone."""

from __future__ import annotations

import errno
import os
import sys
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import Any, Final

from pycore.errors import OutputError, reason_of
from pycore.serving.handler import SiteHandler
from pycore.serving.headers import policy_of
from pycore.speech import say

#: Only this machine may ask.
HOST: Final = "127.0.0.1"


class SiteServer(ThreadingHTTPServer):
    """One thread for each connection; none keeps the program alive."""

    daemon_threads = True
    # On Windows this would let two servers share a port.
    allow_reuse_address = os.name != "nt"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say in one line what failed; a browser that goes away is no failure.

        Parameters
        ----------
        request : socket.socket
        client_address : tuple
        """
        wrong = sys.exception()
        if not isinstance(wrong, ConnectionError | TimeoutError):
            print(
                say("tuckfold: a request was not answered ({name})", name=type(wrong).__name__),
                file=sys.stderr,
            )


def open_server(folder: Path, *, port: int, under: str = "/") -> SiteServer:
    """Open a server; it answers once its `serve_forever` runs.

    Parameters
    ----------
    folder : Path
        The finished site; it may come later, but its policy is the one of the page that is there by now.
    port : int
        0 to 65535; 0 takes any free one, named by the server's `server_port`.
    under : str, optional
        The path at which the site is found; it begins and ends with a slash.

    Returns
    -------
    SiteServer

    Raises
    ------
    OutputError
        The port is taken, or may not be used.
    """
    try:
        return SiteServer((HOST, port), handler_for(folder, under=under))
    except OSError as wrong:
        if wrong.errno == errno.EADDRINUSE:
            said = say("Port {port} is taken.", port=port)
            remedy = say(
                "end the other program, or name another, such as --port {port}", port=port % 65535 + 1
            )
        else:
            said = say("Port {port} cannot be used ({strerror}).", port=port, strerror=reason_of(wrong))
            remedy = say("name another, such as --port 8017")
        raise OutputError(
            field="--port",
            expected=say("a free port"),
            got=say("port {port}", port=port),
            remedy=remedy,
            said=said,
        ) from wrong


def handler_for(folder: Path, *, under: str = "/", policy: str = "") -> partial[SiteHandler]:
    """What answers for a site as it lies there by now.

    Parameters
    ----------
    folder : Path
        The finished site.
    under : str, optional
        The path at which it is found; it begins and ends with a slash.
    policy : str, optional
        Another content security policy than that of its page.

    Returns
    -------
    functools.partial
        Makes a handler for each connection.
    """
    return partial(SiteHandler, folder=folder.resolve(), policy=policy or policy_of(folder), under=under)
