"""Photographs rated by eye: the advice on a mirror, continued lines and a drawn-out edge says what is seen.

Each picture is a part of a photograph that scikit-image or scikit-learn brings, on a face of 300 x 200 mm
with bars 38 mm deep. A side is bad (b) where one sees at once that it was made up: chevrons, a thing twice,
a stub, streaks, melted shapes. It is good (g) where one does not; a dot stands where it is neither clearly.
The verdicts were written down from pictures of the flat canvas before the figures were worked out. A side
that is a mirror with its lines continued has the mirror's verdict.
"""

from __future__ import annotations

import io
from functools import lru_cache
from typing import Final, NamedTuple

import numpy as np
import pytest
import skimage.data
from PIL import Image

from pycore.contract.check import check_job
from pycore.contract.job import Fill
from pycore.edges.advice import HINT_HARM, harms
from pycore.edges.judge import EdgeFigures, judge
from pycore.edges.working import working_faces
from pycore.picture.read import read_picture
from pycore.render.laid_sides import laid_sides
from pycore.render.preview import PreviewSource
from tests.shipped_photographs import shipped_photograph

pytestmark = pytest.mark.native

#: The rated part: left, top, width in shares of the photograph; its height follows.
Part = tuple[float, float, float]


class Rated(NamedTuple):
    """Verdicts on top, right, bottom and left."""

    picture: str
    part: Part
    mirror: str
    continued: str
    drawn_out: str


#: The figures' thresholds were set on these.
TUNED: Final = (
    Rated("astronaut", (0, 0.1, 1), "bbbb", "bggb", "bgbb"),
    Rated("astronaut", (0.35, 0.45, 0.6), "bbbb", "bgbb", "b.bb"),
    Rated("brick", (0, 0, 1), "gbgb", "gbgb", "...."),
    Rated("camera", (0, 0.1, 1), "bgbb", "ggbb", "g.bg"),
    Rated("camera", (0.25, 0.1, 0.6), "bbbb", "gbb.", "g..g"),
    Rated("chelsea", (0, 0, 1), "bgbg", "bgbg", "bg.b"),
    Rated("chelsea", (0.25, 0.2, 0.6), "ggbb", "ggbg", "bgbb"),
    Rated("china", (0, 0, 1), "bggg", "gggg", "gbbb"),
    Rated("china", (0.05, 0.3, 0.55), ".bgg", ".ggg", "b.bb"),
    Rated("coffee", (0, 0, 1), "bbbb", "bbbg", ".b.b"),
    Rated("coffee", (0.1, 0.1, 0.55), "bbbb", "bbbb", "bbbb"),
    Rated("coins", (0, 0.1, 1), "bbbg", "bbbg", "bgbg"),
    Rated("flower", (0, 0, 1), "ggb.", "ggb.", "ggbg"),
    Rated("flower", (0.2, 0.1, 0.5), "gbgg", "gbgg", "g.bg"),
    Rated("grass", (0, 0, 1), "gggg", "gggg", "bbbb"),
    Rated("gravel", (0, 0, 1), "gggg", "gggg", "bbbb"),
    Rated("motorcycle", (0, 0, 1), "gbbg", "gbgg", ".bgb"),
    Rated("motorcycle", (0.15, 0.2, 0.55), ".bbb", ".bbb", ".bbb"),
    Rated("rocket", (0, 0, 1), "gbbb", "gbbb", ".bbb"),
    Rated("rocket", (0.3, 0.25, 0.6), "bggg", "gggg", "gb.b"),
)

