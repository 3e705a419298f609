"""Client pages for the tests, and what a reader finds in them."""

from __future__ import annotations

import base64
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html.parser import HTMLParser
from typing import Any

import numpy as np
from PIL import Image

from pycore.client.page import ClientPage, make_client_page
from pycore.client.surroundings import Surroundings
from pycore.compare.variants import Variant
from pycore.contract.check import check_job
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

#: Stands for the viewer's program.
VIEWER = b'"use strict";\n'

SMALL: Mapping[str, Any] = {"face": {"width_mm": 160, "height_mm": 120}, "bars": {"depth_mm": 20}}


def preview(width_px: int = 320, height_px: int = 240, *, noise: bool = False) -> PreviewSource:
    """A ramp, or the noise that a JPEG packs worst."""
    if noise:
        pixels = np.random.default_rng(7).integers(0, 256, (height_px, width_px, 3), np.uint8)
    else:
        across = np.linspace(0, 255, width_px).astype(np.uint8)
        pixels = np.repeat(np.repeat(across[np.newaxis, :, np.newaxis], height_px, 0), 3, 2)
        pixels[..., 2] = 128
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return PreviewSource(read_picture(out.getvalue(), file="secret-holiday-place.png"))


def variants(*jobs: Mapping[str, Any], labels: Sequence[str] = ()) -> list[Variant]:
    """Variants of the small job."""
    names = list(labels) or ["" if len(jobs) == 1 else f"way {number}" for number in range(len(jobs))]
    made = (check_job({**SMALL, **job}) for job in jobs)
    return [Variant(label=name, job=job) for name, job in zip(names, made, strict=True)]


def page(offered: Sequence[Variant], source: PreviewSource | None = None, *, message: str = "") -> ClientPage:
    """A page, with the stand-in for the viewer's program."""
    return run_to_end(
        make_client_page(
            offered,
            source or preview(),
            ProfileStore(),
            viewer=VIEWER,
            message=message,
            date="2031-04-30",
            surroundings=Surroundings(),
        )
    )


@dataclass
class Found:
    """What a browser would find: elements by tag, visible text, and the viewer's data."""

    tags: list[str]
    attributes: list[tuple[str, str]]
    text: str
    offer: Any


def read(data: bytes) -> Found:
    """Read a page as a browser's parser would."""
    found = Found(tags=[], attributes=[], text="", offer=None)
    raw = [""]

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            found.tags.append(tag)
            found.attributes += [(name, value or "") for name, value in attrs]
            raw.append("offer" if ("id", "offer") in attrs else tag)

        def handle_endtag(self, tag: str) -> None:
            raw.append("")

        def handle_data(self, data: str) -> None:
            if raw[-1] == "offer":
                found.offer = json.loads(data)
            elif raw[-1] not in {"script", "style"}:
                found.text += data

    Reader().feed(data.decode())
    return found


def image_of(address: str) -> Image.Image:
    """The picture behind a data address."""
    kind, _, text = address.partition(",")
    assert kind == "data:image/jpeg;base64"
    return Image.open(io.BytesIO(base64.b64decode(text)))
