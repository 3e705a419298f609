"""What is timed, in whichever interpreter runs it: the session, and numpy's own padding beside it."""

from __future__ import annotations

import io
import json
import math
import statistics
import time
from collections.abc import Callable
from typing import Any

import numpy as np
from PIL import Image

from pycore.bridge.session import Session
from pycore.progress import run_to_end

#: What is measured: a photograph of 24 megapixels, a preview of 2. A `share` of less than 1 takes that share
#: of the pixels, and each measurement once, to see that all of it runs.
PICTURE_PX = (6000, 4000)
PREVIEW_PX = 2_000_000

A4 = {"face": {"width_mm": 297, "height_mm": 210}, "bars": {"depth_mm": 20}}

#: A face of 914 x 610 mm with 38 mm bars at 300 ppi: 12294 x 8704 = 107 megapixels.
LARGE = {"face": {"width_mm": 914, "height_mm": 610}, "bars": {"depth_mm": 38}}
LARGE_PPI = 300


def times(usual: int, share: float) -> int:
    """How often something is measured."""
    return usual if share == 1 else 1


def answer(session: Session, method: str, params: dict[str, Any], buffer: bytes | None = None) -> Any:
    """Drive a call to its end."""
    return run_to_end(session.call(method, params, buffer))


def photograph(data: bytes, share: float) -> bytes:
    """A larger JPEG of a photograph, by resampling."""
    out = io.BytesIO()
    width, height = (round(side * math.sqrt(share)) for side in PICTURE_PX)
    with Image.open(io.BytesIO(data)) as image:
        image.resize((width, height), Image.Resampling.BICUBIC).save(out, "JPEG", quality=92)
    return out.getvalue()


def time_show(data: bytes, share: float = 1.0) -> str:
    """Worker times of changes at 2 megapixels, in ms, medians of nine; as JSON.

    Parameters
    ----------
    data : bytes
        A photograph; it is enlarged to 24 megapixels first.
    share : float
        Of the pixels, above 0 to 1.
    """
    session = Session()
    answer(session, "open", {"file": "large.jpg"}, photograph(data, share))
    preview_px = round(PREVIEW_PX * share)
    show(session, {}, preview_px)

    def timed(change: Callable[[int], dict[str, Any]]) -> float:
        """The median of nine changes, each different from the one before."""
        show(session, change(0), preview_px)
        return statistics.median(
            show(session, change(k), preview_px)[0] for k in range(1, 1 + times(9, share))
        )

    found = {
        "depth": timed(lambda k: {"bars": {"depth_mm": 20 + k % 5}}),
        "fill": timed(lambda k: {"sides": {"fill": ("mirror", "drawn-out", "plain", "fade")[k % 4]}}),
        "depth, lines continued": timed(
            lambda k: {"bars": {"depth_mm": 20 + k % 5}, "sides": {"fill": "continued"}}
        ),
        "soft mirror": timed(lambda k: {"sides": {"blur_mm": 4 + k % 3}}),
        "crop": timed(
            lambda k: {"picture": {"crop": {"x": 0.01 * (k % 9), "y": 0.0, "width": 0.9, "height": 0.9}}},
        ),
        "run-on": timed(lambda k: {"sides": {"fill": "run-on"}, "bars": {"depth_mm": 20 + k % 5}}),
    }
    return json.dumps(found | against_numpy(preview_px, times(15, share)))


def show(session: Session, change: dict[str, Any], preview_px: int) -> tuple[float, Any]:
    """One show; returns its milliseconds and the answer."""
    start = time.perf_counter()
    found = answer(session, "show", {"job": A4 | change, "preview_px": preview_px})
    return (time.perf_counter() - start) * 1000, found


def against_numpy(preview_px: int, runs: int) -> dict[str, float]:
    """Mirror alone, from a face that is there, against `numpy.pad` of the same face and one copy."""
    from pycore.contract.check import check_job
    from pycore.layout.grid import pixel_grid, preview_ppi
    from pycore.picture.read import read_picture
    from pycore.render.preview import PreviewSource

    job = check_job(A4)
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=preview_px))
    out = io.BytesIO()
    Image.new("RGB", (1200, 900), (90, 120, 60)).save(out, "PNG")
    preview = PreviewSource(read_picture(out.getvalue(), file="flat.png"))
    ours, theirs = [], []
    face = np.zeros((grid.rows[3] - grid.rows[2], grid.columns[3] - grid.columns[2], 4), np.uint8)
    around = (
        (grid.rows[2] - grid.rows[1], grid.rows[4] - grid.rows[3]),
        (grid.columns[2] - grid.columns[1], grid.columns[4] - grid.columns[3]),
        (0, 0),
    )
    for _ in range(runs):
        start = time.perf_counter()
        run_to_end(preview.canvas(job, grid))
        ours.append(time.perf_counter() - start)
        start = time.perf_counter()
        np.pad(face, around, mode="symmetric").copy()
        theirs.append(time.perf_counter() - start)
    mine, pad = statistics.median(ours) * 1000, statistics.median(theirs) * 1000
    return {"mirror": mine, "numpy.pad and a copy": pad, "ratio": mine / pad}


