"""How far the middle of the canvas stands off its plane when folded: thickness, layer upon layer."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish
from pycore.fold.facets import Facet, local
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.spec import FoldSpec

Floats = npt.NDArray[np.float64]

#: Over this width a strip comes down from the layers beneath it to the bar; from memory, as cloth lies.
SETTLE_MM = 8.0

#: Kinds whose print side faces the bar when folded.
FACING_IN = frozenset({Kind.GUSSET_OVER, Kind.BACK_UNDER, Kind.BACK_OVER})


@dataclass(frozen=True, kw_only=True)
class Settling:
    """Where a strip lies on other layers near a corner, and where it has come down to the bar.

    In the corner's frame: `layers` up to normal . (p, q) = near, one from near + SETTLE_MM on.
    """

    layers: int
    normal: tuple[float, float]
    near: float


def settling_of(spec: FoldSpec, kind: Kind) -> Settling | None:
    """How a kind of strip settles away from a corner; None where all of it is one layer.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    kind : Kind
        Of the facet.

    Returns
    -------
    Settling or None
    """
    layers = layer_ranks(spec)[kind]
    if layers == 1:
        return None
    back = spec.reach_mm if spec.whole else spec.turnover_mm
    if kind is Kind.OVER_SIDE:
        if spec.finish is Finish.TRIMMED:
            return Settling(layers=layers, normal=(-1.0, 0.0), near=spec.tab_mm)
        # On the gusset, which reaches as far from the front edge as it is deep: a <= b, that is -p - q <= 0.
        return Settling(layers=layers, normal=(-1.0, -1.0), near=0.0)
    if kind is Kind.OVER_TURNOVER:
        return Settling(layers=layers, normal=(-1.0, 0.0), near=back)
    if kind is Kind.UNDER_TURNOVER:
        return Settling(layers=layers, normal=(0.0, -1.0), near=spec.turnover_mm)
    return None


def offsets(spec: FoldSpec, facet: Facet, points: Floats) -> Floats:
    """Distance of the canvas's middle from the facet's plane when folded, outwards.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    facet : Facet
        One of its facets.
    points : (n, 2) float64
        On the flat sheet, mm.

    Returns
    -------
    (n,) float64
        (layer - 1/2) x thickness, with the layers beneath each point, mm.
    """
    settling = settling_of(spec, facet.kind)
    if settling is None:
        layers = np.full(len(points), float(layer_ranks(spec)[facet.kind]))
    else:
        layers = np.ones(len(points))
        for corner in facet.ends:
            past = (local(corner, points) @ np.array(settling.normal) - settling.near) / SETTLE_MM
            layers = np.maximum(layers, 1 + (settling.layers - 1) * np.clip(1 - past, 0, 1))
    result: Floats = (layers - 0.5) * spec.thickness_mm
    return result
