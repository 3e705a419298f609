"""Variants of a job side by side: what several of them share is made once."""

from __future__ import annotations

from collections.abc import Generator, Hashable, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from pycore.bars.weight import whole_g
from pycore.compare.sharing import Placement, placed, shared
from pycore.compare.variants import CompareOptions, Variant, check_variants, naming
from pycore.contract.dependencies import Result, dependence_key
from pycore.contract.job import Job
from pycore.fold.animation import FoldAnimation, fold_animation
from pycore.layout.grid import Box, PixelGrid, pixel_grid
from pycore.layout.panel_places import PanelPlace, panel_places
from pycore.layout.report import Layout
from pycore.picture.tones import U8
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput
from pycore.proofing.screen_tables import ScreenTables, screen_tables
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.speech import say
from pycore.tasks.layout import lay_out
from pycore.tasks.open_picture import OpenPicture


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ComparedTexture:
    """The flat canvas of the deepest of the variants that share it, of a group all panels', and its lines."""

    pixels: U8
    grid: PixelGrid


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ComparedFold:
    """A folded canvas whose texture coordinates are those of its texture.

    Attributes
    ----------
    fold : FoldAnimation
    uv : (vertices, 2) float32
        In place of the mesh's own.
    """

    fold: FoldAnimation
    uv: npt.NDArray[np.float32]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ComparedVariant:
    """One variant's figures, and what of the comparison's lists it shows.

    Attributes
    ----------
    variant : Variant
    layout : Layout
    lost_share : float
        Of the picture: cut away, 0 to 1.
    weight_g : float
        Of the canvas alone as trimmed, without its cut corners, all panels.
    whole_g : (low, high)
        Of the whole piece, all panels.
    outside_share : float
        Outside the gamut, of all that is seen of the piece, 0 to 1.
    panels : list of PanelPlace
    inked : Box
        On its texture.
    texture, fold, tables : int
        Places in the comparison's lists.
    """

    variant: Variant
    layout: Layout
    lost_share: float
    weight_g: float
    whole_g: tuple[float, float]
    outside_share: float
    panels: list[PanelPlace]
    inked: Box
    texture: int
    fold: int
    tables: int


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Comparison:
    """Two to four variants under one light."""

    textures: list[ComparedTexture]
    folds: list[ComparedFold]
    tables: list[ScreenTables]
    variants: list[ComparedVariant]


@dataclass(eq=False)
class _Shared:
    """What has been made so far, each thing once, by what it depends on."""

    folds: dict[Hashable, ComparedFold] = field(default_factory=dict)
    tables: dict[Hashable, ScreenTables] = field(default_factory=dict)


