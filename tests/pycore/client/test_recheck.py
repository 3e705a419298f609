"""A page that was damaged, or that loads or runs what it should not, is not called done."""

from __future__ import annotations

from functools import cache

import pytest

from pycore.client.recheck import LARGEST_BYTES, check_client_page
from pycore.errors import OutputError

from .made_page import VIEWER, page, variants


@cache
def whole() -> bytes:
    """A page as it is made."""
    return page(variants({"name": "Low tide"})).data


def test_a_whole_page_passes() -> None:
    report = check_client_page(whole(), file="low-tide.html", variants=1)
    assert (report.file, report.bytes, report.variants) == ("low-tide.html", len(whole()), 1)


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (b"<h1", b'<img src="https://example.org/a.png"><h1', "nothing that loads from elsewhere"),
        (b"<h1", b'<a href="https://example.org/"></a><h1', "nothing that loads from elsewhere"),
        (b"<h1", b'<h1 onclick="go()"', "nothing that loads from elsewhere"),
        (b"<h1", b"<script>go()</script><h1", "one program, one style and the data"),
        (VIEWER, b"go();", "a policy that names the script"),
        (b"* { box-sizing", b"* { margin: 0; box-sizing", "a policy that names the style"),
        (b"* { box-sizing", b"* { background: url(a.png); box-sizing", "nothing that loads from elsewhere"),
        (b"default-src 'none'; ", b"", "a policy that forbids everything else"),
        (b'name="choice"', b'name="other"', "1 variants"),
        (b'{"textures"', b'"textures"', "a page that can be read again"),
        (b"Low tide", b"Low \xff tide", "a page that can be read again"),
        (b"</main>", b" " * LARGEST_BYTES, "less than 6,000,000 bytes"),
    ],
)
def test_a_changed_page_is_refused(old: bytes, new: bytes, expected: str) -> None:
    assert old in whole()
    with pytest.raises(OutputError) as wrong:
        check_client_page(whole().replace(old, new), file="a.html", variants=1)
    assert (wrong.value.field, wrong.value.expected) == ("client page", expected)


def test_a_missing_variant_is_noticed() -> None:
    with pytest.raises(OutputError, match="it should have 2 variants, and has 1"):
        check_client_page(whole(), file="a.html", variants=2)
