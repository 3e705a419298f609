"""The scale of the gamut map: how far a colour is off, as lightness falling evenly from pale to dark."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.srgb import SRGB_LUMINANCE, srgb_encode
from pycore.contract.job import Intent

#: Full scale; what is off by more has the last colour.
SCALE_FULL_DE: Final = 15.0

#: Steps of the scale.
SCALE_STEPS: Final = 64

# The path in Oklab, our own. Lightness falls in a straight line, which every kind of colour vision sees; hue
# turns back from a pale aqua over green, olive and brown to plum; chroma swells in the middle and never sinks
# to the greys of the wall and of the map. Chosen, among paths inside sRGB, for its distance from the palettes
# that the tests compare it with.
_LIGHTNESS: Final = (0.93, 0.36)
_HUE_DEG: Final = (186.0, -24.0)
_CHROMA: Final = 0.076
_CHROMA_SWELL: Final = 0.054

# Published: B. Ottosson, "A perceptual color space for image processing", 2020, as revised on 2021-01-25:
# from Oklab to the cube roots of l, m, s, and from l, m, s to linear sRGB.
_OKLAB_TO_LMS_ROOTS: Final = np.array(
    [
        [1.0, 0.3963377774, 0.2158037573],
        [1.0, -0.1055613458, -0.0638541728],
        [1.0, -0.0894841775, -1.2914855480],
    ]
)
_LMS_TO_RGB_LINEAR: Final = np.array(
    [
        [4.0767416621, -3.3077115913, 0.2309699292],
        [-1.2684380046, 2.6097574011, -0.3413193965],
        [-0.0041960863, -0.7034186147, 1.7076147010],
    ]
)


def scale_path(way: FloatArray) -> FloatArray:
    """The scale's path in Oklab.

    Parameters
    ----------
    way : (n,) float64
        0 nothing off, 1 the far end.

    Returns
    -------
    (n, 3) float64
        Lightness 0 to 1, a, b.

    Examples
    --------
    >>> scale_path(np.array([0.0, 1.0]))[:, 0].tolist()
    [0.93, 0.36]
    """
    lightness = _LIGHTNESS[0] + (_LIGHTNESS[1] - _LIGHTNESS[0]) * way
    hue = np.radians(_HUE_DEG[0] + (_HUE_DEG[1] - _HUE_DEG[0]) * way)
    chroma = _CHROMA + _CHROMA_SWELL * np.sin(np.pi * way)
    return np.column_stack([lightness, chroma * np.cos(hue), chroma * np.sin(hue)])


@lru_cache(maxsize=1)
def clip_scale() -> NDArray[np.uint8]:
    """The scale's colours.

    Returns
    -------
    (64, 3) uint8
        srgb_encoded, from nothing off to `SCALE_FULL_DE` and more; even steps of CIEDE2000.

    Examples
    --------
    >>> clip_scale().shape
    (64, 3)
    """
    fine = np.linspace(0.0, 1.0, 2001, dtype=np.float64)
    to_lab = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    lab_d50 = to_lab(_srgb(scale_path(fine)))
    way = np.concatenate([[0.0], np.cumsum(delta_e_2000(lab_d50[:-1], lab_d50[1:]))])
    even = np.interp(np.linspace(0.0, way[-1], SCALE_STEPS, dtype=np.float64), way, fine)
    return np.rint(_srgb(scale_path(even)) * 255).astype(np.uint8)


def _srgb(oklab: FloatArray) -> FloatArray:
    """Colours in Oklab, inside sRGB, as srgb_encoded."""
    rgb_linear = (oklab @ _OKLAB_TO_LMS_ROOTS.T) ** 3 @ _LMS_TO_RGB_LINEAR.T
    return srgb_encode(np.clip(rgb_linear, 0.0, 1.0))


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
    # Luma of the encoded values is enough for a backdrop.
    grey = proofed[..., :3] @ np.array(SRGB_LUMINANCE)
    painted = np.repeat(np.rint(150 + grey * (100 / 255))[..., np.newaxis], 3, axis=2).astype(np.uint8)
    lost = proofed[..., 3].astype(np.float64) * (clip_full_de / 255)
    clipped = lost > threshold_de
    step = np.minimum(lost[clipped] / SCALE_FULL_DE, 1.0) * (SCALE_STEPS - 1)
    painted[clipped] = clip_scale()[np.rint(step).astype(np.intp)]
    return painted