def compare_variants(
    variants: Sequence[Variant], picture: OpenPicture, profiles: ProfileStore, *, options: CompareOptions
) -> Generator[Progress, None, Comparison]:
    """Make textures, folds, tables and figures of variants.

    Parameters
    ----------
    variants : sequence of Variant
        Two to four.
    picture : OpenPicture
        It stays the only decoded one.
    profiles : ProfileStore
    options : CompareOptions

    Yields
    ------
    Progress

    Returns
    -------
    Comparison

    Raises
    ------
    TuckfoldError
        Too few, too many or equal variants; one that cannot be laid out, folded, filled or proofed, which the
        message then names.
    """
    check_variants(variants, field="variants")
    preview = picture.preview
    jobs = [one.job for one in variants]
    yield Progress(done=0, label=say("Comparing {variant_count} variants", variant_count=len(variants)))
    made = _Shared()
    deepest, places = shared(jobs)
    # The coarsest that any needs: beside one another all are seen at one scale.
    ppi = min(panel_grid(job, preview_px=options.preview_px).ppi for job in jobs)
    grids = [pixel_grid(job, ppi=ppi) for job in deepest]
    placements = [
        placed(pixel_grid(job, ppi=ppi), grids[place]) for job, place in zip(jobs, places, strict=True)
    ]
    # The folds first: they can refuse a variant, and then no picture has been drawn for nothing.
    folds = []
    for variant, placement, place in zip(variants, placements, places, strict=True):
        with naming(variant.label):
            folds.append(_fold(variant.job, placement, grids[place], made))
    steps = len(deepest) + len(variants)
    textures = []
    for number, (job, grid) in enumerate(zip(deepest, grids, strict=True)):
        with naming(variants[jobs.index(job)].label):
            rendering = stacked_canvas(preview, job, grid)
            canvas = yield from part_of(rendering, begin=number / steps, share=1 / steps)
        textures.append(ComparedTexture(pixels=canvas, grid=grid))
    compared = []
    drawn: tuple[str, tuple[ProofInput, PixelGrid]] | None = None
    for number, (variant, placement, place) in enumerate(zip(variants, placements, places, strict=True)):
        begin = (len(deepest) + number) / steps
        yield Progress(done=begin, label=say("Proofing {label}", label=variant.label))
        job = variant.job
        layout = lay_out(job, picture)
        with naming(variant.label):
            # On the canvas that figures of one job are taken from, so that they are the same here; variants
            # that differ in colour alone have it in common.
            key = dependence_key(job, Result.TEXTURE)
            if drawn is None or drawn[0] != key:
                drawing = picture.proof_input_aside(job)
                drawn = key, (yield from part_of(drawing, begin=begin, share=0.5 / steps))
            proof_input, grid = drawn[1]
            brought = profiles.brought(proof_input, job.colour, grid)
            outside = profiles.report(brought, job.colour).outside_share
            tables = _tables(job, proof_input, profiles, made, options, is_srgb=preview.is_srgb)
        compared.append(
            ComparedVariant(
                variant=variant,
                layout=layout,
                lost_share=0.0 if layout.use is None else layout.use.cut_away_share,
                weight_g=layout.flat.weight_g * job.group.panels,
                whole_g=whole_g(job),
                outside_share=outside,
                panels=panel_places(job, grids[place]),
                inked=_inked(placement),
                texture=place,
                fold=folds[number],
                tables=tables,
            )
        )
    return Comparison(
        textures=textures,
        folds=list(made.folds.values()),
        tables=list(made.tables.values()),
        variants=compared,
    )


def _fold(job: Job, placement: Placement, texture: PixelGrid, made: _Shared) -> int:
    """The place of the fold whose texture coordinates are those of the variant's window in its texture."""
    grid = placement.grid
    size = (texture.width_px, texture.height_px)
    key = (
        dependence_key(job, Result.FOLD),
        (placement.left, placement.top, grid.columns, grid.rows, size),
    )
    if key not in made.folds:
        fold = fold_animation(job, grid=grid)
        corner, window = (placement.left, placement.top), (grid.width_px, grid.height_px)
        uv = ((fold.mesh.uv * window + corner) / size).astype(np.float32)
        made.folds[key] = ComparedFold(fold=fold, uv=uv)
    return list(made.folds).index(key)


def _tables(
    job: Job,
    proof_input: ProofInput,
    profiles: ProfileStore,
    made: _Shared,
    options: CompareOptions,
    *,
    is_srgb: bool,
) -> int:
    """The place of the tables; what is brought in is fitted to the variant's own pixels."""
    key = dependence_key(job, Result.LOOK)
    if key not in made.tables:
        made.tables[key] = screen_tables(
            proof_input,
            job.colour,
            profiles,
            viewing=options.viewing,
            screen=options.screen,
            is_srgb=is_srgb,
            fine=True,
        )
    return list(made.tables).index(key)


def _inked(placement: Placement) -> Box:
    columns, rows = placement.grid.columns, placement.grid.rows
    left, top = placement.left, placement.top
    return Box(left=left + columns[1], top=top + rows[1], right=left + columns[4], bottom=top + rows[4])
