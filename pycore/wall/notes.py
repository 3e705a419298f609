"""What to know of a piece on a photographed wall."""

from __future__ import annotations

from typing import Final

from pycore.contract.notes import Note, Place, Severity
from pycore.speech import say
from pycore.wall.fit_wall import FocalFrom, WallFit
from pycore.wall.light import RoomLight

#: A size less sure than this share is worth a better photograph.
MOST_UNSURE: Final = 0.03


def wall_notes(
    fit: WallFit,
    light: RoomLight,
    *,
    unsure: float,
    has_filed_focal: bool,
    is_reduced: bool,
    is_cut_off: bool,
) -> list[Note]:
    """Say how far size, perspective and colours can be trusted.

    Parameters
    ----------
    fit : WallFit
    light : RoomLight
    unsure : float
        The greater of width's and height's uncertainty, as a share.
    has_filed_focal : bool
        The photograph's file tells a focal length.
    is_reduced : bool
        The photograph was reduced.
    is_cut_off : bool
        A part of the piece lies outside the photograph.

    Returns
    -------
    list of Note
    """
    notes = []
    if unsure > MOST_UNSURE:
        notes.append(
            _note(
                "wall-unsure",
                Severity.WATCH,
                say("The size on the wall is sure only within {unsure:.1f} percent.", unsure=100 * unsure),
                say(
                    "Go nearer, hang the paper beside the place of the piece, use a larger reference "
                    "or a second one, and take the photograph as the camera makes it, uncropped"
                ),
            )
        )
    if fit.focal_from is FocalFrom.USUAL:
        notes.append(
            _note(
                "wall-frontal",
                Severity.HINT,
                say(
                    "The view is too frontal to tell the focal length, and the file tells none that "
                    "fits; a usual lens (26 mm on full frame, common practice) is taken. The sides and "
                    "the front's distance from the wall may be drawn a little off."
                ),
                say("Use the file as the camera wrote it, with its focal length"),
            )
        )
    if has_filed_focal and fit.focal_from is not FocalFrom.EXIF:
        notes.append(
            _note(
                "wall-focal-refused",
                Severity.WATCH,
                say("The file's focal length does not fit the corners; the one that fits them is taken."),
                say(
                    "Check the corners and the reference's size; a cropped photograph has another "
                    "focal length"
                ),
            )
        )
    if light.is_burnt:
        notes.append(
            _note(
                "wall-paper-burnt",
                Severity.WATCH,
                say("The paper is overexposed in the photograph, so the room's tint is not known."),
                say("Take the photograph darker, so that the paper is light grey, not white"),
            )
        )
    if is_cut_off:
        notes.append(
            _note(
                "wall-cut-off",
                Severity.WATCH,
                say("A part of the piece lies outside the photograph."),
                say("Move it, or photograph more of the wall"),
            )
        )
    if is_reduced:
        notes.append(
            _note(
                "wall-photo-reduced",
                Severity.HINT,
                say("The photograph is very large; it is shown reduced. Places stay in its own pixels."),
                say("Nothing needs doing"),
            )
        )
    return notes


def opened_notes(*, was_px: tuple[int, int], is_px: tuple[int, int]) -> list[Note]:
    """Say that a photograph is kept smaller than it came.

    Parameters
    ----------
    was_px, is_px : (int, int)
        Width and height of the photograph as it came, and of the copy that is kept.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> opened_notes(was_px=(4000, 3000), is_px=(4000, 3000))
    []
    """
    if was_px == is_px:
        return []
    came, kept = (say("{wide} x {high} pixels", wide=wide, high=high) for wide, high in (was_px, is_px))
    return [
        _note(
            "wall-photo-copy",
            Severity.HINT,
            say("The photograph has {came}; a copy of {kept} is kept.", came=came, kept=kept),
            say("Nothing needs doing"),
        )
    ]


def _note(code: str, severity: Severity, message: str, remedy: str) -> Note:
    return Note(
        code=code,
        severity=severity,
        place=Place.PICTURE,
        message=message,
        remedy=say("{remedy}.", remedy=remedy),
    )
