"""The stages of folding in workshop order, and the angles at each moment."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish, OverPair
from pycore.contract.record import Record
from pycore.conventions import EQUAL_MM
from pycore.fold.spec import FoldSpec
from pycore.speech import say

Floats = npt.NDArray[np.float64]

_RIGHT = np.pi / 2

#: Stages that only turn canvas over on to the back.
_BACKS = ("under-back", "over-back", "backs")


class FoldStage(Record):
    """One stage of the folding; all are equally long."""

    name: str
    label: str
    """What is done, in the printmaker's words."""
    start: float
    """Where it begins, from 0 to 1."""
    end: float
    hidden: bool = False
    """No rigid way through exists: the page shows its start, then its end."""


@dataclass(frozen=True, kw_only=True)
class Angles:
    """Fold angles at n moments, (n,) float64 radians each.

    Attributes
    ----------
    under, over : how far the sides are turned down (theta_u, theta_o)
    gusset : tucked and trimmed: of the under half or tab round the front edge (psi); lapped: of the over half
        about the front edge, away from the over side (chi)
    under_back, over_back : of the turn-overs (rho, sigma)
    """

    under: Floats
    over: Floats
    gusset: Floats
    under_back: Floats
    over_back: Floats


def stages_of(spec: FoldSpec) -> list[FoldStage]:
    """The stages of a finish.

    Parameters
    ----------
    spec : FoldSpec
        The canvas.

    Returns
    -------
    list of FoldStage
        Tucked 3 or, cut back, 4; lapped 4 or, cut back, 5; trimmed 5. Fewer where nothing is turned over.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> [stage.name for stage in stages_of(fold_spec(Job()))]
    ['under', 'tuck', 'over-back']
    """
    under, over = (
        (say("left and right"), say("top and bottom"))
        if spec.over is OverPair.TOP_BOTTOM
        else (say("top and bottom"), say("left and right"))
    )
    labels = {
        "under": say("Turn {under} against the bars", under=under),
        "over": say("Turn {over} against the bars", over=over),
        "tuck": say("Tuck the corners in and close {over} over them", over=over),
        "wrap": say("Wrap the corners on to the sides"),
        "tab": say("Turn the tabs round the corner"),
        "under-back": say("Turn {under} over on to the back", under=under),
        "over-back": say("Turn {over} over on to the back", over=over),
        "backs": say("Turn all four over on to the back"),
    }
    names = _names(spec)
    count = len(names)
    return [
        FoldStage(
            name=name,
            label=labels[name],
            start=index / count,
            end=(index + 1) / count,
            hidden=name == "backs",
        )
        for index, name in enumerate(names)
    ]


def _names(spec: FoldSpec) -> list[str]:
    if spec.finish is Finish.TRIMMED:
        names = ["under", "tab", "under-back", "over", "over-back"]
    elif spec.finish is Finish.TUCKED:
        names = ["under", "tuck", "over-back"] if spec.whole else ["under", "under-back", "tuck", "over-back"]
    elif spec.whole:
        names = ["over", "under", "wrap", "backs"]
    else:
        names = ["over", "over-back", "under", "wrap", "under-back"]
    if spec.turnover_mm > EQUAL_MM:
        return names
    return [name for name in names if name not in _BACKS]


