"""The scale of the clip map: how far a colour is lost, as lightness falling evenly from pale to dark."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

#: Full scale; what is lost by more has the last colour.
SCALE_FULL_DE: Final = 15.0

#: Steps of the scale.
SCALE_STEPS: Final = 64

# Lab D50 along the scale, our own: lightness alone would do, for it falls all the way and every kind of
# colour vision sees that; the hue runs from yellow over rose to blue, away from most pictures' greys.
_STOPS: Final = np.array(
    [
        [93.0, -4.0, 42.0],
        [76.0, 22.0, 42.0],
        [58.0, 46.0, 18.0],
        [40.0, 44.0, -22.0],
        [20.0, 24.0, -44.0],
    ]
)


@lru_cache(maxsize=1)
def clip_scale() -> NDArray[np.uint8]:
    """The scale's colours.

    Returns
    -------
    (64, 3) uint8
        srgb_encoded, from nothing lost to `SCALE_FULL_DE` and more; even steps of CIEDE2000.

    Examples
    --------
    >>> clip_scale().shape
    (64, 3)
    """
    fine = np.linspace(0, len(_STOPS) - 1, 2001)
    path = np.column_stack([np.interp(fine, np.arange(len(_STOPS)), column) for column in _STOPS.T])
    way = np.concatenate([[0.0], np.cumsum(delta_e_2000(path[:-1], path[1:]))])
    even = np.linspace(0.0, way[-1], SCALE_STEPS)
    lab_d50 = np.column_stack([np.interp(even, way, column) for column in path.T])
    to_srgb = make_transform(
        Standard.LAB, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    return np.rint(np.clip(to_srgb(lab_d50), 0.0, 1.0) * 255).astype(np.uint8)


def paint_clip_map(
    proofed: NDArray[np.uint8], *, clip_full_de: float, threshold_de: float
) -> NDArray[np.uint8]:
    """A clip map: the scale where a colour is lost by more than the threshold, a pale grey picture elsewhere.

    Parameters
    ----------
    proofed : (rows, columns, 4) uint8
        As a device link gives it: red, green, blue on the screen, and the clip difference.
    clip_full_de : float
        What 255 of the fourth channel stands for.
    threshold_de : float
        CIEDE2000.

    Returns
    -------
    (rows, columns, 3) uint8
        srgb_encoded.
    """
    # Luma of the encoded values is enough for a backdrop; Rec. ITU-R BT.709 weights.
    grey = proofed[..., :3] @ np.array([0.2126, 0.7152, 0.0722])
    painted = np.repeat(np.rint(150 + grey * (100 / 255))[..., np.newaxis], 3, axis=2).astype(np.uint8)
    lost = proofed[..., 3].astype(np.float64) * (clip_full_de / 255)
    clipped = lost > threshold_de
    step = np.minimum(lost[clipped] / SCALE_FULL_DE, 1.0) * (SCALE_STEPS - 1)
    painted[clipped] = clip_scale()[np.rint(step).astype(np.intp)]
    return painted
