"""What the core shows of the demo, for the page to draw before its own core has started.

It runs inside Pyodide while the site is built, after the memory was kept.
"""

from __future__ import annotations

import io
import json
import struct
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image
from warm_up import answered

#: Of the flat canvas as a JPEG; the core's own pixels take its place when they come.
QUALITY = 88


def write_demo_view() -> None:
    """Write `demo_view.bin` from `demo_job.json` and `picture`, all in the working folder."""
    job_text = Path("demo_job.json").read_text(encoding="utf-8")
    Path("demo_view.bin").write_bytes(demo_view(job_text, Path("picture").read_bytes()))


def demo_view(job_text: str, picture: bytes) -> bytes:
    """The demo folded, in one file.

    Parameters
    ----------
    job_text : str
        The demo's job file.
    picture : bytes
        Its picture's file.

    Returns
    -------
    bytes
        A length in 32 bits, little-endian; the reply of `show` as JSON; its buffers but for the flat canvas,
        in their order; and the flat canvas as a JPEG file.

    Raises
    ------
    RuntimeError
        The flat canvas is not the last buffer, or no picture of the screen's colours.
    """
    from pycore.bridge.session import Session

    session = Session()
    job = answered(session, "check", {"text": job_text})[0]["job"]
    answered(session, "open", {"file": job["picture"]["file"]}, picture)
    shown, buffers = answered(session, "show", {"job": job, "fresh": True})
    pixels = shown["texture"]["pixels"]
    *others, flat = buffers
    if pixels["place"] != len(others) or pixels["state"] != "srgb_encoded":
        raise RuntimeError(f"the page could not read this flat canvas: {pixels}")
    # How long it took here is nothing to the page, and would differ from build to build.
    shown["worker_ms"] = 0
    listed = json.dumps(shown, separators=(",", ":")).encode()
    raw = [np.ascontiguousarray(one).tobytes() for one in others]
    return b"".join([struct.pack("<I", len(listed)), listed, *raw, _jpeg(flat)])


def _jpeg(pixels: Any) -> bytes:
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(pixels[..., :3])).save(out, "JPEG", quality=QUALITY)
    return out.getvalue()
