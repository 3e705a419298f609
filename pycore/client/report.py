"""What a client page is asked for, and what is found when a written one is read again."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pycore.client.surroundings import Surroundings
from pycore.contract.record import Record
from pycore.wall.report import PlacedWall


class ClientWall(PlacedWall):
    """The open photograph of the client's wall, a reduced copy of which goes into the page."""

    is_free: bool = True
    """The client may move the piece there."""
    floor_mm: float | None = None
    """The floor's height on the wall, mm from the first reference's lower-left corner; usually negative."""


class ClientOptions(Record):
    """What may be chosen of a client page."""

    surroundings: Surroundings = Surroundings()
    message: Annotated[str, Field(max_length=2000)] = ""
    """A few words to the client."""
    date: str
    """Of today, YYYY-MM-DD."""
    wall: ClientWall | None = None
    """Absent: no photograph goes into the page."""


class ClientReport(Record):
    """What was re-read from a written client page."""

    file: str
    bytes: int
    variants: int
