"""A picture's pixels brought in within their own space, as files that keep the profile have them."""

from typing import Unpack

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.mapping.bring_in import BringIn
from pycore.colour.mapping.bring_pixels import PixelBringer
from pycore.colour.mapping.node_moves import bring_in_shift

from .conversion import Conversion


def bringer(
    bring_in: BringIn, source: Endpoint, gamut: DeviceGamut, **options: Unpack[Conversion]
) -> PixelBringer:
    """Make what moves pixels."""
    return PixelBringer(bring_in_shift(bring_in, source, gamut, **options), source, gamut, **options)
