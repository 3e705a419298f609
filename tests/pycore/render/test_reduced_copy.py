"""A reduced copy serves what lies in it, and nothing that runs past one of its sides."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PIL import Image

from pycore.render.reduced_copy import ReducedCopy
from pycore.render.resample import Area

_MINE = Area(left=100, top=60, right=500, bottom=360)
_COPY = ReducedCopy(image=Image.new("RGB", (200, 150)), area=_MINE)


def test_it_covers_itself_and_what_lies_within() -> None:
    assert _COPY.covers(_MINE)
    assert _COPY.covers(Area(left=100.5, top=61, right=499, bottom=359.5))
    # Derived: 200 pixels for 400.
    assert _COPY.scale == 0.5


@pytest.mark.parametrize(("side", "to"), [("left", 99), ("top", 59), ("right", 501), ("bottom", 361)])
def test_what_runs_past_one_side_is_not_covered(side: str, to: float) -> None:
    assert not _COPY.covers(replace(_MINE, **{side: to}))
