"""What a drawing of each stage shows: what stands out, whose way is drawn, at which part of the stage."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.contract.job import Finish, OverPair
from pycore.fold.kinds import Kind
from pycore.fold.scene import Floats
from pycore.fold.spec import FoldSpec

Point = tuple[Kind, tuple[float, float]]


@dataclass(frozen=True, kw_only=True)
class Step:
    """What a stage's drawing shows.

    Attributes
    ----------
    lit : tuple of Kind
        Kinds that stand out.
    ways : tuple of Point
        Points whose way is drawn, mm in the corner's frame: p past the under pair's edge, q past the other's.
    share : float
        At which part of the stage the drawing stands.
    """

    lit: tuple[Kind, ...]
    ways: tuple[Point, ...]
    share: float = 0.55


def step_of(stage: str, spec: FoldSpec, *, shown_mm: float) -> Step:
    """What the drawing of a stage shows.

    Parameters
    ----------
    stage : str
        Its name, as from `stages_of`.
    spec : FoldSpec
    shown_mm : float
        How far the drawing reaches from the corner along the face.

    Returns
    -------
    Step

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> step_of("wrap", fold_spec(Job()), shown_mm=72).lit
    (<Kind.GUSSET_UNDER: 'gusset under half'>,)
    """
    d, s, half = spec.depth_mm, spec.reach_mm, shown_mm / 2
    under_end, over_end = (s, -half), (-half, s)
    ridge = (Kind.GUSSET_UNDER, (d, d))
    steps = {
        "under": Step(
            lit=(Kind.UNDER_SIDE, Kind.UNDER_TURNOVER), ways=((Kind.UNDER_TURNOVER, under_end),), share=0.36
        ),
        "over": Step(
            lit=(Kind.OVER_SIDE, Kind.OVER_TURNOVER), ways=((Kind.OVER_TURNOVER, over_end),), share=0.8
        ),
        "tuck": Step(
            lit=(Kind.GUSSET_UNDER, Kind.GUSSET_OVER),
            ways=(ridge, (Kind.OVER_SIDE, (-shown_mm * 25 / 36, d))),
            share=0.6,
        ),
        "wrap": Step(lit=(Kind.GUSSET_UNDER,), ways=(ridge,), share=0.5),
        "tab": Step(lit=(Kind.TAB,), ways=((Kind.TAB, (d / 2, spec.tab_mm)),), share=0.5),
        "under-back": Step(lit=(Kind.UNDER_TURNOVER,), ways=((Kind.UNDER_TURNOVER, under_end),)),
        "over-back": Step(lit=(Kind.OVER_TURNOVER,), ways=((Kind.OVER_TURNOVER, over_end),)),
        # No rigid way leads through this stage: its end is drawn.
        "backs": Step(lit=(Kind.UNDER_TURNOVER, Kind.OVER_TURNOVER), ways=(), share=1.0),
    }
    return steps[stage]


def seam(spec: FoldSpec) -> Floats:
    """The line on an over side where two parts of the canvas meet, at the top-right corner.

    Parameters
    ----------
    spec : FoldSpec

    Returns
    -------
    (2, 3) float64
        mm.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> seam(fold_spec(Job())).tolist()
    [[300.0, 200.0, 0.0], [300.0, 200.0, -20.0]]
    """
    w, h, d = spec.width_mm, spec.height_mm, spec.depth_mm
    inwards = d if spec.finish is Finish.LAPPED else spec.setback_mm
    end = [w - inwards, h, -d] if spec.over is OverPair.TOP_BOTTOM else [w, h - inwards, -d]
    return np.array([[w, h, 0.0], end])
