"""Bring a picture's pixels in within their own space, for files that keep the picture's profile."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.icc.transform import make_return
from pycore.colour.link.axes import moved_axes, nodes_of
from pycore.colour.link.dither import codes_of
from pycore.colour.link.lattice import WEIGHT_BITS, make_lattice
from pycore.colour.link.make_map import Shift
from pycore.colour.link.pixel_map import blocks_of, channels_of
from pycore.colour.link.proof import clip_request, colorimetric
from pycore.contract.job import Intent
from pycore.workers import in_blocks

#: The table holds how far a colour moves: no move is this code, and so many steps are full scale of a
#: channel. One level of 8 bits is then 128 steps.
_STILL: Final = 32768
_FULL: Final = 32640


class PixelBringer:
    """Moves pixels of a picture; what need not move stays exactly as it is. Several threads may use it.

    Parameters
    ----------
    shift : callable
        From `bring_in_shift`, for the same source, gamut, intent and black point compensation.
    source : Profile or Standard
        The picture's space; it needs a way back from Lab.
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
        All as they were for the fit.

    Raises
    ------
    ProfileError
        A profile lacks what is needed, such as the way back into the picture's space.
    """

    def __init__(
        self,
        shift: Shift,
        source: Endpoint,
        gamut: DeviceGamut,
        *,
        intent: Intent,
        black_point_compensation: bool,
    ) -> None:
        kind = colorimetric(intent)
        request = clip_request(
            source, gamut, intent=intent, black_point_compensation=black_point_compensation
        )
        back = make_return(
            source, gamut.profile, intent=kind, black_point_compensation=black_point_compensation
        )
        axes = moved_axes(source, intent=kind)
        encoded = nodes_of(axes)
        wanted = request(encoded)
        way = shift(axes)
        goes = np.abs(way).max(axis=1) > 1e-9
        moves = np.zeros_like(encoded)
        moves[goes] = back(wanted[goes] + way[goes]) - encoded[goes]
        table = (moves * _FULL + _STILL) / 65535.0
        self._lattice = make_lattice(
            table.reshape(*(len(axis.encoded) for axis in axes), encoded.shape[1]),
            places=[axis.even_places for axis in axes],
            method=Interpolation.TETRAHEDRAL,
        )

    def __call__(self, pixels: NDArray[Any]) -> NDArray[Any]:
        """Move pixels.

        Parameters
        ----------
        pixels : (rows, columns, channels) uint8, uint16 or float32
            Encoded; float32 is 0 to 1.

        Returns
        -------
        (rows, columns, channels) uint8 or uint16
            8 bits of 8, 16 bits of the others.
        """
        codes = codes_of(pixels)
        result = np.empty_like(codes)
        # One step of the table is 1 / 128 of a level of 8 bits, and 257 / 128 of one of 16.
        per_step, top = (1, 255) if codes.dtype == np.uint8 else (257, 65535)
        down = WEIGHT_BITS + 7

        def work(first: int, last: int) -> None:
            part, out = codes[first:last], result[first:last]
            sums = self._lattice.sums(channels_of(part))
            for channel in range(part.shape[2]):
                steps = sums.fixed(channel).astype(np.int64) - (_STILL << WEIGHT_BITS)
                steps *= per_step
                steps += 1 << (down - 1)
                steps >>= down
                moved = steps.reshape(part.shape[:2]) + part[..., channel]
                out[..., channel] = np.clip(moved, 0, top)

        in_blocks(work, blocks_of(codes.shape))
        return result
