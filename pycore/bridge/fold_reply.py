"""The folded canvas as a message."""

from __future__ import annotations

import numpy as np

from pycore.bridge.answer import Arrays, taken
from pycore.bridge.messages import Bulk, FoldReply, FoldStage
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


def fold_reply(job: Job, *, grid: PixelGrid, buffers: Arrays) -> FoldReply:
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
        columns=grid.fold_columns,
        rows=grid.fold_rows,
        frames_per_stage=FRAMES_PER_STAGE,
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
        positions=taken(mesh.positions, "mm", buffers),
        uv=taken(mesh.uv, "fraction", buffers),
        triangles=taken(mesh.triangles, "index", buffers),
        outlines=taken(mesh.outlines, "index", buffers),
        crease_count=mesh.crease_count,
        notes=fold_notes(spec),
    )