def angles_at(spec: FoldSpec, at: Floats) -> Angles:
    """The fold angles at given moments.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    at : (n,) float64
        0 flat to 1 folded.

    Returns
    -------
    Angles

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> spec = fold_spec(Job())
    >>> angles = angles_at(spec, np.array([5 / 9]))
    >>> [float(np.degrees(one[0]).round(4)) for one in (angles.gusset, angles.over, angles.under_back)]
    [60.0, 36.8699, 81.7868]
    """
    names = _names(spec)
    done = {name: _RIGHT * np.clip(at * len(names) - index, 0, 1) for index, name in enumerate(names)}
    still = np.zeros_like(at)
    # Where there is no turn-over its angle moves nothing; it ends as every other does.
    done = dict.fromkeys(_BACKS, _RIGHT * at) | done
    if spec.finish is Finish.TRIMMED:
        return Angles(
            under=done["under"],
            over=done["over"],
            gusset=done["tab"],
            under_back=done["under-back"],
            over_back=done["over-back"],
        )
    if spec.finish is Finish.TUCKED:
        gusset, over = _tucked(spec, done["under"], done["tuck"])
        return Angles(
            under=done["under"],
            over=over,
            gusset=gusset,
            # At P: sin psi sin rho + cos rho = 1.
            under_back=2 * np.arctan(np.sin(gusset)) if spec.whole else done["under-back"],
            over_back=done["over-back"],
        )
    spread = done["under"]
    under = _RIGHT - 2 * np.arctan(np.cos(spread))
    over_back = done["backs"] if spec.whole else done["over-back"]
    return Angles(
        under=np.where(spread >= _RIGHT, _RIGHT, np.where(spread <= 0, still, under)),
        over=done["over"],
        gusset=spread + done["wrap"],
        under_back=_RIGHT - 2 * np.arctan(np.cos(over_back)) if spec.whole else done["under-back"],
        over_back=over_back,
    )


def _tucked(spec: FoldSpec, under: Floats, tuck: Floats) -> tuple[Floats, Floats]:
    """Angles psi and theta_o of a tucked corner; the set-back's case contains the plain one (e = 0)."""
    e = spec.setback_rad
    if e == 0:
        # At O: cos psi cos theta_o + sin theta_o = 1.
        over = _RIGHT - 2 * np.arctan(np.cos(tuck))
        return tuck, np.where(tuck >= _RIGHT, _RIGHT, np.where(tuck <= 0, 0.0, over))
    # Both angles solve A cos x + B sin x = C. Where they begin or end C comes up to hypot(A, B), and an arc
    # cosine would lose half the digits. So arccos(C / hypot) is taken as atan2(root, C), with root^2 =
    # A^2 + B^2 - C^2 worked out so that nothing cancels.
    k, c45 = np.pi / 4 + e, np.sqrt(0.5)
    # While the under pair goes down, theta_o = 0 and the gusset opens a little:
    # cos psi sin k cos e + sin psi sin k sin theta_u sin e = cos 45 + cos k cos theta_u sin e.
    a, b = np.sin(k) * np.cos(e) * np.ones_like(under), np.sin(k) * np.sin(under) * np.sin(e)
    c = c45 + np.cos(k) * np.cos(under) * np.sin(e)
    root = np.sqrt(b**2 + 2 * np.cos(k) * np.sin(e) * np.sin(under / 2) ** 2 * (a + c))
    opening = np.arctan2(b, a) + np.arctan2(root, c)
    # Then psi runs on from there to 90 degrees and theta_o follows.
    first = e + np.arctan2(np.sqrt(np.sin(2 * e) / 2), c45)
    gusset = np.where(tuck > 0, first + (_RIGHT - first) * tuck / _RIGHT, opening)
    a, b = np.sin(k) * np.cos(gusset) * np.cos(e), np.cos(k) * np.cos(e)
    c = c45 - np.sin(k) * np.sin(gusset) * np.sin(e)
    to_go = 2 * np.sin((_RIGHT - gusset) / 2) ** 2  # 1 - sin psi
    brace = np.sin(k) * np.cos(e) ** 2 * (2 - to_go) - np.sin(e) * (b + c)
    # Before the tuck theta_o is 0 whatever this gives, and its square may be under 0.
    root = np.sqrt(np.maximum(np.sin(k) * to_go * brace, 0))
    closing = np.arctan2(b, a) - np.arctan2(root, c)
    return gusset, np.where(tuck >= _RIGHT, _RIGHT, np.where(tuck > 0, closing, 0.0))
