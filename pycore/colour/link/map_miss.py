"""By how much a map of pixels misses the exact way: as seen on the target, in parts of what may be."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from pycore.colour.icc.endpoints import Endpoint, Standard, channels
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.pixel_map import PixelMap
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

#: What may be missed, in CIEDE2000: of greys on average and at most, of any colour. Our own choice: nothing
#: of it is seen, and a step of 8 bits is more.
_GREYS_DE: Final = 0.015
_GREY_DE: Final = 0.08
_ANY_DE: Final = 0.25

#: Colours to be tried: greys, darks and any.
_GREYS: Final = 257
_DARKS: Final = 150
_COLOURS: Final = 400


def map_miss(
    source: Endpoint, target: Endpoint, *, intent: Intent, black_point_compensation: bool
) -> Callable[[PixelMap], float]:
    """Make what judges maps.

    Parameters
    ----------
    source, target : Profile or Standard
    intent : Intent
    black_point_compensation : bool

    Returns
    -------
    callable
        From a map to what it misses some hundred colours by, in parts of what may be: at most 1 where it is
        true to the profiles.

    Raises
    ------
    ProfileError
        A profile lacks what is needed, such as the way from the target's values to Lab.
    """
    words = np.rint(_tried(channels(source)) * 65535.0).astype(np.uint16)
    exact = make_transform(source, target, intent=intent, black_point_compensation=black_point_compensation)(
        words / 65535.0
    )
    see = make_transform(target, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    seen = see(exact)

    def miss(pixel_map: PixelMap) -> float:
        apart = delta_e_2000(see(pixel_map.to_words(words[None])[0] / 65535.0), seen)
        greys = apart[:_GREYS]
        return float(max(greys.mean() / _GREYS_DE, greys.max() / _GREY_DE, apart.max() / _ANY_DE))

    return miss


def _tried(count: int) -> FloatArray:
    """(n, count) values of a source, 0 to 1."""
    chance = np.random.default_rng(31)
    ramp = np.linspace(0.0, 1.0, _GREYS)
    greys = np.repeat(ramp[:, None], count, axis=1)
    darks = 0.05 * chance.random((_DARKS, count))
    if count == 4:
        # Of inks the greys are black's.
        greys[:, :3] = 0.0
        darks = 1.0 - darks
    return np.concatenate([greys, darks, chance.random((_COLOURS, count))])
