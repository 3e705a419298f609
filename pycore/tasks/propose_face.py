"""The face that suits a picture and the loaded sheet: the largest round one of the picture's own shape."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from pycore.contract.job import Job
from pycore.fold.smallest_face import smallest_face_mm
from pycore.layout.largest_face import LargestFace, LengthUnit, largest_face

if TYPE_CHECKING:
    from pycore.tasks.open_picture import OpenPicture

#: What is left of the sheet for feeding askew; with less the layout's notes warn (common practice).
SPARE_MM: Final = 3.0


def propose_face(job: Job, picture: OpenPicture | None, *, unit: LengthUnit) -> LargestFace | None:
    """Propose the largest round face of the picture's own shape, nothing cropped away.

    Parameters
    ----------
    job : Job
        A checked job; its sheet, bars, wrap, sides, canvas and group count, its face and crop do not.
    picture : OpenPicture or None
        Without one the face keeps its shape.
    unit : LengthUnit
        Whether one side is whole centimetres or whole inches.

    Returns
    -------
    LargestFace or None
        It leaves `SPARE_MM` of the sheet each way, and its corners can be folded. None where there is none.

    Examples
    --------
    >>> found = propose_face(Job(), None, unit=LengthUnit.MM)
    >>> found.width_mm, found.height_mm
    (350.0, 233.0)
    """
    smallest = smallest_face_mm(job)
    if smallest is None:
        return None
    return largest_face(
        job,
        picture_px=None if picture is None else picture.size_px,
        unit=unit,
        smallest_mm=smallest,
        spare_mm=SPARE_MM,
    )
