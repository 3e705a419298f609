"""Photographs rated by eye: what the advice says of four fills is what is seen.

Each picture is a part of a photograph that scikit-image or scikit-learn brings, on a face of 300 x 200 mm
with bars 38 mm deep. A side is bad (b) where one sees at once that it was made up: chevrons, a thing twice,
a stub, streaks, melted shapes; where the picture runs on all round, where one minds that something distinct
is cut by the new edge or lies on the side: a head, an eye, lettering. It is good (g) where one does not; a
dot stands where it is neither clearly. The verdicts were written down from pictures of the flat canvas before
the figures were worked out. A side that is a mirror with its lines continued has the mirror's verdict.
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
from pycore.contract.job import Fill, Sides
from pycore.edges.advice import HINT_HARM, advise, harms
from pycore.edges.judge import EdgeFigures, judge
from pycore.edges.working import working_faces
from pycore.picture.read import read_picture
from pycore.render.laid_sides import laid_sides
from pycore.render.preview import PreviewSource
from pycore.render.run_on_sides import run_on_sides
from tests.shipped_photographs import shipped_photograph

pytestmark = pytest.mark.native

#: Left, top, width in shares of the photograph; the height follows.
Shares = tuple[float, float, float]


class Part(NamedTuple):
    """The rated part of a photograph."""

    picture: str
    shares: Shares


class Rated(NamedTuple):
    """Verdicts on top, right, bottom and left."""

    picture: str
    shares: Shares
    mirror: str
    continued: str
    drawn_out: str
    run_on: str


#: The figures' thresholds were set on these.
TUNED: Final = (
    Rated("astronaut", (0, 0.1, 1), "bbbb", "bggb", "bgbb", "b.bg"),
    Rated("astronaut", (0.35, 0.45, 0.6), "bbbb", "bgbb", "b.bb", "g..b"),
    Rated("brick", (0, 0, 1), "gbgb", "gbgb", "....", "gggg"),
    Rated("camera", (0, 0.1, 1), "bgbb", "ggbb", "g.bg", "bggg"),
    Rated("camera", (0.25, 0.1, 0.6), "bbbb", "gbb.", "g..g", "b..."),
    Rated("chelsea", (0, 0, 1), "bgbg", "bgbg", "bg.b", "gg.g"),
    Rated("chelsea", (0.25, 0.2, 0.6), "ggbb", "ggbg", "bgbb", ".gbb"),
    Rated("china", (0, 0, 1), "bggg", "gggg", "gbbb", "bgg."),
    Rated("china", (0.05, 0.3, 0.55), ".bgg", ".ggg", "b.bb", "..g."),
    Rated("coffee", (0, 0, 1), "bbbb", "bbbg", ".b.b", "bgb."),
    Rated("coffee", (0.1, 0.1, 0.55), "bbbb", "bbbb", "bbbb", "..bg"),
    Rated("coins", (0, 0.1, 1), "bbbg", "bbbg", "bgbg", "bbbb"),
    Rated("flower", (0, 0, 1), "ggb.", "ggb.", "ggbg", "ggbg"),
    Rated("flower", (0.2, 0.1, 0.5), "gbgg", "gbgg", "g.bg", "g.bg"),
    Rated("grass", (0, 0, 1), "gggg", "gggg", "bbbb", "gggg"),
    Rated("gravel", (0, 0, 1), "gggg", "gggg", "bbbb", "gggg"),
    Rated("motorcycle", (0, 0, 1), "gbbg", "gbgg", ".bgb", "gb.."),
    Rated("motorcycle", (0.15, 0.2, 0.55), ".bbb", ".bbb", ".bbb", "...."),
    Rated("rocket", (0, 0, 1), "gbbb", "gbbb", ".bbb", "ggbg"),
    Rated("rocket", (0.3, 0.25, 0.6), "bggg", "gggg", "gb.b", "bggg"),
)

#: These judge them. The mirror's thresholds were then set anew on other photographs, with the agreement on
#: these as a floor: for the mirror they are a check that nothing is lost, no longer a judge. The outlines of
#: shapes were set on these and on 316 sides of other photographs (374 of 431 shared, 364 before), and judged
#: by 176 sides of photographs that nobody had seen: 151 were shared (148 before), among them 110 of 120 bad
#: ones. Of 127 continued sides of those 102 were shared (101 before), among them 49 of 59 bad ones. For the
#: edge drawn out too they are a check only: its figures were set anew on these and on 130 sides of
#: photographs that no package of the tests brings; on 148 sides of others, which nobody had seen, 137
#: verdicts were shared (131 before). The figures of what runs on were set on all of these and on 274 other
#: sides (235 shared), and judged by 286 of photographs that nobody had seen: 251 were shared, among them 21
#: of 41 bad ones. Nine of ten is not reached for the mirror, for continued sides and for what runs on.
JUDGED: Final = (
    Rated("astronaut", (0, 0, 0.55), "bbbb", ".bbb", ".bbb", "bb.."),
    Rated("brick", (0.3, 0.3, 0.5), "gb.g", "gb.g", ".g..", "gggg"),
    Rated("camera", (0.45, 0.35, 0.55), "bgbb", "bggb", "b.b.", ".gg."),
    Rated("chelsea", (0, 0.3, 0.5), "bbgg", "bbgg", "bb.g", "b.gg"),
    Rated("china", (0.4, 0.3, 0.6), ".gg.", ".gg.", ".bbb", "ggg."),
    Rated("coffee", (0.3, 0.4, 0.65), "b.bb", "..g.", "bb..", ".g.."),
    Rated("coins", (0.3, 0.3, 0.5), ".bbb", "ggbb", "gggb", "bbbb"),
    Rated("flower", (0.25, 0.42, 0.55), "ggbb", "ggbb", "bgbg", "b.b."),
    Rated("motorcycle", (0.45, 0.3, 0.5), "bbbb", "bb.b", "b.bb", "b..b"),
    Rated("retina", (0.1, 0.15, 0.6), "bg.b", "bg.b", ".gg.", "ggg."),
    Rated("rocket", (0, 0.35, 0.6), ".b.b", ".b.b", ".gb.", "g.bg"),
    Rated("tissue", (0, 0, 1), ".g.b", ".ggb", "b.bb", "gggg"),
)


class Beside(NamedTuple):
    """Another fill beside the mirror on top, right, bottom and left: better (+), no better (=), worse (-)."""

    run_on: str
    continued: str
    drawn_out: str
    plain: str


#: The same parts in the same order; a dot stands where nobody looked. The pairs were shown in any order,
#: and the verdicts written down before it was known which was which. What is called better was set on 421
#: sides of other photographs and judged by 143 photographs that nobody had seen: of 126 sides the fill that
#: is called better was better than the mirror on 102, no better on 23 (most often the picture cuts an
#: animal's head as it runs on) and worse on 1. On 86 further photographs, half of them with people or animals
#: near an edge, it was better on 152 of 177 sides, no better on 25 (most often the mirror's fault is hardly
#: seen there) and worse on none. While one colour and an edge of many colours drawn out were called better
#: too, it was better on 106 of 155, no better on 23 and worse on 26. Twelve sides that one colour had made
#: better and one that was drawn out are left as they are.
BESIDE: Final = {
    "tuned": (
        Beside("=+.+", "....", ".+..", "+.+."),
        Beside("++.+", "....", "....", "=.=="),
        Beside(".+.+", "....", "....", "...."),
        Beside("..+.", "+...", "+...", "...-"),
        Beside(".=..", "+...", "+..+", "..=."),
        Beside("+.++", "....", "....", "...."),
        Beside("+.=.", "...+", "....", "...."),
        Beside("....", "+...", "+...", "...."),
        Beside("+...", "....", "....", "...."),
        Beside(".+++", "...+", "....", "+..."),
        Beside("++.+", "....", "....", "..=."),
        Beside("+.+.", "...+", ".+..", "=..."),
        Beside(".+..", "....", ".=..", "..-."),
        Beside(".++.", "....", "....", "...."),
        Beside("....", "....", "....", "...."),
        Beside("....", "....", "....", "...."),
        Beside(".++.", "....", "....", "...."),
        Beside(".+++", "....", "....", "...."),
        Beside("..++", "....", "....", "..-."),
        Beside("....", "+...", "....", "...."),
    ),
    "judged": (
        Beside(".=++", "+...", "....", "...-"),
        Beside(".+..", "....", "....", "...."),
        Beside("+.++", "....", "....", "...."),
        Beside("++.+", "....", "....", "...."),
        Beside("+..+", "....", "....", "...."),
        Beside("++++", "....", "....", "...."),
        Beside("....", "++..", "..+.", "...-"),
        Beside("+..+", "....", "...+", "..-."),
        Beside("++++", "....", "....", "...."),
        Beside("+.++", "....", "....", "...."),
        Beside(".+.+", "....", "....", "..-."),
        Beside("+.++", "....", "....", "...."),
    ),
}

#: Parts of the same photographs where a head, a wheel or a mast stands near an edge, so that what runs on
#: cuts it or takes it round the edge. They are rated in the same way and set nothing. A rule that withholds
#: what runs on where a front edge then cuts a thing was tried on 329 rated sides; 38 of them looked no better
#: than a mirror. How hard a place is to reach from the picture's border, colours that the border has not,
#: things that an edge cuts and that were whole before, the plainest shape, and some sixty figures together
#: parted those 38 from the others hardly better than chance. Of 156 other sides three such rules took 7, 35
#: and 16 away, of which 7, 32 and 14 were better than the mirror. So there is no such rule.
CUT_THROUGH: Final = {
    Part("astronaut", (0, 0, 0.9)): Beside(".+.+", "....", "....", "...."),
    Part("astronaut", (0.1, 0, 0.7)): Beside(".+++", "+...", "....", "...."),
    Part("astronaut", (0.2, 0.02, 0.8)): Beside("..++", "....", "+...", "...."),
    Part("camera", (0.05, 0.05, 0.9)): Beside("...+", "+.=.", "....", "...."),
    Part("camera", (0.2, 0.1, 0.5)): Beside("...+", "+.+.", "....", "...."),
    Part("camera", (0, 0.1, 0.7)): Beside("..=.", "++..", "....", "...."),
    Part("chelsea", (0.05, 0, 0.9)): Beside("+++.", "....", "....", "...."),
    Part("chelsea", (0.3, 0.05, 0.6)): Beside("+..=", "....", "....", "...."),
    Part("rocket", (0.1, 0.05, 0.8)): Beside("..++", "....", "....", "...."),
    Part("motorcycle", (0.05, 0.05, 0.85)): Beside("+.+.", "....", "....", "...."),
}

_SIZE: Final = (708, 472)

#: Photographs of packages by the names used above.
_NAMED: Final = {"tissue": "immunohistochemistry", "motorcycle": "stereo_motorcycle"}


@lru_cache
def figures_of(part: Part) -> list[EdgeFigures]:
    """The four sides of the part."""
    if part.picture in {"china", "flower"}:
        pixels = np.asarray(Image.open(shipped_photograph(part.picture)))
    else:
        pixels = getattr(skimage.data, _NAMED.get(part.picture, part.picture))()
    image = Image.fromarray(pixels[0] if isinstance(pixels, tuple) else pixels).convert("RGB")
    left, top, share = part.shares
    high = min(image.width * share * 2 / 3, image.height)
    wide = high * 3 / 2
    x, y = min(image.width * left, image.width - wide), min(image.height * top, image.height - high)
    kernel = Image.Resampling.LANCZOS if wide > _SIZE[0] else Image.Resampling.BICUBIC
    file = io.BytesIO()
    image.resize(_SIZE, kernel, box=(x, y, x + wide, y + high)).save(file, "PNG", compress_level=1)
    preview = PreviewSource(read_picture(file.getvalue(), file="part.png"))
    job = check_job({"bars": {"depth_mm": 38}, "wrap": {"ink_over_mm": 3}})
    face = working_faces(job, preview.reduced, width_px=_SIZE[0], height_px=_SIZE[1])[0]
    run_on = run_on_sides(preview.plans, job.model_copy(update={"sides": Sides(fill=Fill.RUN_ON)}))[0]
    return judge(face, laid_sides(preview.plans, job), run_on)


def agreement(table: tuple[Rated, ...], fill: Fill) -> tuple[int, int]:
    """How many clear verdicts there are, and how many of them the advice shares."""
    clear = shared = 0
    for rated in table:
        verdicts = getattr(rated, fill.name.lower())
        for figures, verdict in zip(figures_of(Part(*rated[:2])), verdicts, strict=True):
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
        (TUNED, Fill.RUN_ON, 58, 50),
        (JUDGED, Fill.MIRROR, 38, 36),
        (JUDGED, Fill.CONTINUED, 36, 33),
        (JUDGED, Fill.DRAWN_OUT, 32, 30),
        (JUDGED, Fill.RUN_ON, 33, 26),
    ],
    ids=[
        "tuned mirror",
        "tuned continued",
        "tuned drawn-out",
        "tuned run-on",
        "judged mirror",
        "judged continued",
        "judged drawn-out",
        "judged run-on",
    ],
)
def test_the_advice_says_what_is_seen(table: tuple[Rated, ...], fill: Fill, clear: int, shared: int) -> None:
    """Regression: the agreement that was measured, which no change may lower; nine of ten is sought."""
    found = agreement(table, fill)
    assert found[0] == clear
    assert found[1] >= shared


def rated_parts(table: tuple[Rated, ...], beside: tuple[Beside, ...]) -> dict[Part, Beside]:
    """What stands beside the mirror, by part."""
    return {Part(*rated[:2]): shown for rated, shown in zip(table, beside, strict=True)}


@pytest.mark.parametrize(
    ("parts", "better"),
    [
        (rated_parts(TUNED, BESIDE["tuned"]), 38),
        (rated_parts(JUDGED, BESIDE["judged"]), 33),
        (CUT_THROUGH, 24),
    ],
    ids=["tuned", "judged", "cut through"],
)
def test_what_is_called_better_looks_better_than_a_mirror(parts: dict[Part, Beside], better: int) -> None:
    """Regression: of 41, 34 and 27 sides where another fill is called better; none may look worse."""
    verdicts = [
        getattr(shown, found.name.lower(), "....")[index]
        for part, shown in parts.items()
        for index, figures in enumerate(figures_of(part))
        if (found := advise(figures, Fill.MIRROR).better) is not None
    ]
    assert verdicts.count("+") >= better
    assert "-" not in verdicts
