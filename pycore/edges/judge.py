"""The four sides judged from the picture on the face."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from pycore.conventions import Side
from pycore.edges.continued import LaidSide, LaidSideFigures, judge_laid
from pycore.edges.detail import busy
from pycore.edges.gradients import F64, Tensor, tensor
from pycore.edges.lines import broken
from pycore.edges.run_on import RunOnSide, cut
from pycore.edges.shapes import blurred, doubled, standing_out
from pycore.edges.working import WorkingFace, from_edge, halved

#: Bars of so many pixels leave enough of them when halved.
_HALVED_FROM_PX: Final = 16


@dataclass(frozen=True)
class EdgeFigures:
    """What the picture holds beside one front edge; each figure 0 to 1, to three decimals.

    Attributes
    ----------
    side : Side
    busy : float
        How much fine detail and contrast the strip has.
    doubled : float
        How plainly a mirror would show a shape twice.
    broken : float
        How plainly a line that runs aslant into the edge would be bent by a mirror.
    cut : float
        How plainly something distinct would go round the edge, or be cut by it, if the picture ran on; 0
        where the picture beyond the edge is not given.
    chevrons, repeated, smeared, bent, severed, streaked, uneven : float
        How the side looks mirrored, continued and drawn out: see `LaidSideFigures`; 0 where none was laid.
    mirrored : bool
        With its lines continued the side is a mirror.
    """

    side: Side
    busy: float
    doubled: float
    broken: float
    cut: float
    chevrons: float = 0.0
    repeated: float = 0.0
    smeared: float = 0.0
    bent: float = 0.0
    severed: float = 0.0
    streaked: float = 0.0
    uneven: float = 0.0
    mirrored: bool = False


#: Where no side was laid with its lines continued.
_NONE_LAID: Final[Mapping[Side, LaidSide]] = MappingProxyType({})

#: Where it is not known what the picture shows round an edge.
_NONE_RUN_ON: Final[Mapping[Side, RunOnSide]] = MappingProxyType({})


def judge(
    face: WorkingFace,
    laid: Mapping[Side, LaidSide] = _NONE_LAID,
    run_on: Mapping[Side, RunOnSide] = _NONE_RUN_ON,
) -> list[EdgeFigures]:
    """Judge the strip beside each front edge, as deep as the bars.

    Parameters
    ----------
    face : WorkingFace
    laid : mapping from Side to LaidSide
        The same sides with their lines continued.
    run_on : mapping from Side to RunOnSide
        The picture as it goes round them.

    Returns
    -------
    list of EdgeFigures
        Top, right, bottom, left.

    Examples
    --------
    >>> import numpy as np
    >>> plain = WorkingFace(values=np.full((30, 40, 3), 0.5), depth_px=6)
    >>> [one.busy + one.doubled + one.broken + one.cut for one in judge(plain)]
    [0.0, 0.0, 0.0, 0.0]
    """
    values, depth_px = face.values, face.depth_px
    # Shapes are coarse: half of the resolution shows them as well, in a quarter of the time.
    coarse, coarse_px = (halved(values), depth_px / 2) if depth_px >= _HALVED_FROM_PX else (values, depth_px)
    soft = blurred(coarse, depth_px=coarse_px)
    out = standing_out(coarse, soft, depth_px=coarse_px)
    found = []
    for side in Side:
        here, here_out = from_edge(values, side), from_edge(out, side)
        depth, coarse_depth = _depth(depth_px, here), _depth(coarse_px, here_out)
        # One row more than the strip, so that its last row has its true gradient.
        strip = _rows(tensor(here[: depth + 1]), depth)
        busy_ = busy(strip.energy)
        doubled_ = doubled(here_out[:coarse_depth], from_edge(soft, side), depth_px=coarse_px)
        broken_ = broken(strip, depth_px=depth_px)
        cut_ = cut(run_on[side]) if side in run_on else 0.0
        of_laid = judge_laid(laid[side], busy=busy_) if side in laid else LaidSideFigures()
        # Three decimals: what two platforms' sums differ by is far below. Adding 0 leaves no negative zero.
        found.append(
            EdgeFigures(
                side,
                busy=round(busy_, 3) + 0.0,
                doubled=round(doubled_, 3) + 0.0,
                broken=round(broken_, 3) + 0.0,
                cut=round(cut_, 3) + 0.0,
                chevrons=of_laid.chevrons,
                repeated=of_laid.repeated,
                smeared=of_laid.smeared,
                bent=of_laid.bent,
                severed=of_laid.severed,
                streaked=of_laid.streaked,
                uneven=of_laid.uneven,
                mirrored=of_laid.mirrored,
            )
        )
    return found


def worst(panels: list[list[EdgeFigures]]) -> list[EdgeFigures]:
    """The figures of a group, whose panels have their sides alike: each the largest of all panels.

    Parameters
    ----------
    panels : list of list of EdgeFigures
        From `judge`, at least one.

    Returns
    -------
    list of EdgeFigures
        Top, right, bottom, left.

    Examples
    --------
    >>> one, two = EdgeFigures(Side.TOP, 0.1, 0.2, 0.3, 0.4), EdgeFigures(Side.TOP, 0.4, 0.3, 0.2, 0.1)
    >>> [found] = worst([[one], [two]])
    >>> found.busy, found.doubled, found.broken, found.cut
    (0.4, 0.3, 0.3, 0.4)
    """
    return [
        EdgeFigures(
            of_side[0].side,
            busy=max(one.busy for one in of_side),
            doubled=max(one.doubled for one in of_side),
            broken=max(one.broken for one in of_side),
            cut=max(one.cut for one in of_side),
            chevrons=max(one.chevrons for one in of_side),
            repeated=max(one.repeated for one in of_side),
            smeared=max(one.smeared for one in of_side),
            bent=max(one.bent for one in of_side),
            severed=max(one.severed for one in of_side),
            streaked=max(one.streaked for one in of_side),
            uneven=max(one.uneven for one in of_side),
            mirrored=all(one.mirrored for one in of_side),
        )
        for of_side in zip(*panels, strict=True)
    ]


def _depth(depth_px: float, values: F64) -> int:
    return min(max(1, round(depth_px)), len(values))


def _rows(whole: Tensor, rows: int) -> Tensor:
    return Tensor(rr=whole.rr[:rows], rc=whole.rc[:rows], cc=whole.cc[:rows])