def time_colour(data: bytes, share: float = 1.0) -> str:
    """Milliseconds of the calls about colour on a 24-megapixel picture, medians of five; as JSON.

    `link` is the table alone, `apply` its use on 2 megapixels of noise.

    Parameters
    ----------
    data : bytes
        A photograph; it is enlarged to 24 megapixels first.
    share : float
        Of the pixels, above 0 to 1.
    """
    from pycore.colour.icc.endpoints import Standard
    from pycore.colour.link.device_link import DeviceLink, make_link
    from pycore.colour.link.viewing import Viewing
    from pycore.contract.job import Intent
    from pycore.proofing.canvas_profile import illustrative_canvas

    session = Session()
    answer(session, "open", {"file": "large.jpg"}, photograph(data, share))
    show(session, {}, round(PREVIEW_PX * share))
    canvas = illustrative_canvas().gamut
    wide, high = (round(side * math.sqrt(share)) for side in (2000, 1000))
    noise = np.asarray(Image.effect_noise((wide, high), 80).convert("RGB"))

    def link() -> DeviceLink:
        return make_link(
            Standard.SRGB,
            canvas,
            Standard.SRGB,
            intent=Intent.RELATIVE,
            black_point_compensation=True,
            viewing=Viewing.BLACK,
        )

    table = link()
    proof = {"viewing": "black", "screen": "srgb", "fine": False}
    calls: dict[str, Callable[[int], object]] = {
        "link": lambda k: link(),
        "apply": lambda k: table.shown(noise),
        "look": lambda k: answer(session, "look", {"job": A4, **proof}),
        "look, brought in": lambda k: answer(session, "look", {"job": brought(k), **proof}),
        "clip": lambda k: answer(session, "clip", {"job": A4}),
        "intents": lambda k: answer(session, "intents", {"job": A4}),
        "solid": lambda k: answer(session, "solid", {"job": A4}),
    }
    return json.dumps({name: median_ms(call, times(5, share)) for name, call in calls.items()})


def time_choices(data: bytes, share: float = 1.0) -> str:
    """Milliseconds of the pictures to choose by on a 24-megapixel picture, medians of five; as JSON.

    Each time at another bar depth, as after a change; the longest step is what a change may have to wait for.

    Parameters
    ----------
    data : bytes
        A photograph; it is enlarged to 24 megapixels first.
    share : float
        Of the pixels.
    """
    session = Session()
    answer(session, "open", {"file": "large.jpg"}, photograph(data, share))
    show(session, {}, round(PREVIEW_PX * share))
    quick = ["run-on", "mirror", "drawn-out", "plain", "fade"]
    kinds: dict[str, dict[str, Any]] = {
        "five fills": {"kind": "fills", "fills": quick},
        "continued": {"kind": "fills", "fills": ["continued"]},
        "all six fills": {"kind": "fills", "fills": [*quick, "continued"]},
        "finishes": {"kind": "finishes", "fills": []},
        "intents": {"kind": "intents", "fills": []},
    }
    found: dict[str, float] = {}
    for name, asked in kinds.items():
        count = times(5, share)
        jobs = [A4 | {"bars": {"depth_mm": 20 + k}} for k in range(count + (count > 1))]
        runs = [steps_ms(session, {"job": job, **asked}) for job in jobs][-count:]
        found[name] = statistics.median(total for total, _ in runs)
        found[f"{name}, longest step"] = statistics.median(longest for _, longest in runs)
    return json.dumps(found)


def steps_ms(session: Session, params: dict[str, Any]) -> tuple[float, float]:
    """All of a call of `choices`, and its longest step, in milliseconds."""
    steps = session.call("choices", params, None)
    begun = last = time.perf_counter()
    longest = 0.0
    going = True
    while going:
        going = next(steps, None) is not None
        now = time.perf_counter()
        longest, last = max(longest, now - last), now
    return (last - begun) * 1000, longest * 1000


def brought(k: int) -> dict[str, Any]:
    """A job that brings its colours in."""
    return A4 | {"colour": {"bring_in": 0.5 + 0.05 * k}}


def median_ms(call: Callable[[int], object], times: int) -> float:
    """The median of some runs, after one that is not counted; of one run, that."""
    if times > 1:
        call(0)
    found = []
    for k in range(times):
        start = time.perf_counter()
        call(k)
        found.append((time.perf_counter() - start) * 1000)
    return statistics.median(found)


def time_print(data: bytes, kind: str, share: float = 1.0) -> str:
    """Seconds to open 24 megapixels and to write the large print file; as JSON."""
    session = Session()
    large = photograph(data, share)
    job = LARGE | {"print": {"ppi": LARGE_PPI * math.sqrt(share)}}
    start = time.perf_counter()
    answer(session, "open", {"file": "large.jpg"}, large)
    opened = time.perf_counter()
    found = answer(session, "print", {"job": job, "kind": kind, "date": "2031-04-30"})
    written = time.perf_counter()
    report = found.reply.report
    return json.dumps(
        {
            "open_s": opened - start,
            "print_s": written - opened,
            "megapixels": report.width_px * report.height_px / 1e6,
            "bytes": report.bytes,
        }
    )
