"""Serving the finished site to this machine's own browsers."""

from __future__ import annotations

import errno
import os
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO, Final

from build.failure import BuildError

#: Only this machine may ask.
HOST: Final = "127.0.0.1"


class SiteHandler(SimpleHTTPRequestHandler):
    """Serves files with their right types, and never lists a folder."""

    # Pages ask for many files; HTTP/1.1 keeps the connection.
    protocol_version = "HTTP/1.1"
    server_version = "tuckfold"
    sys_version = ""

    #: The system's own table of types is not asked: it differs from machine to machine.
    extensions_map = {  # noqa: RUF012 (the base class declares it so)
        "": "application/octet-stream",
        ".css": "text/css; charset=utf-8",
        ".html": "text/html; charset=utf-8",
        ".icc": "application/vnd.iccprofile",
        ".ico": "image/x-icon",
        ".jpg": "image/jpeg",
        ".js": "text/javascript; charset=utf-8",
        ".json": "application/json; charset=utf-8",
        ".map": "application/json; charset=utf-8",
        ".mjs": "text/javascript; charset=utf-8",
        ".png": "image/png",
        ".svg": "image/svg+xml; charset=utf-8",
        ".txt": "text/plain; charset=utf-8",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json; charset=utf-8",
        ".webp": "image/webp",
        ".whl": "application/zip",
        ".woff2": "font/woff2",
        ".zip": "application/zip",
    }

    def guess_type(self, path: str | os.PathLike[str]) -> str:
        """Name a file's media type by its ending alone."""
        suffix = Path(path).suffix.lower()
        return self.extensions_map.get(suffix, self.extensions_map[""])

    def end_headers(self) -> None:
        """Say how long an answer may be kept."""
        # These names hold a hash of their bytes; everything else is asked for anew, and answered with "not
        # modified" where it is as it was.
        lasting = self.path.lstrip("/").startswith(("assets/", "py/snapshot/"))
        self.send_header("Cache-Control", "max-age=31536000, immutable" if lasting else "no-cache")
        self.send_header("X-Content-Type-Options", "nosniff")
        super().end_headers()

    def list_directory(self, path: str | os.PathLike[str]) -> Any:
        """Answer a folder as if it were not there."""
        self.send_error(HTTPStatus.NOT_FOUND, "File not found")
        return None

    def copyfile(self, source: Any, outputfile: BinaryIO | Any) -> None:
        """Send a file; a browser that stops listening is no error."""
        try:
            super().copyfile(source, outputfile)
        except (BrokenPipeError, ConnectionResetError):
            # The browser went on to another page.
            self.close_connection = True

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing; the browser's own tools show every request."""


class SiteServer(ThreadingHTTPServer):
    """One thread for each connection; none keeps the program alive."""

    daemon_threads = True
    # On Windows this would let two servers share a port.
    allow_reuse_address = os.name != "nt"


def open_server(folder: Path, *, port: int) -> SiteServer:
    """Open a server; it answers once its `serve_forever` runs.

    Parameters
    ----------
    folder : Path
        The finished site.
    port : int
        0 to 65535; 0 takes any free one, named by the server's `server_port`.

    Returns
    -------
    SiteServer

    Raises
    ------
    BuildError
        The port is taken, or may not be used.
    """
    try:
        return SiteServer((HOST, port), partial(SiteHandler, directory=str(folder)))
    except OSError as wrong:
        if wrong.errno == errno.EADDRINUSE:
            raise BuildError(
                f"port {port} is taken", f"end the other program, or name another, such as --port {port + 1}"
            ) from wrong
        raise BuildError(
            f"port {port} cannot be used ({wrong.strerror})", "name another, such as --port 8017"
        ) from wrong
