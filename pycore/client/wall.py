"""A photographed wall in the client's page: a reduced copy of the photograph, its camera, and the place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pycore.client.packing import jpeg_address
from pycore.contract.record import Pair, Triple
from pycore.wall.light import MOST_FACTOR


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class OfferedWall:
    """What the viewer's program needs to hang the variants on a wall by itself.

    Attributes
    ----------
    photo : bytes
        A JPEG without metadata.
    photo_px : (int, int)
        Its width and height.
    camera : list of list of float
        (3, 4): from (x, y, z, 1) in mm on the wall to the copy's pixels.
    white, fall, middle_mm, light_from_deg
        The room's light, as `RoomLight` has it.
    at_mm : (float, float)
        Where the piece hangs.
    is_free : bool
        The client may move it.
    floor_mm : float or None
        The floor's height on the wall.
    room_light, shadow : float
        How much of the light, how strong a shadow, 0 to 1.
    within_mm : (float, float)
        How sure the first variant's width and height are.
    """

    photo: bytes
    photo_px: tuple[int, int]
    camera: list[list[float]]
    white: Triple
    fall: Pair
    middle_mm: Pair
    light_from_deg: float
    at_mm: Pair
    is_free: bool
    floor_mm: float | None
    room_light: float
    shadow: float
    within_mm: Pair


def wall_data(wall: OfferedWall) -> dict[str, Any]:
    """A wall as the viewer's program reads it.

    Parameters
    ----------
    wall : OfferedWall

    Returns
    -------
    dict
        Plain values; the photograph is a data address.
    """
    return {
        "photo": jpeg_address(wall.photo),
        "px": list(wall.photo_px),
        "camera": wall.camera,
        "light": {
            "white": list(wall.white),
            "fall": list(wall.fall),
            "middleMm": list(wall.middle_mm),
            "mostFactor": MOST_FACTOR,
        },
        "fromDeg": wall.light_from_deg,
        "atMm": list(wall.at_mm),
        "isFree": wall.is_free,
        # Absent: no floor is marked.
        **({} if wall.floor_mm is None else {"floorMm": wall.floor_mm}),
        "roomLight": wall.room_light,
        "shadow": wall.shadow,
        "withinMm": list(wall.within_mm),
    }
