"""Things cut by the edge that end soon inside are not drawn out to stalks where lines break beside them."""

from __future__ import annotations

import numpy as np
import pytest
import skimage
from PIL import Image

from pycore.fill import continued_plan
from pycore.fill.continued_ground import I32, STEPS
from pycore.fill.continued_plan import plan_continued
from pycore.fill.continued_stumps import draws_out_stumps
from pycore.fill.continued_vectors import ContinuedPlan

DEPTH, COLUMNS = 40, 120


def rock(*, long: int = 12, wide: int = 20, beyond: int = 0) -> I32:
    """A thing 30 ΔE from its ground, `long` rows and `wide` columns; `beyond` it other ground may begin."""
    steps = np.zeros((60, COLUMNS, 3), np.int32)
    steps[:long, 50 : 50 + wide, 0] = 30 * STEPS
    steps[long:, :, 1] = beyond * STEPS
    return steps


def slanted() -> I32:
    """A post that lines read upright slip out of sideways: its outline lies at 27 degrees to them."""
    rows, columns = np.mgrid[0:60, 0:COLUMNS]
    post = (2 * columns - rows >= 100) & (2 * columns - rows < 124)
    return np.where(post[..., np.newaxis], 30 * STEPS, 0).astype(np.int32).repeat(3, axis=2)


def plan(deepest: int) -> ContinuedPlan:
    """Upright lines that all look so deep, in 1 / 256 of the side's depth."""
    deep = np.full(COLUMNS, deepest, np.int32)
    return ContinuedPlan(
        depth=DEPTH, slope=np.zeros(COLUMNS, np.int32), deepest=deep, way=deep, pace=deep.copy()
    )


def test_a_rock_on_the_sand_is_a_stump_where_the_plan_looks_no_deeper() -> None:
    assert draws_out_stumps(rock(), plan(64), bent=93)
    # A plan that looks past the rock's end closes it: 16 of 40 rows are deeper than 12 and 2.
    assert not draws_out_stumps(rock(), plan(104), bent=93)
    # Where no lines break at the edge it is let be.
    assert not draws_out_stumps(rock(), plan(64), bent=92)


@pytest.mark.parametrize(
    "strip",
    [rock(long=30), rock(beyond=20), rock(long=0), rock(wide=2), slanted()],
    ids=["runs deep into the face", "other ground begins behind it", "nothing there", "narrow", "aslant"],
)
def test_what_is_no_stump(strip: I32) -> None:
    assert not draws_out_stumps(strip, plan(64), bent=200)


def test_only_the_columns_of_the_face_count() -> None:
    assert draws_out_stumps(rock(), plan(64), bent=93, first=40)
    assert not draws_out_stumps(rock(), plan(64), bent=93, second=45)


@pytest.mark.native
def test_a_side_with_stumps_beside_broken_lines_is_a_mirror(monkeypatch: pytest.MonkeyPatch) -> None:
    """The lower edge of parts of scikit-image's astronaut, which cuts what she wears and holds."""
    for left, top in ((50, 200), (60, 200), (110, 160)):
        box = (left, top, left + 358, top + 239)
        part = Image.fromarray(skimage.data.astronaut()).resize((293, 195), Image.Resampling.LANCZOS, box=box)
        strip = np.asarray(part)
        mirrored = plan_continued(strip, depth=DEPTH)
        assert (mirrored.slope == 0).all()
        assert (mirrored.deepest == 256).all()
        # The test can fail: nothing else makes it a mirror.
        with monkeypatch.context() as patched:
            patched.setattr(continued_plan, "draws_out_stumps", lambda *_, **__: False)
            assert np.abs(plan_continued(strip, depth=DEPTH).slope).max() > 0
