"""A job's canvas folding: the mesh at sampled moments, its stages, its bulk, and notes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.fold.layers import Bulk, bulk_of
from pycore.fold.mesh import FoldMesh, fold_mesh
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.fold.stages import FoldStage, stages_of
from pycore.layout.grid import PixelGrid

#: Sampled positions a stage; between two the page interpolates. At 90 degrees a stage, half a step of
#: 90 / 16 degrees bows 38 mm of canvas by 38 (1 - cos 2.8 deg) = 0.05 mm, an eighth of its thickness.
FRAMES_PER_STAGE: Final = 16


@dataclass(frozen=True, kw_only=True, eq=False)
class FoldAnimation:
    """A canvas from flat to folded.

    Attributes
    ----------
    mesh : FoldMesh
        Its texture coordinates are fractions of the flat canvas.
    stages : list of FoldStage
    bulk : list of Bulk
    notes : list of Note
    """

    mesh: FoldMesh
    stages: list[FoldStage]
    bulk: list[Bulk]
    notes: list[Note]


def fold_animation(job: Job, *, grid: PixelGrid) -> FoldAnimation:
    """Fold a job's canvas at every sampled moment.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of the texture that the mesh will carry.

    Returns
    -------
    FoldAnimation

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.
    """
    spec = fold_spec(job)
    mesh = fold_mesh(spec, columns=grid.fold_columns, rows=grid.fold_rows, frames_per_stage=FRAMES_PER_STAGE)
    return FoldAnimation(mesh=mesh, stages=stages_of(spec), bulk=bulk_of(spec), notes=fold_notes(spec))
