"""The largest face of the picture's own shape that the loaded sheet or roll holds.

One side of the face is a round length: whole centimetres, or whole inches. The other follows the picture's
shape so that nothing is cropped away but what rounding takes.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from pycore.contract.job import LONGEST_FACE_MM, SHORTEST_FACE_MM, Job
from pycore.contract.record import Pair, Record
from pycore.conventions import EQUAL_MM, MM_PER_INCH, round_half_up
from pycore.layout.flat import flat_sizes
from pycore.layout.quarter_turns import turned_size
from pycore.layout.sheet import sheet_axes
from pycore.layout.window import picture_spans

#: Of a face on a roll, which has no length of its own: common practice (from memory), longer bars are rare.
ROLL_LONGEST_MM: Final = 2000.0


class LengthUnit(StrEnum):
    """In which unit lengths are round."""

    MM = "mm"
    INCH = "inch"


#: One side is a whole number of these: 1 cm, 1 inch.
ROUND_MM: Final = {LengthUnit.MM: 10.0, LengthUnit.INCH: MM_PER_INCH}
#: The other side is a whole number of these: 1 mm, a twentieth of an inch. So the picture loses no more than
#: half a step of it, 0.5 or 0.64 mm of the face.
FOLLOWING_MM: Final = {LengthUnit.MM: 1.0, LengthUnit.INCH: MM_PER_INCH / 20}

#: What rounding one side may take of the picture; more is a crop.
_MOST_ROUNDED: Final = 0.01


class LargestFace(Record):
    """A face that the sheet or roll holds."""

    width_mm: float
    height_mm: float
    cropped_share: float
    """Of the picture: what this face cannot show, 0 to 1. Under a percent unless the shape is too slender."""
    crops: bool
    """It is more than rounding takes: the face has not the picture's shape."""
    turned: bool
    """The canvas lies on the sheet turned by a quarter."""


@dataclass(frozen=True, kw_only=True)
class _Shape:
    """How the two sides of the face follow each other, as `along * side + extra` over the picture's pixels.

    Attributes
    ----------
    panels, extra_mm, picture_px : tuple of float
        Across and down: how many faces the picture spans, what it spans beside them, its size.
    """

    panels: Pair
    extra_mm: Pair
    picture_px: Pair

    def other_mm(self, length_mm: float, axis: int) -> float:
        """The side on the other axis with which nothing of the picture is lost."""
        other = 1 - axis
        span = (self.panels[axis] * length_mm + self.extra_mm[axis]) / self.picture_px[axis]
        return (span * self.picture_px[other] - self.extra_mm[other]) / self.panels[other]

    def cropped_share(self, face_mm: Pair) -> float:
        """What a face of another shape loses of the picture."""
        across, down = (
            (self.panels[axis] * face_mm[axis] + self.extra_mm[axis]) / self.picture_px[axis]
            for axis in (0, 1)
        )
        return 1 - min(across, down) / max(across, down)


def largest_face(
    job: Job,
    *,
    picture_px: tuple[int, int] | None,
    unit: LengthUnit,
    smallest_mm: Pair = (0.0, 0.0),
    spare_mm: float = 0.0,
) -> LargestFace | None:
    """Find the largest round face of the picture's own shape on the job's sheet or roll.

    Bars, turn-over, sides, margins, stretch and group stay as the job has them; its face and its crop do not
    matter. A canvas may lie either way on the sheet. Where the shape is so slender that its shorter side is
    less than a job may have or its corners need, that side is as short as it may be, and the face crops the
    picture as little as it can.

    Parameters
    ----------
    job : Job
        A checked job.
    picture_px : (width, height) or None
        Of the upright picture, before the job's turn. None: the shape of the job's face is kept.
    unit : LengthUnit
        Whether one side is whole centimetres or whole inches.
    smallest_mm : (width, height), optional
        The smallest face whose corners can be folded.
    spare_mm : float, optional
        What the canvas must leave of the sheet's width, and of its height, to be fed askew; mm, at least 0.

    Returns
    -------
    LargestFace or None
        None where no such face fits. Of two equally large faces the wider one.

    References
    ----------
    Derived: with panels n, spans b beside the faces and picture p, the face W x H loses nothing where
    (n_x W + b_x) / p_x = (n_y H + b_y) / p_y, so each side is a rising linear function of the other. What a
    canvas needs of the sheet rises with both, so the round lengths that fit end at one largest, found by
    halving.

    Examples
    --------
    >>> found = largest_face(Job(), picture_px=(6000, 4000), unit=LengthUnit.MM)
    >>> found.width_mm, found.height_mm, found.cropped_share < 0.002
    (350.0, 233.0, True)
    """
    shape = _shape(job, picture_px)
    found = [
        face
        for axis in (0, 1)
        if (face := _largest_along(job, shape, axis, unit, smallest_mm, spare_mm)) is not None
    ]
    return max(found, key=lambda face: face.width_mm * face.height_mm, default=None)


