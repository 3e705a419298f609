"""The canvas for a model: its outside when folded, and how it comes there from the flat sheet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Job, OverPair
from pycore.fold.layers import bulk_of
from pycore.fold.mesh import Surface, fold_mesh
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.fold.stages import FoldStage, stages_of
from pycore.layout.grid import PixelGrid

Floats = npt.NDArray[np.float64]

#: Sampled positions a stage. Half a step of 90 / 8 degrees bows 38 mm of canvas by 38 (1 - cos 5.6 deg) =
#: 0.18 mm on its way, less than half its thickness; folded and flat are exact.
FRAMES_PER_STAGE = 8


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class CanvasMesh:
    """A canvas at n sampled moments.

    Attributes
    ----------
    at : (n,) float64
        Rising from 0, flat, to 1, folded.
    positions_mm : (n, V, 3) float64
        The outer surface, in the frame of the fold, from the middle of the face.
    normals : (n, V, 3) float64
        Of the print side, length 1.
    uv : (V, 2) float32
        Fractions of the flat canvas from its top-left corner.
    triangles : (T, 3) uint32
        Counter-clockwise from the print side.
    stages : list of FoldStage
    """

    at: Floats
    positions_mm: Floats
    normals: Floats
    uv: npt.NDArray[np.float32]
    triangles: npt.NDArray[np.uint32]
    stages: list[FoldStage]


def canvas_mesh(job: Job, grid: PixelGrid) -> CanvasMesh:
    """Fold a job's canvas.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of the texture that it will carry.

    Returns
    -------
    CanvasMesh

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.
    """
    spec = fold_spec(job)
    mesh = fold_mesh(
        spec,
        columns=grid.fold_columns,
        rows=grid.fold_rows,
        frames_per_stage=FRAMES_PER_STAGE,
        surface=Surface.OUTER,
    )
    positions = mesh.positions.astype(np.float64)
    return CanvasMesh(
        at=mesh.at,
        positions_mm=positions - np.array([spec.width_mm / 2, spec.height_mm / 2, 0]),
        normals=_normals(positions, mesh.triangles),
        uv=mesh.uv,
        triangles=mesh.triangles,
        stages=stages_of(spec),
    )


def outer_size_mm(spec: FoldSpec) -> tuple[float, float, float]:
    """What a calliper finds: width, height and depth of the folded canvas over everything.

    The bars measure face by face by depth. Canvas adds a layer at the front and on each under side, on each
    over side as many as lie on one another at the corner, and on the back those of its corner.

    Parameters
    ----------
    spec : FoldSpec

    Returns
    -------
    tuple of 3 floats
        mm.

    Examples
    --------
    >>> [round(length, 2) for length in outer_size_mm(fold_spec(Job()))]  # 300 x 200 x 20 mm, 0.45 mm thick
    [300.9, 202.7, 22.7]
    """
    thick = {bulk.place: bulk.thickness_mm for bulk in bulk_of(spec)}
    over = max(thick.get(place, 0.0) for place in ("folded corner", "flap", "tab"))
    under = thick["under side"]
    wide, high = (under, over) if spec.over is OverPair.TOP_BOTTOM else (over, under)
    behind = thick.get("back corner", 0.0)
    return (
        spec.width_mm + 2 * wide,
        spec.height_mm + 2 * high,
        spec.depth_mm + thick["face"] + behind,
    )


def _normals(positions: Floats, triangles: npt.NDArray[np.uint32]) -> Floats:
    """Each vertex's mean of its triangles' normals by area. Facets share no vertices, so creases stay."""
    corners = positions[:, triangles]
    crossed = np.cross(corners[:, :, 1] - corners[:, :, 0], corners[:, :, 2] - corners[:, :, 0])
    normals = np.zeros_like(positions)
    for corner in range(3):
        for frame, of_triangles in zip(normals, crossed, strict=True):
            np.add.at(frame, triangles[:, corner], of_triangles)
    normals /= np.linalg.norm(normals, axis=2, keepdims=True)
    return normals
