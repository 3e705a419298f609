"""The installed page: its icons are those that are drawn, and what it opens is what the page can open."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from tools import draw_icon

ROOT = Path(__file__).resolve().parents[3]
WEB = ROOT / "web"
STATIC = WEB / "static"


pytestmark = pytest.mark.native


def test_the_committed_icons_are_those_that_are_drawn(tmp_path: Path) -> None:
    draw_icon.main(tmp_path)
    assert (tmp_path / "icon.svg").read_text() == (STATIC / "icon.svg").read_text()
    for name, size_px, _ in draw_icon.PICTURES:
        with Image.open(tmp_path / name) as drawn, Image.open(STATIC / name) as kept:
            assert kept.size == (size_px, size_px)
            assert np.array_equal(np.asarray(drawn), np.asarray(kept))


def test_the_maskable_icon_keeps_to_its_safe_place() -> None:
    with Image.open(STATIC / "icon-maskable-512.png") as icon:
        pixels = np.asarray(icon).astype(int)
    drawn = np.argwhere(np.abs(pixels - pixels[0, 0]).sum(axis=-1) > 6)
    # published: Web App Manifest: the safe zone is a circle of 40 % of the side around the middle.
    assert np.hypot(*(drawn - 255.5).T).max() <= 0.4 * 512


def test_the_manifest_works_under_any_path_and_names_files_that_are_there() -> None:
    manifest = json.loads((STATIC / "manifest.webmanifest").read_text())
    assert {manifest[name] for name in ("id", "start_url", "scope")} == {"./"}
    for icon in manifest["icons"]:
        assert (STATIC / icon["src"]).is_file()
    assert './manifest.webmanifest"' in (WEB / "index.html").read_text()


def test_the_system_may_open_what_the_page_opens() -> None:
    handlers = json.loads((STATIC / "manifest.webmanifest").read_text())["file_handlers"]
    offered = {ending for one in handlers for endings in one["accept"].values() for ending in endings}
    entries = [path.read_text() for path in (WEB / "src" / "page").rglob("*.tsx")]
    accepted = set(
        re.findall(
            r"\.(?:jpe?g|png|tiff?|webp|icc|icm|zip|json)\b",
            " ".join(found for text in entries for found in re.findall(r'accept="([^"]*)"', text)),
        )
    )
    assert accepted <= offered
