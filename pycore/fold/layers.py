"""Which layer a facet is in its plane when folded, how thick the canvas piles up, and where."""

from __future__ import annotations

from pycore.contract.job import Finish
from pycore.contract.record import Record
from pycore.conventions import EQUAL_MM
from pycore.fold.kinds import Kind
from pycore.fold.spec import FoldSpec
from pycore.speech import mark

# 1 lies on the bar. Derived: of all 6 x 120 orders of the whole folded corner these are the two that do not
# cross for any turn-over; tucked and lapped have the same final point map and differ in this order alone.
_TUCKED_WHOLE = {
    Kind.GUSSET_UNDER: 1,
    Kind.GUSSET_OVER: 2,
    Kind.OVER_SIDE: 3,
    Kind.UNDER_TURNOVER: 1,
    Kind.BACK_UNDER: 2,
    Kind.BACK_MIDDLE: 3,
    Kind.BACK_OVER: 4,
    Kind.OVER_TURNOVER: 5,
}
_LAPPED_WHOLE = {
    Kind.OVER_SIDE: 1,
    Kind.GUSSET_OVER: 2,
    Kind.GUSSET_UNDER: 3,
    Kind.OVER_TURNOVER: 1,
    Kind.BACK_OVER: 2,
    Kind.BACK_MIDDLE: 3,
    Kind.BACK_UNDER: 4,
    Kind.UNDER_TURNOVER: 5,
}


class Bulk(Record):
    """Layers of canvas at a place, for example the back corner, and their thickness."""

    place: str
    layers: int
    thickness_mm: float


def layer_ranks(spec: FoldSpec) -> dict[Kind, int]:
    """The layer of every kind of facet in its plane when folded; 1 lies on the bar.

    Parameters
    ----------
    spec : FoldSpec
        The canvas.

    Returns
    -------
    dict

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> layer_ranks(fold_spec(Job()))[Kind.OVER_SIDE]
    3
    """
    ranks = dict.fromkeys(Kind, 1)
    if spec.finish is Finish.TRIMMED:
        ranks |= {Kind.OVER_SIDE: 2, Kind.OVER_TURNOVER: 2}
        return ranks
    tucked = spec.finish is Finish.TUCKED
    ranks |= _TUCKED_WHOLE if tucked else _LAPPED_WHOLE
    if not spec.whole:
        ranks |= {
            Kind.UNDER_TURNOVER: 1 if tucked else 2,
            Kind.OVER_TURNOVER: 2 if tucked else 1,
        }
    return ranks


def bulk_of(spec: FoldSpec) -> list[Bulk]:
    """How thick the canvas lies, place by place.

    Parameters
    ----------
    spec : FoldSpec
        The canvas.

    Returns
    -------
    list of Bulk
        Face, under side, over side, then the corner and the back where they are thicker.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> [(bulk.place, bulk.layers) for bulk in bulk_of(fold_spec(Job()))][3:]
    [('folded corner', 3), ('back', 1), ('back corner', 5)]
    """
    corners = {
        Finish.TUCKED: mark("folded corner"),
        Finish.LAPPED: mark("flap"),
        Finish.TRIMMED: mark("tab"),
    }
    places = [(mark("face"), 1), (mark("under side"), 1), (mark("over side"), 1)]
    places.append((corners[spec.finish], 2 if spec.finish is Finish.TRIMMED else 3))
    if spec.turnover_mm > EQUAL_MM:
        places += [(mark("back"), 1), (mark("back corner"), 5 if spec.whole else 2)]
    return [
        Bulk(place=place, layers=layers, thickness_mm=layers * spec.thickness_mm) for place, layers in places
    ]
