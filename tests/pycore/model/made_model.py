"""Models of small jobs, made as the command line makes them."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.model.make import Model, make_model
from pycore.model.report import ModelColours
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource


def small_job(**more: Any) -> Job:
    """A small canvas; `more` as in a job file."""
    tree: dict[str, Any] = {"face": {"width_mm": 160, "height_mm": 140}, "bars": {"depth_mm": 20}}
    return check_job(tree | more)


def ramp(*, profile: bytes | None = None) -> SourcePicture:
    """A picture of smooth colours, 320 x 240 pixels, filed as a PNG."""
    rows, columns = np.mgrid[0:240, 0:320]
    pixels = np.stack([columns * 255 // 319, rows * 255 // 239, 255 - columns * 255 // 319], axis=-1)
    out = io.BytesIO()
    Image.fromarray(pixels.astype(np.uint8)).save(out, "PNG", icc_profile=profile)
    return read_picture(out.getvalue(), file="ramp.png")


def made(
    job: Job,
    source: SourcePicture | None = None,
    *,
    colours: ModelColours = ModelColours.PRINTED,
    texture_px: int = 60_000,
) -> Model:
    """The model of a job."""
    preview = PreviewSource(source or ramp())
    return run_to_end(make_model(job, preview, ProfileStore(), colours=colours, texture_px=texture_px))
