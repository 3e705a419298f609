"""A plain drawing of a canvas (face, right side, top side) for paper and where there is no 3D view."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PIL import Image, ImageDraw, ImageFilter

from pycore.client.offer import OfferedVariant, ProofedTexture
from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.layout.group import group_size_mm

#: Longest side of a drawing.
_LONGEST_PX: Final = 760

#: How far the back edge lies to the right and up for each mm of depth: a cabinet projection, half the depth.
_ACROSS, _UP = 0.45, 0.22

#: The wall, srgb_encoded; and how much of the light each side gets.
_WALL: Final = (229, 220, 205)
_RIGHT_LIGHT, _TOP_LIGHT = 0.8, 0.94

_QUALITY = 82


@dataclass(frozen=True, kw_only=True, slots=True)
class Room:
    """What every drawing has room for, so that all have one size and one scale.

    Attributes
    ----------
    width_mm, height_mm, depth_mm : float
        Of the widest, the highest and the deepest variant.
    """

    width_mm: float
    height_mm: float
    depth_mm: float


def room_for(jobs: Sequence[Job]) -> Room:
    """The room that jobs need.

    Parameters
    ----------
    jobs : sequence of Job
        At least one.

    Returns
    -------
    Room
        The largest width, height and depth among them, mm.

    Examples
    --------
    >>> room_for([Job()]).depth_mm
    20.0
    """
    sizes = [group_size_mm(job) for job in jobs]
    return Room(
        width_mm=max(width for width, _ in sizes),
        height_mm=max(height for _, height in sizes),
        depth_mm=max(job.bars.depth_mm for job in jobs),
    )


def draw_still(variant: OfferedVariant, texture: ProofedTexture, *, room: Room) -> bytes:
    """Draw what hangs on the wall.

    Parameters
    ----------
    variant : OfferedVariant
    texture : ProofedTexture
        Its own.
    room : Room

    Returns
    -------
    bytes
        A JPEG, srgb_encoded.
    """
    job = variant.job
    scale = _LONGEST_PX / (max(room.width_mm, room.height_mm) * 1.2)
    face = (round(job.face.width_mm * scale), round(job.face.height_mm * scale))
    across, up = (max(1, round(job.bars.depth_mm * scale * share)) for share in (_ACROSS, _UP))
    margin = round(_LONGEST_PX * 0.06 + room.depth_mm * scale * _ACROSS)
    width = round(room.width_mm * scale) + 2 * margin
    height = round(room.height_mm * scale) + 2 * margin
    # The whole of face and sides in the middle.
    middle = ((width - across) / 2, (height + up) / 2)
    corners = [
        (
            round(middle[0] + panel.centre_mm[0] * scale - face[0] / 2),
            round(middle[1] - panel.centre_mm[1] * scale - face[1] / 2),
        )
        for panel in variant.panels
    ]
    wall = _shadows(Image.new("RGB", (width, height), _WALL), corners, face=face, across=across, up=up)
    whole = Image.fromarray(texture.pixels)
    for panel, corner in zip(variant.panels, corners, strict=True):
        own = whole.crop((0, panel.top_px, whole.width, panel.bottom_px))
        _draw_piece(wall, own, texture.grid, corner=corner, face=face, across=across, up=up)
    out = io.BytesIO()
    wall.save(out, "JPEG", quality=_QUALITY)
    return out.getvalue()


def _shadows(
    wall: Image.Image, corners: Sequence[tuple[int, int]], *, face: tuple[int, int], across: int, up: int
) -> Image.Image:
    """A soft shadow below and beside each piece, as under a light from the upper left."""
    shade = Image.new("L", wall.size, 0)
    draw = ImageDraw.Draw(shade)
    for x, y in corners:
        # Where the back of the piece touches the wall, moved a little down and to the right.
        box = (x + across, y, x + across * 2 + face[0], y + face[1] + up // 2)
        draw.rectangle(box, fill=90)
    soft = shade.filter(ImageFilter.GaussianBlur(max(2.0, across * 0.6)))
    return Image.composite(Image.new("RGB", wall.size, (70, 58, 46)), wall, soft)


def _draw_piece(
    wall: Image.Image,
    canvas: Image.Image,
    grid: PixelGrid,
    *,
    corner: tuple[int, int],
    face: tuple[int, int],
    across: int,
    up: int,
) -> None:
    left, right = grid.columns[2], grid.columns[3]
    top, bottom = grid.rows[2], grid.rows[3]
    smooth = Image.Resampling.BICUBIC
    front = canvas.resize(face, smooth, box=(left, top, right, bottom))
    beside = canvas.resize((across, face[1]), smooth, box=(right, top, grid.back_columns[1], bottom))
    above = canvas.resize((face[0], up), smooth, box=(left, grid.back_rows[0], right, top))
    x, y = corner
    # What lies at (u, v) of the right side is drawn at (u, up + v - u up / across): solved for (u, v).
    back = (1.0, 0.0, 0.0, up / across, 1.0, -float(up))
    _sheared(wall, beside, (across, face[1] + up), back, _RIGHT_LIGHT, (x + face[0], y - up))
    # What lies at (u, v) of the top side, v from its back edge, is drawn at (u + (up - v) across / up, v).
    back = (1.0, across / up, -float(across), 0.0, 1.0, 0.0)
    _sheared(wall, above, (face[0] + across, up), back, _TOP_LIGHT, (x, y - up))
    wall.paste(front, corner)


def _sheared(
    wall: Image.Image,
    side: Image.Image,
    size: tuple[int, int],
    back: tuple[float, float, float, float, float, float],
    light: float,
    at: tuple[int, int],
) -> None:
    """Draw a side as a parallelogram; `back` leads from a drawn pixel to the side's own."""
    shaded = side.point([round(value * light) for value in range(256)] * 3)
    drawn = shaded.transform(size, Image.Transform.AFFINE, back, Image.Resampling.NEAREST)
    mask = Image.new("L", side.size, 255).transform(size, Image.Transform.AFFINE, back)
    wall.paste(drawn, at, mask)
