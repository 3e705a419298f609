"""The four sides of a job judged from its picture, in figures and notes."""

from __future__ import annotations

from pycore.contract.job import Fill
from pycore.contract.notes import Note
from pycore.contract.record import Record
from pycore.conventions import Side


class SideFigures(Record):
    """One side, judged from the picture beside its front edge; figures 0 to 1."""

    side: Side
    fill: Fill
    """The fill that it has."""
    busy: float
    """How much fine detail and contrast the strip has."""
    doubled: float
    """How plainly a mirror would show a shape twice."""
    broken: float
    """How plainly a mirror would bend a line that meets the front edge at a slant."""
    cut: float
    """How plainly something stands out where running on would take it off the face."""
    better: Fill | None = None
    """A fill that would do better; absent where its own does well."""
    reason: str = ""
    """Why, with the figures."""


class EdgesReport(Record):
    """The four sides, and what to watch on them."""

    sides: list[SideFigures]
    """Top, right, bottom, left."""
    notes: list[Note]