#: These judge them. The mirror's thresholds were then set anew on other photographs, with the agreement on
#: these as a floor: for the mirror they are a check that nothing is lost, no longer a judge. Of
#: the edge drawn out the measure was chosen with these in sight, the threshold was not.
JUDGED: Final = (
    Rated("astronaut", (0, 0, 0.55), "bbbb", ".bbb", ".bbb"),
    Rated("brick", (0.3, 0.3, 0.5), "gb.g", "gb.g", ".g.."),
    Rated("camera", (0.45, 0.35, 0.55), "bgbb", "bggb", "b.b."),
    Rated("chelsea", (0, 0.3, 0.5), "bbgg", "bbgg", "bb.g"),
    Rated("china", (0.4, 0.3, 0.6), ".gg.", ".gg.", ".bbb"),
    Rated("coffee", (0.3, 0.4, 0.65), "b.bb", "..g.", "bb.."),
    Rated("coins", (0.3, 0.3, 0.5), ".bbb", "ggbb", "gggb"),
    Rated("flower", (0.25, 0.42, 0.55), "ggbb", "ggbb", "bgbg"),
    Rated("motorcycle", (0.45, 0.3, 0.5), "bbbb", "bb.b", "b.bb"),
    Rated("retina", (0.1, 0.15, 0.6), "bg.b", "bg.b", ".gg."),
    Rated("rocket", (0, 0.35, 0.6), ".b.b", ".b.b", ".gb."),
    Rated("tissue", (0, 0, 1), ".g.b", ".ggb", "b.bb"),
)

_SIZE: Final = (708, 472)

#: Photographs of packages by the names used above.
_NAMED: Final = {"tissue": "immunohistochemistry", "motorcycle": "stereo_motorcycle"}


@lru_cache
def figures_of(rated: Rated) -> list[EdgeFigures]:
    """The four sides of the part."""
    if rated.picture in {"china", "flower"}:
        pixels = np.asarray(Image.open(shipped_photograph(rated.picture)))
    else:
        pixels = getattr(skimage.data, _NAMED.get(rated.picture, rated.picture))()
    image = Image.fromarray(pixels[0] if isinstance(pixels, tuple) else pixels).convert("RGB")
    left, top, share = rated.part
    high = min(image.width * share * 2 / 3, image.height)
    wide = high * 3 / 2
    x, y = min(image.width * left, image.width - wide), min(image.height * top, image.height - high)
    kernel = Image.Resampling.LANCZOS if wide > _SIZE[0] else Image.Resampling.BICUBIC
    file = io.BytesIO()
    image.resize(_SIZE, kernel, box=(x, y, x + wide, y + high)).save(file, "PNG", compress_level=1)
    preview = PreviewSource(read_picture(file.getvalue(), file="part.png"))
    job = check_job({"bars": {"depth_mm": 38}, "wrap": {"ink_over_mm": 3}})
    face = working_faces(job, preview.reduced, width_px=_SIZE[0], height_px=_SIZE[1])[0]
    return judge(face, laid_sides(preview.plans, job))


def agreement(table: tuple[Rated, ...], fill: Fill) -> tuple[int, int]:
    """How many clear verdicts there are, and how many of them the advice shares."""
    clear = shared = 0
    for rated in table:
        verdicts = getattr(rated, fill.name.lower())
        for figures, verdict in zip(figures_of(rated), verdicts, strict=True):
            if verdict != ".":
                clear += 1
                shared += (max(harms(figures, fill).values()) >= HINT_HARM) == (verdict == "b")
    return clear, shared


@pytest.mark.parametrize(
    ("table", "fill", "clear", "shared"),
    [
        (TUNED, Fill.MIRROR, 77, 70),
        (TUNED, Fill.CONTINUED, 76, 69),
        (TUNED, Fill.DRAWN_OUT, 63, 61),
        (JUDGED, Fill.MIRROR, 38, 35),
        (JUDGED, Fill.CONTINUED, 36, 33),
        (JUDGED, Fill.DRAWN_OUT, 32, 30),
    ],
    ids=[
        "tuned mirror",
        "tuned continued",
        "tuned drawn-out",
        "judged mirror",
        "judged continued",
        "judged drawn-out",
    ],
)
def test_the_advice_says_what_is_seen(table: tuple[Rated, ...], fill: Fill, clear: int, shared: int) -> None:
    """Regression: the agreement that was measured, which no change may lower; nine of ten is sought."""
    found = agreement(table, fill)
    assert found[0] == clear
    assert found[1] >= shared
