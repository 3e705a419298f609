"""Results of the tasks as messages, their arrays beside them. Loads nothing of colour."""

from __future__ import annotations

from typing import Any

from numpy.typing import NDArray

from pycore.bridge.answer import Arrays, attach
from pycore.bridge.message import Texture
from pycore.bridge.messages import FoldReply
from pycore.fold.animation import FoldAnimation
from pycore.layout.grid import Box, PixelGrid
from pycore.picture.tones import U8


def texture_reply(canvas: U8, grid: PixelGrid, arrays: Arrays, *, is_srgb: bool) -> Texture:
    """Put a canvas beside a reply and name it, with the lines of its first panel, for the reply.

    Parameters
    ----------
    canvas : (rows, columns, 4) uint8
        Of a group the panels' canvases, one below the other.
    grid : PixelGrid
        Of one canvas.
    arrays : list
        What travels beside the reply; the canvas is added.
    is_srgb : bool
        Its values are sRGB; otherwise the picture's own.

    Returns
    -------
    Texture
    """
    columns, rows = grid.columns, grid.rows
    return Texture(
        pixels=attach(canvas, "srgb_encoded" if is_srgb else "picture_encoded", arrays),
        face=Box(left=columns[2], top=rows[2], right=columns[3], bottom=rows[3]),
        inked=Box(left=columns[1], top=rows[1], right=columns[4], bottom=rows[4]),
    )


def fold_reply(fold: FoldAnimation, arrays: Arrays, *, uv: NDArray[Any] | None = None) -> FoldReply:
    """Put a folding canvas beside a reply and describe it.

    Parameters
    ----------
    fold : FoldAnimation
    arrays : list
        What travels beside the reply; the mesh's arrays are added.
    uv : (vertices, 2) float32, optional
        Texture coordinates in place of the mesh's own.

    Returns
    -------
    FoldReply
    """
    mesh = fold.mesh
    return FoldReply(
        stages=fold.stages,
        bulk=fold.bulk,
        at=[round(float(moment), 12) for moment in mesh.at],
        positions=attach(mesh.positions, "mm", arrays),
        uv=attach(mesh.uv if uv is None else uv, "fraction", arrays),
        triangles=attach(mesh.triangles, "index", arrays),
        outlines=attach(mesh.outlines, "index", arrays),
        crease_count=mesh.crease_count,
        notes=fold.notes,
    )
