"""A corner of the folded canvas seen at a slant: which printed point every pixel of a small picture shows.

The drawing comes from the fold's own facets and motion, so it shows what the chosen finish shows. One
long file, because view, light and sampling are one drawing and are read together.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish
from pycore.fold.facets import Corner, Facet, corners, flat_facets
from pycore.fold.heights import FACING_IN
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.motion import facet_maps
from pycore.fold.polygons import beyond
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import stages_of

Floats = npt.NDArray[np.float64]

#: The picture's size as it is handed out; it is drawn twice as fine each way.
PICTURE_WIDTH_PX: Final = 216
PICTURE_HEIGHT_PX: Final = 208
FINER: Final = 2

#: The face is shown so many bar depths from the corner, and from behind so far past the turn-over.
_FACE_DEPTHS: Final = 1.9
_PAST_TURNOVER_DEPTHS: Final = 1.3

#: The wood of a bar, in depths. Common practice, no source; it tells which part of the back is bare wood.
_BAR_DEPTHS: Final = 1.9

#: Where the corner is cut out of the whole it fades over this share of what is shown.
_FADE: Final = 0.16

#: How much nearer each layer counts than the one that it lies on, so that the upper one is seen.
_APART_MM: Final = 0.1

#: Light that reaches a surface which faces away from the lamp.
_AMBIENT: Final = 0.66

#: How dark a line between two parts of the canvas is drawn.
_LINE: Final = 0.35

#: Two parts whose surfaces look one way are told apart by their line alone; an edge by its shade as well.
_EDGE_LINE: Final = 0.9


class Seen(StrEnum):
    """From where a corner is seen."""

    FRONT = "front"
    BACK = "back"


class Material:
    """What a pixel shows."""

    NOTHING: Final = 0
    PRINT: Final = 1
    CANVAS: Final = 2
    WOOD: Final = 3


@dataclass(frozen=True, kw_only=True, eq=False)
class CornerView:
    """What each pixel of a picture shows, row 0 at the top.

    Attributes
    ----------
    material : (rows, columns) uint8
        Of `Material`.
    across_mm, down_mm : (rows, columns) float32
        On the flat sheet, outwards from the corner of the face: negative on the face.
    light : (rows, columns) float32
        0 to 1: what lighting and lines leave of the colour.
    opacity : (rows, columns) float32
        0 to 1: where the corner is cut out of the whole it fades.
    """

    material: npt.NDArray[np.uint8]
    across_mm: npt.NDArray[np.float32]
    down_mm: npt.NDArray[np.float32]
    light: npt.NDArray[np.float32]
    opacity: npt.NDArray[np.float32]


@dataclass(frozen=True, kw_only=True, eq=False)
class _Part:
    """A flat polygon in space."""

    flat: Floats
    turn: Floats
    shift: Floats
    normal: Floats
    print_side: Floats
    layer: int
    is_wood: bool = False


@dataclass
class _Buffers:
    number: npt.NDArray[np.int16]
    depth: npt.NDArray[np.float32]
    across: npt.NDArray[np.float32]
    down: npt.NDArray[np.float32]


#: The stage that tells a finish from the others, and how far into it.
_TELLING: Final = {
    Finish.TUCKED: ("tuck", 0.72),
    Finish.LAPPED: ("wrap", 0.45),
    Finish.TRIMMED: ("over", 0.5),
}


def telling_moment(spec: FoldSpec) -> float:
    """The moment of the fold at which a finish shows how its corner is laid.

    Parameters
    ----------
    spec : FoldSpec

    Returns
    -------
    float
        0 flat to 1 folded.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> round(telling_moment(fold_spec(Job())), 3)
    0.573
    """
    name, share = _TELLING[spec.finish]
    stage = next(one for one in stages_of(spec) if one.name == name)
    return stage.start + share * (stage.end - stage.start)


def shown_face_mm(spec: FoldSpec, *, seen: Seen) -> float:
    """How much of the face's edges is shown from the corner on.

    Parameters
    ----------
    spec : FoldSpec
    seen : Seen

    Returns
    -------
    float
        mm, no more than the face has.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> shown_face_mm(fold_spec(Job()), seen=Seen.FRONT)
    38.0
    """
    wanted = _FACE_DEPTHS * spec.depth_mm
    if seen is Seen.BACK:
        wanted = max(wanted, spec.turnover_mm + _PAST_TURNOVER_DEPTHS * spec.depth_mm)
    return min(wanted, spec.width_mm, spec.height_mm)


@lru_cache(maxsize=16)
def corner_view(spec: FoldSpec, *, corner: str, seen: Seen, moment: float = 1.0) -> CornerView:
    """Draw a corner of the folded canvas.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    corner : str
        A name of `fold.facets.corners`.
    seen : Seen
    moment : float
        Of the fold, 0 flat to 1 folded.

    Returns
    -------
    CornerView
        `FINER` times the picture's size each way.

    Notes
    -----
    Orthographic. Every facet is rigid, so that a pixel's place on it, whether it lies inside and how near it
    is are linear in the pixel's column and row; the nearest facet is seen.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> view = corner_view(fold_spec(Job()), corner="top-right", seen=Seen.FRONT)
    >>> view.material.shape
    (416, 432)
    """
    at = corners(spec)[corner]
    signs = np.where(at.origin > 0, 1.0, -1.0)
    reach = shown_face_mm(spec, seen=seen)
    parts = _parts(spec, at, signs, reach, seen, moment)
    camera = _camera(signs, seen)
    rows, columns = PICTURE_HEIGHT_PX * FINER, PICTURE_WIDTH_PX * FINER
    scale, middle = _fitted(parts, camera, columns=columns, rows=rows)
    drawn = _Buffers(
        number=np.full((rows, columns), -1, np.int16),
        depth=np.full((rows, columns), -np.inf, np.float32),
        across=np.zeros((rows, columns), np.float32),
        down=np.zeros((rows, columns), np.float32),
    )
    place = np.array([columns / 2, rows / 2]) - scale * np.array([middle[0], -middle[1]])
    for number, part in enumerate(parts):
        _draw(drawn, part, number, camera, scale, place)
    return _finished(drawn, parts, camera, at, signs, reach)


def _parts(spec: FoldSpec, at: Corner, signs: Floats, reach: float, seen: Seen, moment: float) -> list[_Part]:
    facets = [one for one in flat_facets(spec) if one.kind is Kind.FACE or at.name in _ends(one)]
    ranks = layer_ranks(spec)
    parts = []
    for facet, rigid in zip(facets, facet_maps(spec, facets, np.array([moment])), strict=True):
        flat = _cut_out(facet.flat, at, signs, reach)
        if len(flat) < 3:
            continue
        print_side = rigid.turn[0][:, 2]
        parts.append(
            _Part(
                flat=flat,
                turn=rigid.turn[0],
                shift=rigid.shift[0],
                normal=-print_side if facet.kind in FACING_IN else print_side,
                print_side=print_side,
                layer=ranks[facet.kind],
            )
        )
    return [*parts, *_wood(spec, at, signs, reach)] if seen is Seen.BACK else parts


def _ends(facet: Facet) -> set[str]:
    return {corner.name for corner in facet.ends}


def _cut_out(flat: Floats, at: Corner, signs: Floats, reach: float) -> Floats:
    """What of a facet lies within reach of the corner."""
    for axis in range(2):
        outwards = np.eye(2)[axis] * signs[axis]
        kept = beyond([flat], at.origin - outwards * reach, outwards)
        if not kept:
            return np.empty((0, 2))
        flat = kept[0]
    return flat


def _wood(spec: FoldSpec, at: Corner, signs: Floats, reach: float) -> list[_Part]:
    """The backs of the two bars that meet in the corner."""
    wide = min(_BAR_DEPTHS * spec.depth_mm, reach)
    behind = np.array([0.0, 0.0, -1.0])
    parts = []
    mitre = [-wide, -wide]
    for outline in (
        [[-reach, 0.0], [0.0, 0.0], mitre, [-reach, -wide]],
        [[0.0, 0.0], [0.0, -reach], [-wide, -reach], mitre],
    ):
        parts.append(
            _Part(
                flat=at.origin + np.array(outline) * signs,
                turn=np.eye(3),
                shift=spec.depth_mm * behind,
                normal=behind,
                print_side=behind,
                layer=0,
                is_wood=True,
            )
        )
    return parts


def _camera(signs: Floats, seen: Seen) -> Floats:
    """Rows: to the right, up, and towards the eye."""
    eye = np.array([0.8 * signs[0], 0.56 * signs[1], 1.0 if seen is Seen.FRONT else -1.2])
    eye /= np.linalg.norm(eye)
    right = np.cross([0.0, 1.0, 0.0], eye)
    right /= np.linalg.norm(right)
    return np.stack([right, np.cross(eye, right), eye])


def _fitted(parts: list[_Part], camera: Floats, *, columns: int, rows: int) -> tuple[float, Floats]:
    """The pixels of a mm, and the middle of what is drawn, mm to the right and up."""
    points = np.concatenate([(part.flat @ part.turn[:, :2].T + part.shift) @ camera[:2].T for part in parts])
    low, high = points.min(axis=0), points.max(axis=0)
    extent = high - low
    return float(min((columns - 4) / extent[0], (rows - 4) / extent[1])), (low + high) / 2


def _draw(drawn: _Buffers, part: _Part, number: int, camera: Floats, scale: float, place: Floats) -> None:
    """Draw a part where it is nearest so far."""
    to_pixels = np.array([[scale], [-scale]]) * camera[:2]
    linear = to_pixels @ part.turn[:, :2]
    if abs(np.linalg.det(linear)) < 1e-6 * scale * scale:
        return
    origin = to_pixels @ part.shift + place
    points = part.flat @ linear.T + origin
    rows, columns = drawn.number.shape
    left, top = np.maximum(np.floor(points.min(axis=0)), 0).astype(int)
    right, bottom = np.minimum(np.ceil(points.max(axis=0)), [columns, rows]).astype(int)
    if left >= right or top >= bottom:
        return
    # Pixel centres, and the place on the sheet as a linear function of them.
    x = np.arange(left, right, dtype=np.float32) + np.float32(0.5)
    y = (np.arange(top, bottom, dtype=np.float32) + np.float32(0.5))[:, np.newaxis]
    back = np.linalg.inv(linear)

    def over_pixels(weights: Floats, constant: float) -> npt.NDArray[np.float32]:
        """At every pixel: weights . (place on the sheet) + constant."""
        per_pixel = weights @ back
        offset = constant - per_pixel @ origin
        of_x = x * np.float32(per_pixel[0]) + np.float32(offset)
        return (of_x + y * np.float32(per_pixel[1])).astype(np.float32, copy=False)

    window = (slice(top, bottom), slice(left, right))
    towards = camera[2]
    nearer = _APART_MM * part.layer * float(towards @ part.normal)
    depth = over_pixels(towards @ part.turn[:, :2], float(towards @ part.shift) + nearer)
    shown = depth > drawn.depth[window]
    outline = part.flat
    for start, end in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        along = end - start
        inward = np.array([-along[1], along[0]])
        inward *= np.sign(inward @ (outline.mean(axis=0) - start)) / np.linalg.norm(along)
        shown &= over_pixels(inward, float(-inward @ start)) >= 0
    drawn.number[window][shown] = number
    drawn.depth[window][shown] = depth[shown]
    drawn.across[window][shown] = over_pixels(np.array([1.0, 0.0]), 0.0)[shown]
    drawn.down[window][shown] = over_pixels(np.array([0.0, 1.0]), 0.0)[shown]


def _finished(
    drawn: _Buffers, parts: list[_Part], camera: Floats, at: Corner, signs: Floats, reach: float
) -> CornerView:
    # A lamp above the viewer's left shoulder.
    lamp = camera[2] + 0.55 * camera[1] - 0.45 * camera[0]
    lamp /= np.linalg.norm(lamp)
    # The last place stands for no part at all.
    shade = np.array([*(_AMBIENT + (1 - _AMBIENT) * max(0.0, part.normal @ lamp) for part in parts), 1.0])
    shade /= shade[:-1].max()
    material = np.array(
        [
            *(
                Material.WOOD
                if part.is_wood
                else Material.PRINT
                if part.print_side @ camera[2] > 0
                else Material.CANVAS
                for part in parts
            ),
            Material.NOTHING,
        ],
        np.uint8,
    )
    same_way = np.array([[bool(np.allclose(a.normal, b.normal)) for b in parts] for a in parts])
    light = shade.astype(np.float32)[drawn.number]
    _draw_lines(light, drawn.number, same_way)
    across = ((drawn.across - at.origin[0]) * signs[0]).astype(np.float32)
    down = ((drawn.down - at.origin[1]) * signs[1]).astype(np.float32)
    inside = np.minimum(across, down) + np.float32(reach)
    opacity = np.clip(inside / np.float32(_FADE * reach), 0.0, 1.0)
    opacity[drawn.number < 0] = 0.0
    return CornerView(
        material=material[drawn.number],
        across_mm=across,
        down_mm=down,
        light=light,
        opacity=opacity * opacity * (3 - 2 * opacity),
    )


def _draw_lines(
    light: npt.NDArray[np.float32], number: npt.NDArray[np.int16], same_way: npt.NDArray[np.bool_]
) -> None:
    """Darken the pixels at which one part ends and another begins."""
    for here, there in (
        ((slice(None), slice(0, -1)), (slice(None), slice(1, None))),
        ((slice(0, -1), slice(None)), (slice(1, None), slice(None))),
    ):
        first, second = number[here], number[there]
        rows, columns = np.nonzero((first != second) & (first >= 0) & (second >= 0))
        strength = np.where(same_way[first[rows, columns], second[rows, columns]], _LINE, _EDGE_LINE)
        for part in (light[here], light[there]):
            part[rows, columns] *= strength.astype(np.float32)
