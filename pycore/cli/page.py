"""`tuckfold page`: serve the built page to this machine's own browsers."""

from __future__ import annotations

import argparse
import sys
from typing import Final

from pycore.errors import FieldError, shown
from pycore.serving.server import HOST, open_server
from pycore.serving.site_folder import site_folder
from pycore.speech import say

#: The same as that of web/serve.py.
DEFAULT_PORT: Final = 8017


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "--port",
        type=_port,
        default=DEFAULT_PORT,
        help=say("the port that it is served on; default: %(default)s; 0: any free one"),
    )


def run(options: argparse.Namespace) -> str:
    """Run the command, until it is interrupted.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    str
        What to print at the end.

    Raises
    ------
    OutputError
        The page is not built, or the port is taken.
    """
    with open_server(site_folder(), port=options.port) as server:
        # At once: the command's own text comes when it ends.
        print(
            say(
                "Tuckfold is at http://{host}:{server_port}/ (Ctrl-C ends it)",
                host=HOST,
                server_port=server.server_port,
            ),
            flush=True,
        )
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print(file=sys.stderr)
    return say("The page is served no more.")


def _port(text: str) -> int:
    port = int(text) if text.isascii() and text.isdigit() else -1
    if not 0 <= port <= 65535:
        raise FieldError(
            field="--port",
            expected=say("a port from 0 to 65535"),
            got=shown(text),
            remedy=say("write for example --port 8017"),
        )
    return port
