"""What is offered to the client: proofed textures and folded canvases, made once for all who share them."""

from __future__ import annotations

import math
from collections.abc import Generator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.compare.variants import Variant
from pycore.contract.dependencies import Result, dependence_key
from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH
from pycore.fold.mesh import fold_mesh
from pycore.fold.spec import fold_spec
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.layout.panel_places import PanelPlace, panel_places
from pycore.layout.window import PictureWindow, picture_window
from pycore.picture.tones import U8
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proofed import proofed_canvas
from pycore.render.preview import PreviewSource
from pycore.speech import say

#: Pixels of all textures together, and the most that one has.
_ALL_PX, _ONE_PX = 4_800_000, 1_800_000

#: The client gets the picture at no more than this share of its own pixels along a side: half of them all.
_FINEST = math.sqrt(0.5)

#: A picture that has few pixels is still shown with so many along the face's shorter side.
_FEWEST_PX = 48


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ProofedTexture:
    """The flat canvas as its print will look; of a group the panels' canvases, one below the other.

    Attributes
    ----------
    pixels : (rows, columns, 3) uint8
        srgb_encoded; bare canvas is white.
    grid : PixelGrid
        Of one canvas; all panels have the same lines.
    """

    pixels: U8
    grid: PixelGrid


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FoldedCanvas:
    """The folded canvas as a triangle mesh.

    Attributes
    ----------
    positions : (vertices, 3) float32
        mm, as in `FoldMesh`.
    uv : (vertices, 2) float32
    triangles : (triangles, 3) uint32
    """

    positions: npt.NDArray[np.float32]
    uv: npt.NDArray[np.float32]
    triangles: npt.NDArray[np.uint32]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class OfferedVariant:
    """One way to make the piece.

    Attributes
    ----------
    label : str
    job : Job
    use : PictureWindow
        What becomes of the picture.
    texture, fold : int
        Places in the offer's lists.
    panels : tuple of PanelPlace
    """

    label: str
    job: Job
    use: PictureWindow
    texture: int
    fold: int
    panels: tuple[PanelPlace, ...]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Offer:
    """One to four variants of one picture.

    Attributes
    ----------
    textures : list of ProofedTexture
    folds : list of FoldedCanvas
    variants : list of OfferedVariant
    illustration : bool
        A variant is proofed for the invented canvas.
    """

    textures: list[ProofedTexture]
    folds: list[FoldedCanvas]
    variants: list[OfferedVariant]
    illustration: bool


def make_offer(
    variants: Sequence[Variant], preview: PreviewSource, profiles: ProfileStore
) -> Generator[Progress, None, Offer]:
    """Proof and fold every variant.

    Parameters
    ----------
    variants : sequence of Variant
        One to four.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
        Holds the canvas profiles.

    Yields
    ------
    Progress

    Returns
    -------
    Offer

    Raises
    ------
    FieldError, GeometryError, ProfileError
        A variant's canvas cannot be filled, folded or proofed.
    """
    source = preview.source.info
    textures: dict[object, ProofedTexture] = {}
    folds: dict[object, FoldedCanvas] = {}
    offered = []
    for number, variant in enumerate(variants):
        job = variant.job
        yield Progress(
            done=number / len(variants),
            label=say("Proofing {number} of {variant_count}", number=number + 1, variant_count=len(variants)),
        )
        use = picture_window(job, width_px=source.width_px, height_px=source.height_px)
        grid = pixel_grid(job, ppi=_ppi(job, use, variants=len(variants)))
        size = (dependence_key(job, Result.FOLD), grid.ppi)
        if size not in folds:
            folds[size] = _folded(job, grid)
        seen = (size, dependence_key(job, Result.TEXTURE), dependence_key(job, Result.LOOK))
        if seen not in textures:
            proofing = proofed_canvas(job, grid, preview, profiles)
            pixels = yield from part_of(proofing, begin=number / len(variants), share=1 / len(variants))
            textures[seen] = ProofedTexture(pixels=pixels, grid=grid)
        offered.append(
            OfferedVariant(
                # Variants of profiles are called by their files, whose names are the photographer's own.
                label="" if variant.label == job.colour.profile else variant.label,
                job=job,
                use=use,
                texture=list(textures).index(seen),
                fold=list(folds).index(size),
                panels=tuple(panel_places(job, grid)),
            )
        )
    return Offer(
        textures=list(textures.values()),
        folds=list(folds.values()),
        variants=offered,
        illustration=any(profiles.profile(one.job.colour.profile).illustration for one in offered),
    )


def _ppi(job: Job, use: PictureWindow, *, variants: int) -> float:
    """Fine enough to look at, and never the picture itself."""
    wanted = preview_ppi(job, preview_px=min(_ONE_PX, _ALL_PX // variants) // job.group.panels)
    shorter = min(job.face.width_mm, job.face.height_mm) / MM_PER_INCH
    return min(wanted, max(use.effective_ppi * _FINEST, _FEWEST_PX / shorter))


def _folded(job: Job, grid: PixelGrid) -> FoldedCanvas:
    mesh = fold_mesh(
        fold_spec(job),
        columns=grid.fold_columns,
        rows=grid.fold_rows,
        frames_per_stage=1,
    )
    return FoldedCanvas(positions=mesh.positions[-1], uv=mesh.uv, triangles=mesh.triangles)
