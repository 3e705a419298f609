"""Answering one browser: files of the site with their headers, and short refusals for all else."""

from __future__ import annotations

import os
import shutil
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler
from pathlib import Path
from typing import Final

from pycore.serving.headers import NEVER_KEPT, SAFETY, kept
from pycore.serving.media_types import media_type
from pycore.serving.site_path import site_file

#: Names of this machine, by which a browser may ask. Any other name in `Host` was made to point here by
#: somebody else, whose page could then read the answers.
_OWN_NAMES: Final = ("127.0.0.1", "localhost")


class SiteHandler(BaseHTTPRequestHandler):
    """Answers GET and HEAD for the files of one folder.

    Parameters
    ----------
    request, client_address, server
        As the server passes them.
    folder : Path
        The site's folder, resolved.
    policy : str
        The content security policy that goes with every answer.
    under : str
        The path that the site has here; it begins and ends with a slash.
    """

    # Pages ask for many files; HTTP/1.1 keeps the connection.
    protocol_version = "HTTP/1.1"
    # Also what is no request gets an answer with all its headers.
    default_request_version = "HTTP/1.0"
    server_version = "tuckfold"
    sys_version = ""
    # A message in HTML that repeats the request is no use here.
    error_message_format = "%(code)d %(message)s\n"
    error_content_type = "text/plain; charset=utf-8"

    def __init__(self, *args: object, folder: Path, policy: str, under: str) -> None:
        self._folder = folder
        self._policy = policy
        self._under = under
        self._kept = NEVER_KEPT
        super().__init__(*args)  # type: ignore[arg-type]  # as the server passes them

    def do_GET(self) -> None:
        """Send a file."""
        self._answer(with_body=True)

    def do_HEAD(self) -> None:
        """Send what goes with a file."""
        self._answer(with_body=False)

    def end_headers(self) -> None:
        """Send what goes with every answer."""
        self.send_header("Cache-Control", self._kept)
        self.send_header("Content-Security-Policy", self._policy)
        for name, value in SAFETY:
            self.send_header(name, value)
        super().end_headers()
        # The next answer of this connection begins anew.
        self._kept = NEVER_KEPT

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing; the browser's own tools show every request.

        Parameters
        ----------
        format : str
        *args : object
        """

    def _answer(self, *, with_body: bool) -> None:
        # What comes with a request is not read, and would be taken for the next one.
        if self.headers.get("Content-Length", "0") != "0" or "Transfer-Encoding" in self.headers:
            self.send_error(HTTPStatus.BAD_REQUEST, "A request for a file has no content")
            return
        if not self._is_for_this_machine():
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST, "Ask for 127.0.0.1 or localhost")
            return
        target = self.path.removeprefix(self._under.rstrip("/"))
        file = site_file(self._folder, target) if self.path.startswith(self._under) else None
        if file is None:
            self.send_error(HTTPStatus.NOT_FOUND, "File not found")
            return
        try:
            with file.open("rb") as opened:
                facts = os.fstat(opened.fileno())
                tag = f'"{facts.st_mtime_ns:x}-{facts.st_size:x}"'
                # By the name that was asked for: a link's name says nothing of its target's bytes.
                self._kept = kept(target.partition("?")[0].lstrip("/"))
                fresh = tag in self.headers.get("If-None-Match", "")
                self.send_response(HTTPStatus.NOT_MODIFIED if fresh else HTTPStatus.OK)
                self.send_header("ETag", tag)
                if not fresh:
                    self.send_header("Content-Type", media_type(file.name))
                    self.send_header("Content-Length", str(facts.st_size))
                self.end_headers()
                if with_body and not fresh:
                    shutil.copyfileobj(opened, self.wfile)
        except (BrokenPipeError, ConnectionResetError):
            # The browser went on to another page.
            self.close_connection = True
        except OSError:
            # The file went away, or may not be read. Where the answer had begun, the connection ends short.
            self.close_connection = True

    def _is_for_this_machine(self) -> bool:
        hosts = self.headers.get_all("Host", [])
        if len(hosts) != 1:
            return False
        name, _, port = hosts[0].strip().lower().partition(":")
        # A browser leaves out the port that its scheme has by itself.
        return name in _OWN_NAMES and (port or "80") == str(self.connection.getsockname()[1])
