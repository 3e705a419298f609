"""The server: right types, no listings, nothing outside of the site, this machine only."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from email.message import Message
from http.client import HTTPConnection
from pathlib import Path
from typing import NamedTuple

import pytest
from build.failure import BuildError
from build.server import HOST, open_server

pytestmark = pytest.mark.native


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    site = tmp_path / "site"
    for folder in ("assets", "py"):
        (site / folder).mkdir(parents=True)
    (site / "index.html").write_text("<!doctype html>")
    for name in ("a.mjs", "a.js", "a.wasm", "a.whl", "a.json", "a.webp", "a.css", "a.svg", "a.zip", "a.odd"):
        (site / "py" / name).write_bytes(b"x")
    (site / "assets" / "page-1a2b.js").write_text("")
    (tmp_path / "secret.txt").write_text("outside")
    with open_server(site, port=0) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_port
        server.shutdown()


class Answer(NamedTuple):
    """What the server sent."""

    status: int
    headers: Message
    body: bytes


def ask(port: int, path: str, **headers: str) -> Answer:
    connection = HTTPConnection(HOST, port, timeout=5)
    connection.request("GET", path, headers=headers)
    response = connection.getresponse()
    answer = Answer(response.status, response.headers, response.read())
    connection.close()
    return answer


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        # published: the IANA registry of media types; text/javascript by RFC 9239.
        ("a.mjs", "text/javascript; charset=utf-8"),
        ("a.js", "text/javascript; charset=utf-8"),
        ("a.wasm", "application/wasm"),
        ("a.json", "application/json; charset=utf-8"),
        ("a.webp", "image/webp"),
        ("a.css", "text/css; charset=utf-8"),
        ("a.svg", "image/svg+xml; charset=utf-8"),
        ("a.zip", "application/zip"),
        # A wheel is a zip file.
        ("a.whl", "application/zip"),
        ("a.odd", "application/octet-stream"),
    ],
)
def test_media_types(port: int, name: str, kind: str) -> None:
    answer = ask(port, f"/py/{name}")
    assert (answer.status, answer.headers["Content-Type"]) == (200, kind)


def test_the_page_is_at_the_root(port: int) -> None:
    answer = ask(port, "/")
    assert (answer.status, answer.headers["Content-Type"]) == (200, "text/html; charset=utf-8")


@pytest.mark.parametrize("path", ["/py/", "/assets/", "/none", "/../secret.txt", "/%2e%2e/secret.txt"])
def test_no_listing_and_nothing_outside_of_the_site(port: int, path: str) -> None:
    answer = ask(port, path)
    assert answer.status == 404
    assert b"outside" not in answer.body


def test_only_names_that_hold_a_hash_are_kept_for_long(port: int) -> None:
    assert "immutable" in (ask(port, "/assets/page-1a2b.js").headers["Cache-Control"] or "")
    first = ask(port, "/py/a.wasm")
    assert first.headers["Cache-Control"] == "no-cache"
    again = ask(port, "/py/a.wasm", **{"If-Modified-Since": first.headers["Last-Modified"] or ""})
    assert again.status == 304


def test_other_machines_are_not_answered(tmp_path: Path) -> None:
    with open_server(tmp_path, port=0) as server:
        assert server.server_address[0] == "127.0.0.1"


def test_a_taken_port_is_named_with_a_way_out(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind((HOST, 0))
        other.listen()
        taken = other.getsockname()[1]
        with pytest.raises(BuildError, match=f"port {taken} is taken: .* --port {taken + 1}"):
            open_server(tmp_path, port=taken)
