"""What variants share: one texture for all that show the same on their sides, whatever the depth.

A mirror without blur, a drawn-out and a plain side show at each distance from the edge the same on shallow
bars as on deep ones. So the deepest variant's texture holds every shallower one: a window in its middle, in
which the shallower canvas ends earlier. Running on eats into the picture by the depth, fades and soft mirrors
are scaled to it, and a continued side is planned for its own depth: these have a texture for each depth.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from pycore.contract.job import Fill, Job, ResolvedFill, side_fill
from pycore.conventions import Side
from pycore.layout.grid import PixelGrid, Six


@dataclass(frozen=True, kw_only=True)
class Placement:
    """A variant's flat canvas as a window in a texture.

    Attributes
    ----------
    left, top : int
        The window's first column and row in the texture.
    grid : PixelGrid
        The canvas's lines, counted from the window's corner. Its face is as many pixels as the texture's.
    """

    left: int
    top: int
    grid: PixelGrid


def depends_on_depth(job: Job) -> bool:
    """Whether the sides' pixels at a given distance from the front edge change with the bar depth.

    Parameters
    ----------
    job : Job

    Returns
    -------
    bool

    Examples
    --------
    >>> depends_on_depth(Job())
    False
    """
    return any(_scaled(side_fill(job.sides, side)) for side in Side)


def texture_key(job: Job) -> Hashable:
    """What a variant's texture depends on; variants with equal keys share the deepest one's.

    Parameters
    ----------
    job : Job

    Returns
    -------
    hashable
        Neither the corner finish nor colour is in it; the depth only where the fills depend on it.

    Examples
    --------
    >>> from pycore.compare.variants import depth_variants, fill_variants
    >>> len({texture_key(one.job) for one in depth_variants(Job(), [18, 38, 50])})
    1
    >>> len({texture_key(one.job) for one in fill_variants(Job(), ["mirror", "plain"])})
    2
    """
    fills = [side_fill(job.sides, side) for side in Side]
    continued = any(fill.fill is Fill.CONTINUED for fill in fills)
    return (
        job.picture.crop,
        job.picture.turn,
        job.picture.enlarging,
        job.face,
        job.group,
        job.canvas.thickness_mm,
        job.canvas.stretch_percent,
        job.wrap.turnover_mm,
        job.wrap.ink_over_mm,
        tuple(_shown(fill) for fill in fills),
        # Where something is laid over the sides, the under pair's turns into the over pair's at the corners.
        job.wrap.over if any(_laid_over(fill) for fill in fills) else None,
        job.bars.depth_mm if depends_on_depth(job) else None,
        (job.sides, job.wrap) if continued else None,
    )


def shared(jobs: Sequence[Job]) -> tuple[list[Job], list[int]]:
    """Group jobs by texture.

    Parameters
    ----------
    jobs : sequence of Job

    Returns
    -------
    deepest : list of Job
        One a texture: the job that it is rendered for.
    places : list of int
        For each job its texture's place among them.

    Examples
    --------
    >>> from pycore.compare.variants import depth_variants
    >>> deepest, places = shared([one.job for one in depth_variants(Job(), [38, 18, 50])])
    >>> [job.bars.depth_mm for job in deepest], places
    ([50.0], [0, 0, 0])
    """
    keys = [texture_key(job) for job in jobs]
    different = list(dict.fromkeys(keys))
    places = [different.index(key) for key in keys]
    deepest = [
        max((job for job, place in zip(jobs, places, strict=True) if place == wanted), key=_depth)
        for wanted in range(len(different))
    ]
    return deepest, places


def placed(own: PixelGrid, deepest: PixelGrid) -> Placement:
    """Find a shallower canvas in a deeper one's texture: edge on front edge, all else at its own distance.

    Rounded to pixels, the two faces may differ by one; then the texture's is taken, and the window is as much
    larger or smaller.

    Parameters
    ----------
    own, deepest : PixelGrid
        Of one resolution, face, turn-over and ink-over.

    Returns
    -------
    Placement

    Examples
    --------
    >>> from pycore.compare.variants import depth_variants
    >>> from pycore.layout.grid import pixel_grid
    >>> shallow, deep = (pixel_grid(one.job, ppi=25.4) for one in depth_variants(Job(), [18, 38]))
    >>> place = placed(shallow, deep)
    >>> place.left, place.top, place.grid.columns, deep.columns
    (20, 20, (0, 19, 43, 344, 368, 387), (0, 19, 63, 364, 408, 427))
    """
    left, columns, back_columns = _window(own.columns, own.back_columns, deepest.columns)
    top, rows, back_rows = _window(own.rows, own.back_rows, deepest.rows)
    grid = PixelGrid(
        columns=columns, rows=rows, back_columns=back_columns, back_rows=back_rows, ppi=deepest.ppi
    )
    return Placement(left=left, top=top, grid=grid)


def _window(own: Six, backs: tuple[int, int], deep: Six) -> tuple[int, Six, tuple[int, int]]:
    near, far = deep[2] - own[2], deep[3] - own[3]
    # Depths that differ by less than a pixel may be rounded apart the other way at the far end.
    inked, last = min(own[4] + far, deep[4]), min(own[5] + far, deep[5])
    lines = (0, own[1], own[2], deep[3] - near, inked - near, last - near)
    return near, lines, (backs[0], min(backs[1] + far, inked) - near)


def _depth(job: Job) -> float:
    return job.bars.depth_mm


def _scaled(fill: ResolvedFill) -> bool:
    soft = fill.fill is Fill.MIRROR and fill.blur_mm > 0
    return soft or fill.fill in (Fill.RUN_ON, Fill.FADE, Fill.CONTINUED)


def _laid_over(fill: ResolvedFill) -> bool:
    return fill.fill is Fill.PLAIN or (_scaled(fill) and fill.fill is not Fill.RUN_ON)


def _shown(fill: ResolvedFill) -> Hashable:
    """A fill without what it does not use."""
    colour = (fill.colour, fill.band_mm if fill.colour == "edge" else None)
    used: dict[Fill, Hashable] = {
        Fill.RUN_ON: None,
        Fill.MIRROR: fill.blur_mm,
        Fill.DRAWN_OUT: fill.band_mm,
        Fill.PLAIN: colour,
        Fill.FADE: (fill.blur_mm, colour),
        Fill.CONTINUED: fill,
    }
    return fill.fill, used[fill.fill]
