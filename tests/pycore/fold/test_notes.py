"""Which finishes call for a note, and that its remedy removes it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from pycore.contract.job import Corners, Finish
from pycore.fold.notes import fold_notes
from pycore.fold.spec import FoldSpec

Worked = Callable[..., FoldSpec]


# Derived: only lapped whole has no rigid way for its turn-overs; whole corners lie five deep on the back;
# only a trimmed corner has a cut edge on the front edge.
@pytest.mark.parametrize(
    ("finish", "corners", "turnover", "codes"),
    [
        (Finish.TUCKED, Corners.WHOLE, 25, ["bulk"]),
        (Finish.TUCKED, Corners.CUT_BACK, 25, []),
        (Finish.TUCKED, Corners.WHOLE, 0, []),
        (Finish.LAPPED, Corners.WHOLE, 25, ["lapped-whole", "bulk"]),
        (Finish.LAPPED, Corners.CUT_BACK, 25, []),
        (Finish.LAPPED, Corners.WHOLE, 0, []),
        (Finish.TRIMMED, Corners.WHOLE, 25, ["raw-edge"]),
        (Finish.TRIMMED, Corners.CUT_BACK, 25, ["raw-edge"]),
    ],
)
def test_codes(worked: Worked, finish: Finish, corners: Corners, turnover: float, codes: list[str]) -> None:
    notes = fold_notes(worked(finish=finish, corners=corners, turnover_mm=turnover))
    assert [note.code for note in notes] == codes


def test_bulk_says_how_much(worked: Worked) -> None:
    """Derived: 5 x 0.4 mm."""
    (note,) = fold_notes(worked(thickness_mm=0.4))
    assert "5 layers" in note.message
    assert "2.00 mm" in note.message
    assert note.field == "wrap.corners"
