"""One table from a picture's RGB to how its print looks on the screen, and how far each colour clips."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint, Standard, channels
from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.icc.profile import Profile
from pycore.colour.icc.same_profile import is_same_profile
from pycore.colour.icc.transform import make_answer, make_request
from pycore.colour.link.axes import Axis, nodes_of, source_axes
from pycore.colour.link.lattice import every_code, make_lattice, value_range
from pycore.colour.link.make_map import Shift
from pycore.colour.link.pixel_map import PixelMap
from pycore.colour.link.proof import clip_request, seen_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.contract.job import Intent
from pycore.errors import FieldError
from pycore.speech import say

#: Nodes of the link along each of red, green and blue, at even steps of lightness.
LINK_NODES: Final = 33

#: As many as a print file's table has: each node of the others, and one between each two. Bringing in begins
#: where the gamut ends, and between the nodes of the smaller table it would begin before.
FINE_NODES: Final = 2 * LINK_NODES - 1

#: The clip difference that full scale of the fourth channel stands for: 0.2 for each of 255 steps.
CLIP_FULL_DE: Final = 51.0

#: Tables are made of values that are not held to 0 to 1 yet.
_UNBOUNDED: Final = {
    Standard.SRGB: Standard.SRGB_UNBOUNDED,
    Standard.DISPLAY_P3: Standard.DISPLAY_P3_UNBOUNDED,
}


@dataclass(frozen=True, kw_only=True, eq=False)
class DeviceLink:
    """The table, to be interpolated by tetrahedra.

    Attributes
    ----------
    table : (nodes of red, of green, of blue, 4) float64
        Display red, green, blue, encoded, full scale 1, to be held to 0 to 1 after interpolating; and the
        clip difference, full scale `CLIP_FULL_DE`, held there.
    axes : tuple of Axis
        Where a value of red, green and blue lies among the nodes.
    """

    table: FloatArray
    axes: tuple[Axis, ...]

    @property
    def nodes(self) -> int:
        """Along each of red, green and blue."""
        return len(self.axes[0].encoded)

    @cached_property
    def _map(self) -> PixelMap:
        low, span = value_range(self.table)
        lattice = make_lattice(
            (self.table - low) / span,
            places=[axis.places for axis in self.axes],
            method=Interpolation.TETRAHEDRAL,
        )
        return PixelMap([lattice], low + every_code(len(low)) * span)

    def shown(self, pixels: ByteArray) -> ByteArray:
        """Pixels as the screen shows them.

        Parameters
        ----------
        pixels : (rows, columns, 3) uint8

        Returns
        -------
        (rows, columns, 4) uint8
            The display's red, green and blue, and the clip difference.
        """
        return self._map.to_bytes(pixels, row=0, column=0)

    def halves(self) -> NDArray[np.uint16]:
        """The table for a 3D texture of half floats: (blue, green, red, 4), the bits of float16 as uint16.

        Near 1 the step of a half float is an eighth of one of 8 bits.
        """
        return half_texture(self.table)

    def curve(self) -> NDArray[np.float32]:
        """Where every value of 8 bits lies: (256, 4) float32, counted in nodes from the first.

        Red, green and blue; the fourth column is 0 and fills up what a graphics card reads at once.
        """
        curve = np.zeros((256, 4), dtype=np.float32)
        for channel, axis in enumerate(self.axes):
            curve[:, channel] = axis.places[::257] * (len(axis.encoded) - 1)
        return curve


def half_texture(table: FloatArray) -> NDArray[np.uint16]:
    """Write a table as the bits of half floats.

    Parameters
    ----------
    table : (red, green, blue, 4) float64

    Returns
    -------
    (blue, green, red, 4) uint16
    """
    turned = np.ascontiguousarray(table.transpose(2, 1, 0, 3))
    halves: NDArray[np.uint16] = turned.astype(np.float16).view(np.uint16)
    return halves


def link_axes(source: Endpoint, *, intent: Intent, nodes: int = LINK_NODES) -> tuple[Axis, ...]:
    """Where the nodes of a link lie.

    Parameters
    ----------
    source : Profile or Standard
        The picture's RGB space.
    intent : Intent
    nodes : int, optional
        Along each channel.

    Returns
    -------
    tuple of Axis

    Raises
    ------
    FieldError
        The source has not three channels.
    ProfileError
        The profile lacks what is needed.
    """
    if channels(source) != 3:
        raise FieldError(
            field="source",
            expected=say("an RGB space"),
            got=say("a space of {channels} channels", channels=channels(source)),
            remedy=say("turn the picture into RGB first"),
        )
    return source_axes(source, intent=intent, nodes=nodes)


def make_link(
    source: Endpoint,
    gamut: DeviceGamut,
    display: Standard,
    *,
    intent: Intent,
    black_point_compensation: bool,
    viewing: Viewing,
    shift: Shift | None = None,
    nodes: int = LINK_NODES,
) -> DeviceLink:
    """Build the link.

    Parameters
    ----------
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    display : Standard
        SRGB or DISPLAY_P3.
    intent : Intent
    black_point_compensation : bool
        For the way to the canvas.
    viewing : Viewing
    shift : callable, optional
        What is added to the Lab that the canvas is asked for, such as to bring colours in.
    nodes : int, optional
        `LINK_NODES` or `FINE_NODES`, along each channel.

    Returns
    -------
    DeviceLink

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    FieldError
        The source has not three channels, or the display is none.
    """
    if display not in _UNBOUNDED:
        raise FieldError(
            field="display",
            expected=say("srgb or display-p3"),
            got=display.value,
            remedy=say("choose one of these"),
        )
    axes = link_axes(source, intent=intent, nodes=nodes)
    encoded = nodes_of(axes)
    shape = tuple(len(axis.encoded) for axis in axes)
    seen = seen_transform(gamut, _UNBOUNDED[display], viewing=viewing)
    table = np.zeros((*shape, 4))
    if isinstance(source, Profile) and is_same_profile(source, gamut.profile):
        # What is in the canvas's own values already is printed as it is, and nothing of it clips.
        table[..., :3] = seen(encoded).reshape(*shape, 3)
        return DeviceLink(table=table, axes=axes)
    moves = np.zeros_like(encoded) if shift is None else shift(axes)
    request = make_request(
        source, gamut.profile, intent=intent, black_point_compensation=black_point_compensation
    )
    printed = make_answer(gamut.profile, intent=intent)(request(encoded) + moves)
    table[..., :3] = seen(printed).reshape(*shape, 3)
    colorimetric = clip_request(
        source, gamut, intent=intent, black_point_compensation=black_point_compensation
    )
    # How far a colour clips is seen on a scale: for that the nodes of the smaller table are close enough.
    every = np.arange(len(encoded)).reshape(shape)
    if nodes == FINE_NODES:
        every = every[::2, ::2, ::2]
    wanted = colorimetric(encoded[every.ravel()]) + moves[every.ravel()]
    clip = np.minimum(clipping(gamut, wanted).difference / CLIP_FULL_DE, 1.0).reshape(every.shape)
    table[..., 3] = _with_middles(clip) if nodes == FINE_NODES else clip
    return DeviceLink(table=table, axes=axes)


def _with_middles(coarse: FloatArray) -> FloatArray:
    """A table with a node more between each two, where tetrahedra between the others have it."""
    fine = np.zeros([2 * count - 1 for count in coarse.shape])
    for step in np.ndindex(*[2] * coarse.ndim):
        low = coarse[tuple(slice(count - one) for one, count in zip(step, coarse.shape, strict=True))]
        high = coarse[tuple(slice(one, None) for one in step)]
        fine[tuple(slice(one, None, 2) for one in step)] = (low + high) / 2.0
    return fine
