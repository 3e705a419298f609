"""The base of plain results that may be kept, compared and sent: closed and frozen."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

Pair = tuple[float, float]
Triple = tuple[float, float, float]


class Record(BaseModel):
    """A closed, frozen model. Its validator is built when the first one is made: few starts need many."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
