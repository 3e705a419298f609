"""The client's wall for the client's page, from its open photograph."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.client.report import ClientWall
from pycore.client.wall import OfferedWall
from pycore.contract.job import Job
from pycore.wall.measure import measure
from pycore.wall.photograph import WallPhoto, copy_size, stripped_copy

#: Pixels of the longer side of the copy.
_LONGEST_PX: Final = 1600


def offered_wall(job: Job, photo: WallPhoto, options: ClientWall) -> OfferedWall:
    """Measure a wall and make the copy of its photograph that the client gets.

    Parameters
    ----------
    job : Job
        The first variant's.
    photo : WallPhoto
    options : ClientWall

    Returns
    -------
    OfferedWall

    Raises
    ------
    FieldError
        A reference or its corners are wrong, or the piece is not seen.
    """
    wall = measure(job, photo, options)
    size = copy_size(photo, longest_px=_LONGEST_PX)
    scale = np.diag([size[0] / photo.size_px[0], size[1] / photo.size_px[1], 1.0])
    red, green, blue = (float(one) for one in wall.light.white)
    return OfferedWall(
        photo=stripped_copy(photo, longest_px=_LONGEST_PX),
        photo_px=size,
        camera=(scale @ wall.fit.camera).tolist(),
        white=(red, green, blue),
        fall=(float(wall.light.fall[0]), float(wall.light.fall[1])),
        middle_mm=wall.light.middle_mm,
        light_from_deg=wall.report.light_from_deg,
        at_mm=options.at_mm,
        is_free=options.is_free,
        floor_mm=options.floor_mm,
        room_light=options.room_light,
        shadow=options.shadow,
        within_mm=(wall.report.width_within_mm, wall.report.height_within_mm),
    )
