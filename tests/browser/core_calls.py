"""The core's worker without the page: every method is called, and what it answers is taken as digests."""

from __future__ import annotations

import base64
import io
import json
from pathlib import Path
from typing import Any, Final

import numpy as np
from PIL import Image

from pycore.bridge.messages import Method
from pycore.bridge.session import Session
from pycore.progress import run_to_end

ROOT: Final = Path(__file__).resolve().parents[2]
PROFILE: Final = ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"

#: A small face that is printed in a moment.
JOB: Final[dict[str, Any]] = {
    "face": {"width_mm": 120, "height_mm": 90},
    "bars": {"depth_mm": 20},
    "print": {"ppi": 72},
}
DATE: Final = "2031-04-30"

#: Somebody's own sizes, as the demo's shop has them.
SHOP: Final[dict[str, Any]] = json.loads((ROOT / "demo_data" / "shop.json").read_text(encoding="utf-8"))

#: A photographed wall, the part of it around the sheet of paper, by how much that is made smaller here, and a
#: piece beside the sheet.
ROOM: Final = ROOT / "demo_data" / "room.jpg"
_PART: Final = (290, 270, 480, 500)
_SMALLER: Final = 2
_CORNERS: Final = [[325, 304], [420, 302], [420, 451], [326, 449]]
HUNG: Final[dict[str, Any]] = {
    "references": [
        {
            "size": "a4",
            "corners": [[(x - _PART[0]) / _SMALLER, (y - _PART[1]) / _SMALLER] for x, y in _CORNERS],
        }
    ],
    "at_mm": [250, 100],
}

#: Runs in a page of the site: starts the worker, makes the calls one after another, and returns of each its
#: method, the answer's kind and text, and the SHA-256 of each buffer.
ANSWERS: Final = """
const [program, plain, calls] = given;
// The site's policy lets no program be started by an address that is plain text.
window.policy ??= trustedTypes.createPolicy("tuckfold", { createScriptURL: (address) => address });
const address = policy.createScriptURL(new URL(program, document.baseURI).href);
const worker = new Worker(address, { type: "module" });
const heard = [];
let wake = () => {};
worker.onmessage = ({ data }) => { heard.push(data); wake(); };
worker.onerror = (event) => { heard.push({ kind: "failed", message: event.message }); wake(); };
const next = async (...kinds) => {
  for (;;) {
    while (heard.length > 0) {
      const data = heard.shift();
      if (kinds.includes(data.kind)) return data;
      if (["failed", "crashed"].includes(data.kind)) throw new Error(data.message);
    }
    await new Promise((resolve) => { wake = resolve; });
  }
};
const hash = async (buffer) => [...new Uint8Array(await crypto.subtle.digest("SHA-256", buffer))].join(" ");
const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)).buffer;
const python = new URL("py/", document.baseURI).href;
worker.postMessage({ kind: "start", python, lock: `calls-${Math.random()}`, plain });
await next("ready");
const answers = [];
for (const [id, { method, params, buffer }] of calls.entries()) {
  const bytes = buffer === undefined ? {} : { buffer: bytesOf(buffer) };
  worker.postMessage({ kind: "call", id, method, params: JSON.stringify(params), ...bytes });
  const { kind, text, buffers = [] } = await next("result", "error");
  answers.push([method, kind, text, await Promise.all(buffers.map(hash))]);
}
worker.terminate();
return answers;
"""


