"""What a page under test gets as the demo's picture."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Final

from PIL import Image
from playwright.sync_api import BrowserContext

DEMO_PICTURE: Final = Path(__file__).resolve().parents[2] / "demo_data" / "estuary.jpg"
#: Where the built page finds it.
ADDRESS: Final = "**/assets/estuary*.jpg"


def reduced_demo() -> bytes:
    """The demo's picture with a sixteenth of its pixels, as a JPEG."""
    out = io.BytesIO()
    with Image.open(DEMO_PICTURE) as image:
        image.reduce(4).save(out, "JPEG", quality=90, icc_profile=image.info.get("icc_profile"))
    return out.getvalue()


def give_demo(context: BrowserContext, demo: bytes) -> None:
    """Let the pages of a context get other bytes as the demo's picture."""
    context.route(ADDRESS, lambda route: route.fulfill(body=demo, content_type="image/jpeg"))
