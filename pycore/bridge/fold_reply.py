"""The folded canvas as a message."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from pycore.bridge.messages import Buffer, Bulk, FoldReply, FoldStage
from pycore.contract.job import Job
from pycore.fold.layers import bulk_of
from pycore.fold.mesh import fold_mesh
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.fold.stages import stages_of
from pycore.layout.grid import PixelGrid

#: Sampled positions a stage; between two the page interpolates. At 90 degrees a stage, half a step of
#: 90 / 16 degrees bows 38 mm of canvas by 38 (1 - cos 2.8 deg) = 0.05 mm, an eighth of its thickness.
FRAMES_PER_STAGE = 16


def fold_reply(job: Job, *, grid: PixelGrid, buffers: list[npt.NDArray[Any]]) -> FoldReply:
    """Fold a job's canvas for the page.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of the texture that the mesh will carry.
    buffers : list of arrays
        What travels beside the reply; the mesh's arrays are added.

    Returns
    -------
    FoldReply

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.
    """
    spec = fold_spec(job)
    mesh = fold_mesh(
        spec,
        columns=[grid.columns[line] / grid.width_px for line in (0, 2, 3, 5)],
        rows=[grid.rows[line] / grid.height_px for line in (0, 2, 3, 5)],
        frames_per_stage=FRAMES_PER_STAGE,
    )

    def taken(array: npt.NDArray[Any], state: str) -> Buffer:
        buffers.append(array)
        return Buffer.model_validate(
            {
                "place": len(buffers) - 1,
                "shape": list(array.shape),
                "dtype": str(array.dtype),
                "state": state,
            }
        )

    return FoldReply(
        stages=[
            FoldStage(name=one.name, label=one.label, start=one.start, end=one.end, hidden=one.hidden)
            for one in stages_of(spec)
        ],
        bulk=[
            Bulk(place=one.place, layers=one.layers, thickness_mm=one.thickness_mm) for one in bulk_of(spec)
        ],
        at=[float(moment) for moment in np.round(mesh.at, 12)],
        positions=taken(mesh.positions, "mm"),
        uv=taken(mesh.uv, "fraction"),
        triangles=taken(mesh.triangles, "index"),
        outlines=taken(mesh.outlines, "index"),
        crease_count=mesh.crease_count,
        notes=fold_notes(spec),
    )
