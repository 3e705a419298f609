"""The stretcher bars for a model: four lengths of wood, mitred, as far as the back shows them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.bars.frame import bar_width_mm
from pycore.contract.job import Job

Floats = npt.NDArray[np.float64]

#: Room between wood and canvas, so that the two never share a plane.
CLEARANCE_MM = 0.1


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class BarsMesh:
    """The bars.

    Attributes
    ----------
    positions_mm : (V, 3) float64
        In the frame of the fold, from the middle of the face.
    normals : (V, 3) float64
        Outwards, length 1.
    triangles : (T, 3) uint32
        Counter-clockwise from outside.
    """

    positions_mm: Floats
    normals: Floats
    triangles: npt.NDArray[np.uint32]


def bars_mesh(job: Job) -> BarsMesh:
    """Build the bars of a job.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    BarsMesh

    Examples
    --------
    >>> bars_mesh(Job()).positions_mm.max(axis=0).tolist()
    [149.9, 99.9, -0.1]
    """
    wide, high = job.face.width_mm, job.face.height_mm
    bar = bar_width_mm(job)
    across, up = wide / 2 - CLEARANCE_MM, high / 2 - CLEARANCE_MM
    front, back = -CLEARANCE_MM, -job.bars.depth_mm + CLEARANCE_MM
    # Round the section of a bar: outside front, inside front, inside back, outside back.
    section = [(0.0, front), (bar, front), (bar, back), (0.0, back)]
    # The corners of the frame, counter-clockwise from the front.
    corners = np.array([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
    positions: list[Floats] = []
    for place in range(4):
        ends = corners[place], corners[(place + 1) % 4]
        for edge in range(4):
            (near, near_z), (far, far_z) = section[edge], section[(edge + 1) % 4]
            quad = [
                [*(end * (across - inward, up - inward)), z]
                for end, inward, z in (
                    (ends[0], near, near_z),
                    (ends[1], near, near_z),
                    (ends[1], far, far_z),
                    (ends[0], far, far_z),
                )
            ]
            positions.append(np.array(quad))
    quads = np.stack(positions)
    normals = np.cross(quads[:, 1] - quads[:, 0], quads[:, 2] - quads[:, 0])
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    first = 4 * np.arange(len(quads), dtype=np.uint32)[:, np.newaxis, np.newaxis]
    triangles = first + np.array([[0, 1, 2], [0, 2, 3]], np.uint32)
    return BarsMesh(
        positions_mm=quads.reshape(-1, 3),
        normals=np.repeat(normals, 4, axis=0),
        triangles=triangles.reshape(-1, 3).astype(np.uint32),
    )
