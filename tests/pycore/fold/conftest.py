"""What the tests of the fold share: specifications to fold, and one folded."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish, OverPair
from pycore.fold.facets import Facet, flat_facets
from pycore.fold.motion import facet_maps
from pycore.fold.rigid import Rigid
from pycore.fold.spec import FoldSpec, check_spec

Floats = npt.NDArray[np.float64]

#: The size that every worked value is given for.
WORKED = FoldSpec(
    width_mm=400,
    height_mm=300,
    depth_mm=38,
    turnover_mm=25,
    finish=Finish.TUCKED,
    over=OverPair.TOP_BOTTOM,
    corners=Corners.WHOLE,
    setback_mm=0,
    tab_mm=10,
    thickness_mm=0.45,
)


@dataclass(frozen=True, kw_only=True)
class Folded:
    """A canvas at n moments."""

    spec: FoldSpec
    facets: list[Facet]
    maps: list[Rigid]

    def place(self, index: int, flat: Floats) -> Floats:
        """Points of one facet, (m, 2) -> (n, m, 3)."""
        flat = np.atleast_2d(np.asarray(flat, float))
        return self.maps[index].apply(np.column_stack([flat, np.zeros(len(flat))]))

    def index(self, name: str) -> int:
        """A facet's place in the list."""
        return [facet.name for facet in self.facets].index(name)


@pytest.fixture(scope="session")
def worked() -> Callable[..., FoldSpec]:
    """The worked size with some fields changed."""

    def changed(**fields: Any) -> FoldSpec:
        return dataclasses.replace(WORKED, **fields)

    return changed


@pytest.fixture(scope="session")
def transposed() -> Callable[[FoldSpec], FoldSpec]:
    """The same canvas with across and up exchanged."""

    def swap(spec: FoldSpec) -> FoldSpec:
        over = OverPair.LEFT_RIGHT if spec.over is OverPair.TOP_BOTTOM else OverPair.TOP_BOTTOM
        return dataclasses.replace(spec, width_mm=spec.height_mm, height_mm=spec.width_mm, over=over)

    return swap


@pytest.fixture(scope="session")
def fold() -> Callable[..., Folded]:
    """Fold a canvas to given moments."""

    def folded(spec: FoldSpec, *at: float) -> Folded:
        check_spec(spec)
        facets = flat_facets(spec)
        return Folded(spec=spec, facets=facets, maps=facet_maps(spec, facets, np.array(at, float)))

    return folded


@pytest.fixture(scope="session")
def specs() -> st.SearchStrategy[FoldSpec]:
    """Every finish, pair and corner, with sizes down to the shortest that can be folded."""

    @st.composite
    def spec(draw: st.DrawFn) -> FoldSpec:
        finish = draw(st.sampled_from(Finish))
        over = draw(st.sampled_from(OverPair))
        corners = draw(st.sampled_from(Corners))
        depth = draw(st.floats(6, 100))
        turnover = draw(st.one_of(st.just(0.0), st.just(depth), st.floats(0.5, 150)))
        reach = depth + turnover
        tab = draw(st.floats(0.25, 1)) * depth / 2
        setback = 0.0
        whole = corners is Corners.WHOLE and turnover > 0 and finish is not Finish.TRIMMED
        if finish is Finish.TUCKED and draw(st.booleans()):
            # With whole corners d tan(45 deg + e) < d + r, kept here at 0.99 of the angle.
            most = 0.99 * depth * np.tan(np.arctan2(reach, depth) - np.pi / 4) if whole else 5.0
            setback = float(min(5.0, most)) * draw(st.floats(0.01, 1))
        slant = setback / depth
        need = reach if whole else max(depth, turnover, reach * slant)
        if finish is Finish.TRIMMED:
            need = max(tab, turnover)
        over_length = max(50.0, 2 * need) + draw(st.one_of(st.just(0.0), st.floats(0, 400)))
        under_length = max(50.0, 2 * turnover) + draw(st.one_of(st.just(0.0), st.floats(0, 400)))
        sizes = (over_length, under_length) if over is OverPair.TOP_BOTTOM else (under_length, over_length)
        return FoldSpec(
            width_mm=sizes[0],
            height_mm=sizes[1],
            depth_mm=depth,
            turnover_mm=turnover,
            finish=finish,
            over=over,
            corners=corners,
            setback_mm=setback,
            tab_mm=tab,
            thickness_mm=draw(st.floats(0, 3)),
        )

    return spec()
