"""Parts of Tuckfold's work timed beside numpy, OpenCV, Pillow and LittleCMS; `bench.py` prints the table."""

from __future__ import annotations

import io
import math
import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import cv2
import numpy as np
from PIL import Image, ImageCms

from pycore.bridge.session import Session
from pycore.colour.icc.endpoints import Standard
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.colour.link.device_link import DeviceLink, make_link
from pycore.colour.link.viewing import Viewing
from pycore.contract.check import check_job
from pycore.contract.job import Intent
from pycore.layout.grid import pixel_grid, preview_ppi
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing.canvas_profile import illustrative_canvas
from pycore.render.preview import PreviewSource

#: Of a photograph and of a preview.
PICTURE_PX, PREVIEW_PX = (6000, 4000), 2_000_000
A4 = {"face": {"width_mm": 297, "height_mm": 210}, "bars": {"depth_mm": 20}}

Compared = tuple[str, float, float, str]
Work = Callable[[], object]


def compared(*, runs: int, share: float) -> Iterator[Compared]:
    """Time pairs of works in turns.

    Parameters
    ----------
    runs : int
        Of each.
    share : float
        Of the pixels, above 0 to 1.

    Yields
    ------
    (str, float, float, str)
        What is done, our milliseconds, the other's, and what that is; medians.
    """
    for what, ours, theirs, beside in (*_fills(share), *_previews(share), *_colours(share)):
        mine, other = in_turns(ours, theirs, runs=runs)
        yield what, mine, other, beside


def in_turns(ours: Work, theirs: Work, *, runs: int) -> tuple[float, float]:
    """The medians of two works in milliseconds, which take turns after one run each that is not counted."""
    taken: tuple[list[float], list[float]] = ([], [])
    for run in range(runs + 1):
        for work, times in zip((ours, theirs), taken, strict=True):
            begun = time.perf_counter()
            work()
            if run:
                times.append((time.perf_counter() - begun) * 1000)
    return statistics.median(taken[0]), statistics.median(taken[1])


def _fills(share: float) -> Iterator[tuple[str, Work, Work, str]]:
    """Sides from a face that is there, beside the nearest work that a library has."""
    picture = io.BytesIO()
    Image.effect_noise((1200, 900), 60).convert("RGB").save(picture, "PNG")
    preview = PreviewSource(read_picture(picture.getvalue(), file="noise.png"))
    grid = pixel_grid(check_job(A4), ppi=preview_ppi(check_job(A4), preview_px=round(PREVIEW_PX * share)))
    above, below = (int(grid.rows[k + 1] - grid.rows[k]) for k in (1, 3))
    left, right = (int(grid.columns[k + 1] - grid.columns[k]) for k in (1, 3))
    shape = (grid.rows[3] - grid.rows[2], grid.columns[3] - grid.columns[2], 3)
    face = np.random.default_rng(1).integers(0, 256, shape, dtype=np.uint8)

    def padded(mode: Any) -> Work:
        return lambda: np.pad(face, ((above, below), (left, right), (0, 0)), mode=mode).copy()

    def bordered(kind: int) -> Work:
        return lambda: cv2.copyMakeBorder(face, above, below, left, right, kind)

    for fill, mode, kind in (
        ("mirror", "symmetric", cv2.BORDER_REFLECT),
        ("drawn-out", "edge", cv2.BORDER_REPLICATE),
        ("plain", "constant", cv2.BORDER_CONSTANT),
        ("fade", "symmetric", cv2.BORDER_REFLECT),
        ("continued", "symmetric", cv2.BORDER_REFLECT),
    ):
        job = check_job({**A4, "sides": {"fill": fill}})

        def filled(job: Any = job) -> object:
            return run_to_end(preview.canvas(job, grid))

        yield f"fill: {fill}", filled, padded(mode), f"numpy.pad, {mode}"
        yield f"fill: {fill}", filled, bordered(kind), "OpenCV, copyMakeBorder"


def _previews(share: float) -> Iterator[tuple[str, Work, Work, str]]:
    """A photograph opened and shown, beside Pillow, which decodes and reduces it."""
    import sklearn

    china = Path(sklearn.__file__).parent / "datasets" / "images" / "china.jpg"
    file = io.BytesIO()
    with Image.open(china) as image:
        size = (round(PICTURE_PX[0] * math.sqrt(share)), round(PICTURE_PX[1] * math.sqrt(share)))
        image.resize(size, Image.Resampling.BICUBIC).save(file, "JPEG", quality=92)
    data, preview_px = file.getvalue(), round(PREVIEW_PX * share)

    def ours() -> object:
        session = Session()
        run_to_end(session.call("open", {"file": "large.jpg"}, data))
        return run_to_end(session.call("show", {"job": A4, "preview_px": preview_px}, None))

    def theirs() -> object:
        with Image.open(io.BytesIO(data)) as image:
            reduced = math.sqrt(preview_px / (image.width * image.height))
            return image.resize(
                (round(image.width * reduced), round(image.height * reduced)), Image.Resampling.BOX
            )

    yield "first preview of a photograph", ours, theirs, "Pillow: decode and reduce"


def _colours(share: float) -> Iterator[tuple[str, Work, Work, str]]:
    """The proof on the screen with its clip map, beside LittleCMS's proof with its gamut check."""
    canvas, intent = illustrative_canvas().gamut, Intent.RELATIVE
    noise = Image.effect_noise((round(2000 * math.sqrt(share)), round(1000 * math.sqrt(share))), 80).convert(
        "RGB"
    )
    pixels = np.asarray(noise)

    def link() -> DeviceLink:
        return make_link(
            Standard.SRGB,
            canvas,
            Standard.SRGB,
            intent=intent,
            black_point_compensation=True,
            viewing=Viewing.BLACK,
        )

    screen = ImageCms.createProfile("sRGB")
    printer = ImageCms.ImageCmsProfile(io.BytesIO(illustrative_profile()))
    relative = ImageCms.Intent.RELATIVE_COLORIMETRIC

    def proof(flags: ImageCms.Flags) -> ImageCms.ImageCmsTransform:
        return ImageCms.buildProofTransform(screen, screen, printer, "RGB", "RGB", relative, relative, flags)

    soft = ImageCms.Flags.SOFTPROOFING | ImageCms.Flags.BLACKPOINTCOMPENSATION
    made, checked = proof(soft), proof(soft | ImageCms.Flags.GAMUTCHECK)
    table = link()
    yield "link, made", link, lambda: proof(soft), "LittleCMS: a proof's transform"
    yield (
        "colours of 2 megapixels and their clip map",
        lambda: table.shown(pixels),
        lambda: (ImageCms.applyTransform(noise, made), ImageCms.applyTransform(noise, checked)),
        "LittleCMS: proof and gamut check",
    )
