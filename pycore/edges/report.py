"""The four sides of a job judged from its picture, in figures and notes."""

from __future__ import annotations

from pycore.contract.job import Crop, Fill
from pycore.contract.notes import Note
from pycore.contract.record import Record
from pycore.conventions import Side


class CropMove(Record):
    """A move of the crop after which an edge cuts no distinct thing."""

    right_mm: float
    """To the right on the face; negative to the left."""
    down_mm: float
    """Downwards on the face; negative upwards."""
    crop: Crop
    """The picture's crop after it."""


class SideReport(Record):
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
    """How plainly something distinct would go round the edge, or be cut by it, if the picture ran on."""
    chevrons: float
    """How plainly a mirror would turn slanted lines back."""
    repeated: float
    """How plainly a mirror would show again what stands further in, over plain ground."""
    smeared: float
    """How much of its detail lines continued would draw out into streaks."""
    bent: float
    """How much of the front edge lines continued would bend lines along."""
    severed: float
    """How much of the front edge cuts distinct things, which lines continued would show as stubs."""
    streaked: float
    """How plainly its edge drawn out would show streaks."""
    mirrored: bool = False
    """Whether lines continued are a mirror here, since they would look no better."""
    better: Fill | None = None
    """A fill that would do better; absent where its own does well."""
    fault: str = ""
    """The figure that its own fill shows; empty where nothing is to be seen."""
    reason: str = ""
    """Why, with the figures."""
    move: CropMove | None = None
    """A move of the crop that does better; absent where nothing is cut, or no small move frees the edge."""


class EdgesReport(Record):
    """The four sides, and what to watch on them."""

    sides: list[SideReport]
    """Top, right, bottom, left."""
    notes: list[Note]
