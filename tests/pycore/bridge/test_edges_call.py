"""The call about edges as the page makes it."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.session import Session
from pycore.contract.job import Fill
from pycore.conventions import Side
from pycore.errors import FieldError, PictureError
from pycore.fill.names import FILL_NAMES

from .test_session import answer

FACE = {"face": {"width_mm": 400, "height_mm": 300}, "bars": {"depth_mm": 38}}


def slanted(width: int = 800, height: int = 600, mode: str = "RGB") -> bytes:
    """A dark line from the middle of the left edge, at 45 degrees down, a fifth of the width long."""
    y, x = np.mgrid[0:height, 0:width]
    line = (np.abs(y - x - height / 2) < width / 100) & (x < width / 5)
    out = io.BytesIO()
    Image.fromarray(np.where(line, 40, 200).astype(np.uint8)).convert(mode).save(out, "TIFF")
    return out.getvalue()


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "slanted.tif"}, slanted())
    return session


def reply(session: Session, **job: Any) -> Any:
    return answer(session, "edges", {"job": {**FACE, **job}}).reply


def test_four_sides_in_order_with_their_fills(session: Session) -> None:
    found = reply(session, sides={"fill": "fade", "top": {"fill": "plain"}})
    assert [one.side for one in found.sides] == list(Side)
    assert [one.fill for one in found.sides] == [Fill.PLAIN, Fill.FADE, Fill.FADE, Fill.FADE]


def test_the_broken_side_has_a_note_and_a_better_fill(session: Session) -> None:
    found = reply(session)
    left = found.sides[3]
    assert left.broken > 0.8
    assert [note.field for note in found.notes] == ["sides.left.fill"]
    assert left.better is not None
    assert FILL_NAMES[left.better] in found.notes[0].remedy
    # What is better is better: taken, there is nothing more to say.
    again = reply(session, sides={"left": {"fill": left.better.value}})
    assert again.notes == []
    assert again.sides[3].better is None
    assert again.sides[3].broken == left.broken


def test_a_turned_picture_has_turned_figures(session: Session) -> None:
    before = reply(session)
    after = reply(session, picture={"turn": 90}, face={"width_mm": 300, "height_mm": 400})
    for old, new in ((3, 0), (0, 1), (1, 2), (2, 3)):
        for figure in ("busy", "doubled", "broken", "cut"):
            # The picture is reduced to whole values across and down in another order.
            expected = getattr(before.sides[old], figure)
            assert getattr(after.sides[new], figure) == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize("mode", ["L", "CMYK", "RGB"])
def test_every_kind_of_picture_is_judged(mode: str) -> None:
    session = Session()
    answer(session, "open", {"file": "slanted.tif"}, slanted(mode=mode))
    assert reply(session).sides[3].broken > 0.8


def test_figures_do_not_depend_on_the_preview(session: Session) -> None:
    found = []
    for pixels in (100_000, 2_000_000):
        answer(session, "show", {"job": FACE, "preview_px": pixels})
        found.append(reply(session).model_dump())
    assert found[0] == found[1]


def test_nor_much_on_the_picture_s_pixels(session: Session) -> None:
    other = Session()
    answer(other, "open", {"file": "slanted.tif"}, slanted(2400, 1800))
    for few, many in zip(reply(session).sides, reply(other).sides, strict=True):
        for figure in ("busy", "doubled", "broken", "cut"):
            assert getattr(many, figure) == pytest.approx(getattr(few, figure), abs=0.05)


def test_asking_leaves_what_is_shown(session: Session) -> None:
    answer(session, "show", {"job": FACE})
    reply(session)
    shown: Any = answer(session, "show", {"job": FACE}).reply
    assert (shown.texture, shown.fold) == (None, None)


def test_a_bar_deeper_than_half_the_face_is_judged(session: Session) -> None:
    found = reply(session, face={"width_mm": 50, "height_mm": 50}, bars={"depth_mm": 100})
    assert all(0 <= one.broken <= 1 for one in found.sides)


def test_of_a_group_the_worst_panel_counts(session: Session) -> None:
    group = {"panels": 2, "gap_mm": 20}
    found = reply(session, face={"width_mm": 190, "height_mm": 300}, group=group)
    # The line is on the first panel; both have their left sides alike.
    assert found.sides[3].broken > 0.8
    assert found.sides[3].better is not None


def test_a_wrong_job_names_its_field(session: Session) -> None:
    with pytest.raises(FieldError) as caught:
        reply(session, bars={"depth_mm": 3})
    assert caught.value.field == "bars.depth_mm"


def test_without_a_picture_nothing_is_judged() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        reply(Session())
