"""A reduced copy serves what lies in it, and nothing that runs past one of its sides."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PIL import Image

from pycore.picture.info import PictureInfo
from pycore.picture.source import SourcePicture
from pycore.render.reduced_copy import ReducedCopy, copied, on_copy
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


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_whole_picture_is_its_whole_copy_however_it_is_turned(turn: int) -> None:
    """Derived: in doubles 1126 (685 / 1126) is more than 685, and 1084 (491 / 1084) more than 491."""
    assert 1126 * (685 / 1126) > 685
    assert 1084 * (491 / 1084) > 491
    image = Image.new("RGB", (1126, 1084))
    info = PictureInfo(
        file="plain", format="PNG", width_px=1126, height_px=1084, mode="RGB", profile_name="",
        profile_assumed=True, notes=[],
    )  # fmt: skip
    source = SourcePicture(image=image, profile=None, linear=None, info=info)
    copy = ReducedCopy(image=Image.new("RGB", (685, 491)), area=Area(left=0, top=0, right=1126, bottom=1084))
    is_lying = turn in (90, 270)
    wide, high = (1084, 1126) if is_lying else (1126, 1084)
    whole = Area(left=0, top=0, right=wide, bottom=high)
    across, down = (491, 685) if is_lying else (685, 491)
    assert on_copy(whole, turn, source, copy) == Area(left=0, top=0, right=across, bottom=down)
    assert copied(copy, whole, turn, source, width=60, height=40).shape == (40, 60, 3)
