"""The server: right types, no listings, nothing outside of the site, this machine only, never a traceback."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from email.message import Message
from http.client import HTTPConnection
from pathlib import Path
from typing import NamedTuple

import pytest

from pycore.errors import OutputError
from pycore.serving.server import HOST, open_server

pytestmark = pytest.mark.native

POLICY = "default-src 'none'; script-src 'self'"
PAGE = f'<!doctype html>\n<meta http-equiv="Content-Security-Policy" content="{POLICY}" />'


@pytest.fixture(scope="module")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    top = tmp_path_factory.mktemp("top")
    site = top / "site"
    for folder in ("assets", "py", "other"):
        (site / folder).mkdir(parents=True)
    (site / "index.html").write_text(PAGE)
    for name in ("a.mjs", "a.js", "a.wasm", "a.whl", "a.json", "a.webp", "a.css", "a.svg", "a.zip", "a.odd"):
        (site / "other" / name).write_bytes(b"x")
    (site / "assets" / "page-1a2b.js").write_text("")
    (site / ".htaccess").write_text("hidden")
    (top / "secret.txt").write_text("outside")
    (site / "link.txt").symlink_to(top / "secret.txt")
    (site / "up").symlink_to(top, target_is_directory=True)
    (site / "circle").symlink_to(site / "circle")
    with open_server(site, port=0) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_port
        server.shutdown()


class Answer(NamedTuple):
    """What the server sent."""

    status: int
    headers: Message
    body: bytes


def ask(port: int, path: str, method: str = "GET", **headers: str) -> Answer:
    connection = HTTPConnection(HOST, port, timeout=5)
    connection.request(method, path, headers=headers)
    response = connection.getresponse()
    answer = Answer(response.status, response.headers, response.read())
    connection.close()
    return answer


def raw(port: int, request: bytes) -> bytes:
    """What comes back for bytes that need not be a request, until the server ends the connection."""
    with socket.create_connection((HOST, port), timeout=5) as connection:
        connection.sendall(request)
        connection.shutdown(socket.SHUT_WR)
        return b"".join(iter(lambda: connection.recv(65536), b""))


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
    answer = ask(port, f"/other/{name}")
    assert (answer.status, answer.headers["Content-Type"]) == (200, kind)


def test_the_page_is_at_the_root_and_its_policy_goes_with_everything(port: int) -> None:
    answer = ask(port, "/")
    assert (answer.status, answer.headers["Content-Type"]) == (200, "text/html; charset=utf-8")
    for path in ("/", "/assets/page-1a2b.js", "/none"):
        assert ask(port, path).headers["Content-Security-Policy"] == f"{POLICY}; frame-ancestors 'none'"
        assert ask(port, path).headers["X-Content-Type-Options"] == "nosniff"


def test_only_what_goes_with_a_file_is_sent_where_no_more_is_asked_for(port: int) -> None:
    answer = ask(port, "/other/a.wasm", "HEAD")
    assert (answer.status, answer.headers["Content-Length"], answer.body) == (200, "1", b"")


@pytest.mark.parametrize(
    "path",
    [
        *("/other/", "/other", "/assets/", "/none", "/../secret.txt", "/%2e%2e/secret.txt", "//secret.txt"),
        *("/link.txt", "/up/secret.txt", "/circle", "/.htaccess", "/%00", "/a%0d%0ab", "/..%5csecret.txt"),
        *("/%ff", f"/{'a' * 5000}", f"/{'a/' * 3000}"),
    ],
)
def test_nothing_else_is_found(port: int, path: str, capfd: pytest.CaptureFixture[str]) -> None:
    answer = ask(port, path)
    assert answer.status == 404
    assert answer.headers["Cache-Control"] == "no-store"
    assert b"outside" not in answer.body
    assert capfd.readouterr().err == ""


def test_only_names_that_hold_a_hash_are_kept_for_long(port: int) -> None:
    assert "immutable" in (ask(port, "/assets/page-1a2b.js").headers["Cache-Control"] or "")
    assert ask(port, "/assets/none-1a2b.js").headers["Cache-Control"] == "no-store"
    first = ask(port, "/other/a.wasm")
    assert first.headers["Cache-Control"] == "no-cache"
    again = ask(port, "/other/a.wasm", **{"If-None-Match": first.headers["ETag"] or ""})
    assert (again.status, again.body) == (304, b"")


@pytest.mark.parametrize(
    "host", ["example.org", "127.0.0.1.example.org:PORT", "127.0.0.1:1", "", "[::1]:PORT"]
)
def test_another_name_for_this_machine_is_refused(port: int, host: str) -> None:
    assert ask(port, "/", Host=host.replace("PORT", str(port))).status == 421


def test_its_own_names_are_answered(port: int) -> None:
    for name in (HOST, "localhost", "LOCALHOST"):
        assert ask(port, "/", Host=f"{name}:{port}").status == 200


@pytest.mark.parametrize(
    ("request_", "status"),
    [
        (b"GET / HTTP/1.1\r\n\r\n", b"421"),
        (b"GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nHost: example.org\r\n\r\n", b"421"),
        (b"GET http://example.org/ HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n\r\n", b"404"),
        (b"POST / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nContent-Length: 2\r\n\r\nab", b"501"),
        (b"GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nContent-Length: 2\r\n\r\nab", b"400"),
        (b"GET / HTTP/9.9\r\n\r\n", b"505"),
        (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", b"400"),
        (b"GET /" + b"a" * 70_000 + b" HTTP/1.1\r\n\r\n", b"414"),
        (b"GET / HTTP/1.1\r\n" + b"a: b\r\n" * 200 + b"\r\n", b"431"),
    ],
    ids=["no host", "two hosts", "proxy", "post", "with content", "version", "tls", "long", "many headers"],
)
def test_what_is_no_request_for_a_file_is_refused_without_a_traceback(
    port: int, request_: bytes, status: bytes, capfd: pytest.CaptureFixture[str]
) -> None:
    answer = raw(port, request_.replace(b"PORT", str(port).encode()))
    # One answer, and nothing of what followed is taken for a request.
    assert answer.count(b"HTTP/1.1 ") == 1
    assert status in answer.partition(b"\r\n")[0]
    assert b"Content-Security-Policy" in answer
    assert capfd.readouterr().err == ""


def test_a_browser_that_goes_away_is_no_fault(port: int, capfd: pytest.CaptureFixture[str]) -> None:
    with socket.create_connection((HOST, port), timeout=5) as connection:
        connection.sendall(b"GET / HT")
    assert ask(port, "/").status == 200
    assert capfd.readouterr().err == ""


def test_a_site_may_have_a_path_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text(PAGE)
    with open_server(tmp_path, port=0, under="/any/path/") as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        found = [ask(server.server_port, path).status for path in ("/any/path/", "/any/", "/", "/any/path")]
        server.shutdown()
    assert found == [200, 404, 404, 404]


def test_other_machines_are_not_answered(tmp_path: Path) -> None:
    with open_server(tmp_path, port=0) as server:
        assert server.server_address[0] == "127.0.0.1"


def test_a_taken_port_is_named_with_a_way_out(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind((HOST, 0))
        other.listen()
        taken = other.getsockname()[1]
        with pytest.raises(OutputError, match=f"Port {taken} is taken. .* --port {taken + 1}"):
            open_server(tmp_path, port=taken)