def every_call() -> list[dict[str, Any]]:
    """Calls of every method, and of those that load what no start needs."""
    frames = np.arange(3 * 16 * 20 * 3, dtype=np.uint8).tobytes()
    turntable = {"name": "a", "kind": "webp", "width_px": 20, "height_px": 16, "frames": 3, "frame_ms": 50}
    variants = [{"label": f"{depth}", "job": {**JOB, "bars": {"depth_mm": depth}}} for depth in (18, 30)]
    proof = {"viewing": "black", "screen": "srgb"}
    job = {"job": JOB}
    calls = [
        call("hello", {}),
        call("check", {"text": json.dumps(JOB)}),
        call("check", {"text": json.dumps({**JOB, "bars": {"depth_mm": 3}})}),
        call("open", {"file": "small.png"}, picture("PNG")),
        call("show", {**job, "preview_px": 200_000, "fresh": True}),
        call("propose_face", {**job, "unit": "mm"}),
        call("profile", {"file": "own.icc"}, PROFILE.read_bytes()),
        *(
            call("look", {**job, **proof, "fine": True}),
            call("clip", job),
            call("intents", job),
            call("solid", job),
        ),
        call("compare", {"variants": variants, "preview_px": 50_000, **proof}),
        call("edges", job),
        call("choices", {**job, "kind": "fills", "fills": ["mirror", "continued"]}),
        call("choices", {**job, "kind": "finishes", "fills": []}),
        call("choices", {**job, "kind": "intents", "fills": []}),
        call("detail", {**job, "width_px": 60, "height_px": 40}),
        call("model", {**job, "texture_px": 20_000}),
        call("turntable", turntable, frames),
        call("client", {"variants": [{"label": "", "job": JOB}], "date": DATE}, b'"use strict";\n'),
        call("save_bundle", {**job, "files": []}),
        call("open_bundle", {}, bundle()),
        call("strip", {**job, "date": DATE}),
        call("keep_preset", {**job, "presets": SHOP, "kind": "sheet", "name": "own"}),
        call("take_preset", {**job, "presets": SHOP, "kind": "bars", "name": "Pine 38"}),
        call("open_presets", {"text": json.dumps(SHOP), "presets": {"version": 1}}),
        call("open_wall", {"file": "room.jpg"}, small_room()),
        call("find_reference", {"reference": {"size": "a4"}}),
        call("measure_wall", {**job, **HUNG}),
        call("wall_canvas", job),
        call("hang", {**job, **HUNG}),
        # Texts that are none of these.
        call("measure_strip", {"expected": "none"}, b"none"),
        call("answer", {**job, "text": "none"}),
        # Packages that are fetched when they are first needed.
        call("plan", {**job, "copies": 3, "options": {}}),
        call("ticket", {**job, "paper": "letter", "date": DATE}),
        *(call("print", {**job, "kind": kind, "date": DATE}) for kind in ("tiff", "png", "jpeg", "pdf")),
        # 16 bits a channel: this reader is a package of its own, which is first imported here.
        call("open", {"file": "deep.tif"}, deep_picture()),
        call("print", {"job": {**JOB, "print": {"ppi": 72, "bits": 16}}, "kind": "tiff", "date": DATE}),
        call("open", {"file": "small.webp"}, picture("WEBP")),
        call("close", {}),
    ]
    assert {one["method"] for one in calls} == {method.value for method in Method}
    return calls


def call(method: str, params: dict[str, Any], buffer: bytes | None = None) -> dict[str, Any]:
    """One call, its buffer as base64."""
    bytes_too = {} if buffer is None else {"buffer": base64.b64encode(buffer).decode()}
    return {"method": method, "params": params, **bytes_too}


def bundle() -> bytes:
    """A bundle of the job alone."""
    answer: Any = run_to_end(Session().call("save_bundle", {"job": JOB, "files": []}))
    return b"".join(answer.buffers[part.place].tobytes() for part in answer.reply.parts)


def small_room() -> bytes:
    """Part of the photographed wall with fewer pixels, as a JPEG."""
    out = io.BytesIO()
    with Image.open(ROOM) as image:
        image.crop(_PART).reduce(_SMALLER).save(out, "JPEG", quality=95)
    return out.getvalue()


def picture(kind: str) -> bytes:
    """A picture with slopes and grain, in a format without loss."""
    pixels = _slopes(255) + np.random.default_rng(5).integers(0, 20, (120, 160, 3))
    out = io.BytesIO()
    Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8)).save(out, kind, lossless=True)
    return out.getvalue()


def deep_picture() -> bytes:
    """A TIFF file of 16 bits a channel."""
    import tifffile

    out = io.BytesIO()
    tifffile.imwrite(out, _slopes(65535).astype(np.uint16), photometric="rgb")
    return out.getvalue()


def _slopes(most: int) -> np.ndarray[Any, np.dtype[np.float64]]:
    across, down = np.meshgrid(np.linspace(0, most, 160), np.linspace(0, most, 120))
    return np.stack([across, down, most - across], axis=-1)
