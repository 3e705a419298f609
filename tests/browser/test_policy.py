"""What the content security policies refuse, and that a host's headers say the same as the pages."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from playwright.sync_api import Page

DIST = Path(__file__).resolve().parents[2] / "web" / "dist"

pytestmark = pytest.mark.browser

#: What Pyodide needs, the policy must allow.
IN_PYODIDE = True

#: Tries one thing after another that a page with somebody else's text in it could be brought to do; returns
#: what was refused, and whether any of it was done all the same.
TRY_ALL = """async () => {
  const reports = [];
  addEventListener("securitypolicyviolation", ({ effectiveDirective, blockedURI, sample }) => {
    reports.push([effectiveDirective, blockedURI, sample].join(" ").trim());
  });
  const add = (name, rest) => document.body.append(Object.assign(document.createElement(name), rest));
  const host = "http://127.0.0.1:9/";
  const attempts = [
    () => fetch(`${host}fetch`),
    () => navigator.sendBeacon(`${host}beacon`, "text"),
    () => new WebSocket("ws://127.0.0.1:9/socket"),
    () => { new Image().src = `${host}picture`; },
    () => import(`${host}program`),
    () => add("style", { textContent: "p { color: red }" }),
    () => add("iframe", { src: `${host}frame` }),
    () => add("object", { data: `${host}object` }),
    () => add("base", { href: `${host}base` }),
    () => document.body.setAttribute("onclick", "window.broken = true"),
    () => { document.body.innerHTML = "<p>markup"; },
    () => { const one = document.createElement("script"); one.text = "window.broken = true"; },
    () => new Function("window.broken = true")(),
    () => new Worker("data:text/javascript,1"),
    () => trustedTypes.createPolicy("other", {}),
  ];
  for (const attempt of attempts) {
    try { await attempt(); } catch {}
  }
  const begun = performance.now();
  while (new Set(reports).size < attempts.length && performance.now() - begun < 5000) {
    await new Promise(requestAnimationFrame);
  }
  return [[...new Set(reports)].sort(), window.broken ?? false];
}"""

#: Directive, address or kind of sink, and the text that was refused, of each attempt. Published: Content
#: Security Policy Level 3 and Trusted Types name what each directive governs.
SINK = "require-trusted-types-for trusted-types-sink"
REFUSED = [
    "base-uri http://127.0.0.1:9/base",
    "connect-src http://127.0.0.1:9/beacon",
    "connect-src http://127.0.0.1:9/fetch",
    "connect-src ws://127.0.0.1:9/socket",
    "frame-src http://127.0.0.1:9",
    "img-src http://127.0.0.1:9/picture",
    "script-src-elem http://127.0.0.1:9/program",
    "style-src-elem inline",
    "trusted-types trusted-types-policy other",
    f"{SINK} Element innerHTML|<p>markup",
    f"{SINK} Element onclick|window.broken = true",
    f"{SINK} Function|(\n) {{\nwindow.broken = true\n}})",
    f"{SINK} HTMLObjectElement data|http://127.0.0.1:9/object",
    f"{SINK} HTMLScriptElement text|window.broken = true",
    f"{SINK} Worker constructor|data:text/javascript,1",
]


@pytest.mark.parametrize("name", ["index.html", "guide.html"])
def test_a_page_refuses_what_it_does_not_need(
    page: Page, site: str, complaints: list[str], name: str
) -> None:
    page.route("**/runtime.json", lambda route: route.abort())
    page.goto(f"{site}{name}")
    found: list[Any] = page.evaluate(TRY_ALL)
    complaints.clear()
    assert tuple(found) == (sorted(REFUSED), False)


def test_the_headers_hold_the_pages_policy(site: str) -> None:
    """A page that is hosted without headers is as strict as one with them."""
    with urlopen(site) as answer:
        header, page = answer.headers["Content-Security-Policy"], answer.read().decode()
    written = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert written is not None
    # derived: only a header can say who may frame a page (Content Security Policy Level 3).
    assert header == f"{written[1]}; frame-ancestors 'none'"
    assert "'wasm-unsafe-eval'" in header
    assert "unsafe-inline" not in header
    assert "'unsafe-eval'" not in header


def test_every_program_of_the_page_is_checked_by_its_hash(site: str) -> None:
    """Those that are loaded later too: the map names all that lie there."""
    with urlopen(site) as answer:
        page = answer.read().decode()
    for element in re.findall(r"<(?:script|link)[^>]*assets/[^>]*\.(?:js|css)[^>]*>", page):
        assert re.search(r'integrity="sha256-[A-Za-z0-9+/]{43}="', element), element
    found = re.search(r'<script type="importmap">(.*?)</script>', page)
    assert found is not None
    hashes = json.loads(found[1])["integrity"]
    programs = {f"./assets/{one.name}": one.read_bytes() for one in (DIST / "assets").glob("*.js")}
    assert hashes == {
        name: f"sha256-{base64.b64encode(hashlib.sha256(data).digest()).decode()}"
        for name, data in programs.items()
    }
