"""What is asked of a piece on a photographed wall, and what is found."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pycore.contract.record import Pair, Record, Triple
from pycore.model.report import ModelColours
from pycore.wall.fit_wall import FocalFrom
from pycore.wall.reference import Corners, Reference


class WallOptions(Record):
    """What may be chosen of a piece on a wall."""

    references: Annotated[tuple[Reference, ...], Field(min_length=1, max_length=8)] = (Reference(),)
    at_mm: Pair
    """The middle of the face on the wall, in mm from the first reference's lower-left corner: x right, y up.
    Of a group the middle of all panels."""
    colours: ModelColours = ModelColours.PRINTED
    room_light: Annotated[float, Field(ge=0, le=1)] = 1.0
    """How much of the room's brightness and tint the piece takes on."""
    shadow: Annotated[float, Field(ge=0, le=1)] = 0.7
    """How strong the piece's shadow on the wall is."""
    light_from_deg: Annotated[float, Field(ge=0, le=360)] | None = None
    """Where the light comes from, degrees clockwise from above; without it the wall tells."""


class PlacedWall(WallOptions):
    """The same from a page, where every reference has its corners."""

    references: Annotated[tuple[Reference, ...], Field(min_length=1)]


class WallReport(Record):
    """The wall, the camera, and where the piece is seen."""

    wall_to_photo: tuple[Triple, Triple, Triple]
    """The homography from mm on the wall (x right, y up, from the first reference's lower-left corner) to
    pixels of the full upright photograph, whose upper-left corner is 0, 0."""
    focal_px: float
    focal_from: FocalFrom
    off_normal_deg: float
    """How far the camera's axis is off the wall's normal."""
    photo_px: tuple[int, int]
    """Width and height of the upright photograph."""
    references_mm: tuple[Pair, ...]
    corners_px: tuple[Corners, ...]
    """The references' corners as given, or as found: upper left, upper right, lower right, lower left."""
    face_px: Corners
    """The corners of the front of the piece, which stands off the wall by the bar depth, in the same order;
    of a group those of the whole group's front."""
    panels_px: tuple[Corners, ...]
    """The corners of each panel's front."""
    uncertainty_percent: float
    """Of the width: within so much it is right 95 times of 100, when each corner is off by a pixel (standard
    deviation, each way)."""
    width_within_mm: float
    height_within_mm: float
    light_from_deg: float
    """Where the shadow takes the light to come from, degrees clockwise from above."""


class StillReport(WallReport):
    """The same, with the written still as it was opened again."""

    file: str
    bytes: int
    still_px: tuple[int, int]
