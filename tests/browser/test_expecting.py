"""What `expect` waits for, and what it says when that does not come."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect


def test_what_does_not_come_fails_and_says_what_was_there(browser: Browser) -> None:
    """The driver is told to write no tree of the page for each look; see driver_without_trees.cjs."""
    page = browser.new_page()
    page.set_content("<p>grey</p>")
    with pytest.raises(AssertionError, match=r"expected to have text 'red'\s+Actual value: grey"):
        expect(page.locator("p")).to_have_text("red", timeout=100)
    with pytest.raises(AssertionError, match=r"element\(s\) not found"):
        expect(page.locator("b")).to_be_visible(timeout=100)
    page.close()
