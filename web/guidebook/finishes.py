"""The folding of each finish, one drawing a step: the moment, what moves, and the way that it goes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from guidebook import svg
from guidebook.scene import drawn
from pycore.contract.check import check_job
from pycore.contract.job import Corners, Finish
from pycore.fold.flat_corner import corner_parts, cut_path
from pycore.fold.kinds import Kind
from pycore.fold.scene import BACK, BENCH, WALL, Floats, Look, View, box_of, moved, scene, seen_points
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.fold.stages import stages_of
from pycore.fold.steps import seam, step_of

#: The canvas that is drawn: 20 mm bars and 25 mm on the back, as a new job has.
DEPTH_MM: Final = 20.0
TURNOVER_MM: Final = 25.0

#: How far each drawing reaches from the corner along the face.
SHOWN_MM: Final = Look().shown_mm

#: The corners that a hand can fold step by step: lapped ones are cut back on the back.
FOLDED: Final = {
    Finish.TUCKED: Corners.WHOLE,
    Finish.LAPPED: Corners.CUT_BACK,
    Finish.TRIMMED: Corners.WHOLE,
}


def shown_spec(finish: Finish, *, corners: Corners | None = None, setback_mm: float = 0.0) -> FoldSpec:
    """The canvas of the drawings, in a finish."""
    job = check_job(
        {
            "bars": {"depth_mm": DEPTH_MM},
            "wrap": {
                "turnover_mm": TURNOVER_MM,
                "finish": finish.value,
                "corners": (corners or FOLDED[finish]).value,
                "setback_mm": setback_mm,
                "tab_mm": 9.0,
            },
        }
    )
    return fold_spec(job)


def step_drawings() -> Iterator[tuple[str, str]]:
    """Every step of every finish: the file's name and its text."""
    for finish in Finish:
        spec = shown_spec(finish)
        yield f"fold-{finish.value}-0-cut", flat_drawing(spec)
        for number, stage in enumerate(stages_of(spec), start=1):
            step = step_of(stage.name, spec, shown_mm=SHOWN_MM)
            at = stage.start + step.share * (stage.end - stage.start)
            moments = np.linspace(stage.start, stage.end, 19).tolist()
            ways = [moved(spec, kind, place, moments, BENCH) for kind, place in step.ways]
            polygons = scene(spec, at, BENCH, Look(lit=frozenset(step.lit)))
            box = box_of(polygons, extra=ways)
            parts = [*drawn(polygons), *(svg.arrow(way) for way in ways)]
            yield f"fold-{finish.value}-{number}-{stage.name}", svg.drawing(parts, box)
        for name, view in (("front", WALL), ("back", BACK)):
            yield f"fold-{finish.value}-{name}", folded_drawing(spec, view)


def folded_drawing(spec: FoldSpec, view: View) -> str:
    """A finished corner; from the front, the line on which the canvas meets."""
    polygons = scene(spec, 1.0, view, Look())
    parts = drawn(polygons)
    if view is WALL:
        parts.append(svg.line(seen_points(seam(spec), view), "bold"))
    return svg.drawing(parts, box_of(polygons))


def flat_drawing(spec: FoldSpec) -> str:
    """One corner of the flat canvas, seen from its back as it lies on the table: creases and cuts."""
    reach, shown = spec.reach_mm, 48.0
    square = np.array([[-shown, -shown], [reach, -shown], [reach, reach], [-shown, reach]])
    gone = [[0.0, reach], [reach, reach], [reach, 0.0]]
    parts = [svg.area(_face_down(np.array(square)), "ground")]
    found = corner_parts(spec, shown)
    parts += [svg.area(_face_down(one), "lit" if kind is Kind.TAB else "bare") for kind, one in found]
    parts += [svg.line(_face_down(one), "crease") for one in _edges([one for _, one in found])]
    whole = spec.whole
    if not whole:
        parts.append(svg.line(_face_down(cut_path(spec)), "cut"))
        parts.append(svg.line(_face_down(np.array(gone)), "crease"))
    edge = np.array([[-shown, reach], [0.0, reach], [reach, reach] if whole else [0.0, reach]])
    other = np.array([[reach, -shown], [reach, 0.0], [reach, reach] if whole else [reach, 0.0]])
    parts += [svg.line(_face_down(edge), "edge"), svg.line(_face_down(other), "edge")]
    d, r = spec.depth_mm, spec.turnover_mm
    words = [("face", -24.0, -26.0), ("side", -24.0, d / 2), ("turn-over", -24.0, d + r / 2)]
    if not whole:
        words.append(("cut away", spec.reach_mm / 2, d + r / 2))
    for text, p, q in words:
        x, y = _face_down(np.array([[p, q]]))[0]
        parts.append(svg.label(text, x, y + 3, size=8))
    x, y = _face_down(np.array([[-shown, -shown]]))[0]
    wide = shown + reach
    return svg.drawing(parts, (x - wide - 4, y - wide - 4, wide + 8, wide + 8))


def _edges(outlines: list[Floats]) -> list[Floats]:
    """The edges of polygons, one that two of them share only once."""
    found = {}
    for outline in outlines:
        for start, end in zip(outline.round(6), np.roll(outline, -1, axis=0).round(6), strict=True):
            found[frozenset([tuple(start), tuple(end)])] = np.array([start, end])
    return list(found.values())


def _face_down(local: Floats) -> Floats:
    """Points of the corner's frame as they are seen from the back: the right side lies to the left."""
    return np.column_stack([-local[:, 0], -local[:, 1]])