def _shape(job: Job, picture_px: tuple[int, int] | None) -> _Shape:
    if picture_px is None:
        return _Shape(
            panels=(1.0, 1.0), extra_mm=(0.0, 0.0), picture_px=(job.face.width_mm, job.face.height_mm)
        )
    spans = picture_spans(job)
    panels = (float(len(spans[0].starts_mm)), float(len(spans[1].starts_mm)))
    sides = (job.face.width_mm, job.face.height_mm)
    extra = (
        spans[0].length_mm - panels[0] * sides[0],
        spans[1].length_mm - panels[1] * sides[1],
    )
    size = turned_size(picture_px, job.picture.turn)
    return _Shape(panels=panels, extra_mm=extra, picture_px=(float(size[0]), float(size[1])))


def _largest_along(
    job: Job, shape: _Shape, axis: int, unit: LengthUnit, smallest_mm: Pair, spare_mm: float
) -> LargestFace | None:
    """The largest face with a round length on one axis."""
    step, fine = ROUND_MM[unit], FOLLOWING_MM[unit]
    shortest = [max(SHORTEST_FACE_MM, length) for length in smallest_mm]
    least = math.ceil(shortest[1 - axis] / fine - EQUAL_MM)

    def face_of(count: int) -> Pair:
        length = count * step
        other = fine * max(least, round_half_up(shape.other_mm(length, axis) / fine))
        return (length, other) if axis == 0 else (other, length)

    longest = ROLL_LONGEST_MM if job.sheet.height_mm is None else LONGEST_FACE_MM

    def holds(count: int) -> bool:
        face = face_of(count)
        return max(face) <= longest + EQUAL_MM and _held(job, face, spare_mm) is not None

    first = math.ceil(shortest[axis] / step - EQUAL_MM)
    count = _last_true(holds, first, math.floor(longest / step + EQUAL_MM))
    if count is None:
        return None
    face = face_of(count)
    cropped = max(0.0, shape.cropped_share(face))
    return LargestFace(
        width_mm=round(face[0], 6),
        height_mm=round(face[1], 6),
        cropped_share=cropped,
        crops=cropped > _MOST_ROUNDED,
        turned=_held(job, face, spare_mm) is True,
    )


def _last_true(holds: Callable[[int], bool], first: int, last: int) -> int | None:
    """The last number that holds, where all before it hold too."""
    if first > last or not holds(first):
        return None
    while first < last:
        middle = (first + last + 1) // 2
        first, last = (middle, last) if holds(middle) else (first, middle - 1)
    return first


def _held(job: Job, face_mm: Pair, spare_mm: float) -> bool | None:
    """Whether the canvas of a face lies turned on the sheet; None where the sheet does not hold it."""
    face = job.face.model_copy(update={"width_mm": face_mm[0], "height_mm": face_mm[1]})
    sized = job.model_copy(update={"face": face})
    sizes = flat_sizes(sized)
    for turned in (False, True):
        axes = sheet_axes(sized, sizes, turned=turned)
        if all(
            axis.spare_mm >= -EQUAL_MM
            and (axis.sheet_mm is None or axis.sheet_mm - axis.canvas_mm >= spare_mm - EQUAL_MM)
            for axis in axes
        ):
            return turned
    return None
