"""A rendered canvas as a message."""

from __future__ import annotations

from pycore.bridge.answer import Arrays, taken
from pycore.bridge.layout_messages import Box
from pycore.bridge.messages import Texture
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8


def texture_message(canvas: U8, grid: PixelGrid, arrays: Arrays, *, is_srgb: bool) -> Texture:
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
        pixels=taken(canvas, "srgb_encoded" if is_srgb else "picture_encoded", arrays),
        face=Box(left=columns[2], top=rows[2], right=columns[3], bottom=rows[3]),
        inked=Box(left=columns[1], top=rows[1], right=columns[4], bottom=rows[4]),
    )
