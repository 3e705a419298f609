"""The room in which a piece is looked at: wall, light, and what of known size stands beside."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pycore.contract.record import Record


class Wall(StrEnum):
    """The wall's colour."""

    PLASTER = "plaster"
    CHALK = "chalk"
    SAND = "sand"
    SAGE = "sage"
    SLATE = "slate"


class LightFrom(StrEnum):
    """Where the soft light comes from, seen from the front."""

    UPPER_LEFT = "upper-left"
    LEFT = "left"
    ABOVE = "above"
    RIGHT = "right"
    UPPER_RIGHT = "upper-right"


class Beside(StrEnum):
    """What of known size stands beside the piece."""

    NOTHING = "nothing"
    DOOR = "door"
    CHAIR = "chair"
    PERSON = "person"


class Surroundings(Record):
    """The room in which a piece is looked at; it changes nothing of the piece itself."""

    wall: Wall = Wall.PLASTER
    light_from: LightFrom = LightFrom.UPPER_LEFT
    light_kelvin: Annotated[int, Field(ge=2700, le=6500)] = 5000
    """Colour temperature of the light; at 5000 K the face is seen as the proof says."""
    beside: Beside = Beside.NOTHING
    flat_light: bool = False
    """Even light without colour or shade on the piece: a printed patch measures what the proof says."""
