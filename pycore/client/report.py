"""What a client page is asked for, and what is found when a written one is read again."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pycore.client.surroundings import Surroundings
from pycore.contract.record import Record


class ClientOptions(Record):
    """What may be chosen of a client page."""

    surroundings: Surroundings = Surroundings()
    message: Annotated[str, Field(max_length=2000)] = ""
    """A few words to the client."""
    date: str
    """Of today, YYYY-MM-DD."""


class ClientReport(Record):
    """What was re-read from a written client page."""

    file: str
    bytes: int
    variants: int
