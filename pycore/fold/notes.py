"""What to watch on the fold."""

from __future__ import annotations

from pycore.contract.job import Finish
from pycore.contract.notes import Note, Place, Severity
from pycore.fold.layers import bulk_of
from pycore.fold.spec import FoldSpec
from pycore.speech import say


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
                message=say(
                    "The turn-overs of a whole lapped corner are in each other's way in the last "
                    "stage; cloth bends and lets them pass, and the drawing hides that moment."
                ),
                remedy=say("Cut the corners back: then the back lies flatter, too."),
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
                message=say(
                    "At each {place} {layers} layers lie on one another, together {thickness_mm:.2f} mm; "
                    "they hold the piece that far off the wall.",
                    place=say(thickest.place),
                    layers=thickest.layers,
                    thickness_mm=thickest.thickness_mm,
                ),
                remedy=say("Cut the corners back to leave two layers."),
                field="wrap.corners",
            )
        )
    if spec.finish is Finish.TRIMMED:
        notes.append(
            Note(
                code="raw-edge",
                severity=Severity.HINT,
                place=Place.CORNERS,
                message=say("A cut edge runs along the fold at each corner and can be seen."),
                remedy=say("Fold the corners instead if the canvas frays."),
                field="wrap.finish",
            )
        )
    return notes
