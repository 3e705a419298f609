"""A part of the print file at its own pixels, to see what output sharpening does."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

import numpy as np

from pycore.contract.job import Job
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.render.detail import print_detail
from pycore.render.screen import to_screen
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture


@dataclass(frozen=True, kw_only=True, eq=False)
class ShownDetail:
    """A part of the face, one pixel for each pixel of the print file.

    Attributes
    ----------
    plain, sharpened : (rows, columns, 4) uint8
        srgb_encoded, alpha 255.
    """

    plain: U8
    sharpened: U8


def show_detail(
    job: Job, picture: OpenPicture, *, width_px: int, height_px: int
) -> Generator[Progress, None, ShownDetail]:
    """Show the part of the face that has most edges without and with the job's sharpening.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    width_px, height_px : int
        How large a part, in pixels of the print file.

    Yields
    ------
    Progress

    Returns
    -------
    ShownDetail

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    ProfileError
        The picture's profile cannot be used.
    """
    yield Progress(done=0, label=say("Drawing the sharpening"))
    found = print_detail(picture.preview, job, width_px=width_px, height_px=height_px)
    return ShownDetail(
        plain=_on_screen(found.plain, picture.source), sharpened=_on_screen(found.sharpened, picture.source)
    )


def _on_screen(pixels: U8, source: SourcePicture) -> U8:
    image = to_screen(np.ascontiguousarray(pixels), source)
    return np.asarray(image.convert("RGBA"))
