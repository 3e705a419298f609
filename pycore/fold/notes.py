"""What to watch on the fold."""

from __future__ import annotations

from pycore.contract.job import Finish
from pycore.contract.notes import Note, Place, Severity
from pycore.fold.layers import bulk_of
from pycore.fold.spec import FoldSpec


def fold_notes(spec: FoldSpec) -> list[Note]:
    """Notes on a finish and its bulk.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.

    Returns
    -------
    list of Note
    """
    notes = []
    if spec.finish is Finish.LAPPED and spec.whole:
        notes.append(
            Note(
                code="lapped-whole",
                severity=Severity.WATCH,
                place=Place.BACK,
                message="A lapped corner left whole has no rigid way to lay its turn-overs: in the last "
                "stage they would pass through one another behind the bars. Cloth bends and lets them by.",
                remedy="Relieve the corners: the back lies flatter, too.",
                field="wrap.corners",
            )
        )
    thickest = max(bulk_of(spec), key=lambda bulk: bulk.layers)
    if thickest.layers >= 5:
        notes.append(
            Note(
                code="bulk",
                severity=Severity.HINT,
                place=Place.BACK,
                message=f"{thickest.layers} layers lie on one another at each {thickest.place}: "
                f"{thickest.thickness_mm:.2f} mm. The piece hangs that far off the wall there.",
                remedy="Relieve the corners to leave two layers.",
                field="wrap.corners",
            )
        )
    if spec.finish is Finish.TRIMMED:
        notes.append(
            Note(
                code="raw-edge",
                severity=Severity.HINT,
                place=Place.CORNERS,
                message="The cut edge of the over pair runs along the arris at each corner and can be seen.",
                remedy="Fold the corners instead where it would fray.",
                field="wrap.finish",
            )
        )
    return notes
