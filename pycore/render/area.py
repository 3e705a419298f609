"""The job's window on a picture, in the picture's pixels."""

from __future__ import annotations

from pycore.contract.job import Job
from pycore.layout.quarter_turns import turned_size
from pycore.layout.window import CropWindow, picture_window
from pycore.picture.source import SourcePicture
from pycore.render.resample import Area


def window_area(source: SourcePicture, job: Job, window: CropWindow) -> Area:
    """A window in fractions as pixels of the turned picture.

    Where it lies within a thousandth of whole pixels it is taken to be meant so: fractions cannot say a third
    of a picture exactly, and a picture that needs no resampling shall get none.

    Parameters
    ----------
    source : SourcePicture
    job : Job
    window : CropWindow

    Returns
    -------
    Area
    """
    wide, high = turned_size((source.width_px, source.height_px), job.picture.turn)
    return Area(
        left=_near_whole(window.x * wide, wide),
        top=_near_whole(window.y * high, high),
        right=_near_whole((window.x + window.width) * wide, wide),
        bottom=_near_whole((window.y + window.height) * high, high),
    )


def job_area(source: SourcePicture, job: Job) -> Area:
    """What a job takes of a picture, in pixels of the turned picture.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.

    Returns
    -------
    Area

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    use = picture_window(job, width_px=source.width_px, height_px=source.height_px)
    return window_area(source, job, use.window)


def _near_whole(value: float, size: int) -> float:
    nearest = float(round(value))
    return min(max(nearest if abs(value - nearest) < 1e-3 else value, 0.0), float(size))
