"""The colour difference CIEDE2000."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray

_25_TO_7: Final = 25.0**7

#: Opposite hues lie pi apart, and rounding may put them just beyond it, on the other branch of (10) and (14).
#: What is within this of pi (radians) counts as pi; the published pairs nearest to it differ by 4e-5.
_OPPOSITE: Final = np.pi + 1e-10


def delta_e_2000(lab_first: FloatArray, lab_second: FloatArray) -> FloatArray:
    """The colour difference of two sets of colours, with all parametric factors 1.

    Parameters
    ----------
    lab_first, lab_second : (..., 3) float64
        Lab, of shapes that broadcast.

    Returns
    -------
    (...) float64
        Never negative, and the same both ways round.

    References
    ----------
    ISO/CIE 11664-6:2014. Equation numbers are those of Sharma, Wu and Dalal, "The CIEDE2000 color-difference
    formula: implementation notes, supplementary test data, and mathematical observations", Color Research and
    Application 30 (2005).

    Examples
    --------
    >>> float(delta_e_2000(np.array([50, 2.6772, -79.7751]), np.array([50, 0, -82.7485])).round(4))
    2.0425
    """
    lightness_1, a_1, b_1 = (lab_first[..., index] for index in range(3))
    lightness_2, a_2, b_2 = (lab_second[..., index] for index in range(3))
    mean_chroma = (np.hypot(a_1, b_1) + np.hypot(a_2, b_2)) / 2.0  # (2), (3)
    power = mean_chroma**7
    stretch = 1.5 - 0.5 * np.sqrt(power / (power + _25_TO_7))  # (4), 1 + G
    a_1, a_2 = stretch * a_1, stretch * a_2  # (5)
    chroma_1, chroma_2 = np.hypot(a_1, b_1), np.hypot(a_2, b_2)  # (6)
    hue_1 = np.mod(np.arctan2(b_1, a_1), 2 * np.pi)  # (7); arctan2(0, 0) is 0, as it asks
    hue_2 = np.mod(np.arctan2(b_2, a_2), 2 * np.pi)

    grey = chroma_1 * chroma_2 == 0.0
    turn = hue_2 - hue_1  # (10)
    far = np.abs(turn) > _OPPOSITE
    turn = np.where(far, turn - np.copysign(2 * np.pi, turn), turn)
    turn = np.where(grey, 0.0, turn)
    delta_hue = 2.0 * np.sqrt(chroma_1 * chroma_2) * np.sin(turn / 2.0)  # (11)

    lightness = (lightness_1 + lightness_2) / 2.0  # (12)
    chroma = (chroma_1 + chroma_2) / 2.0  # (13)
    total = hue_1 + hue_2  # (14)
    hue = np.where(far, np.where(total < 2 * np.pi, total + 2 * np.pi, total - 2 * np.pi), total) / 2.0
    hue = np.where(grey, total, hue)

    weight = (  # (15)
        1.0
        - 0.17 * np.cos(hue - np.radians(30.0))
        + 0.24 * np.cos(2.0 * hue)
        + 0.32 * np.cos(3.0 * hue + np.radians(6.0))
        - 0.20 * np.cos(4.0 * hue - np.radians(63.0))
    )
    angle = np.radians(30.0) * np.exp(-(((np.degrees(hue) - 275.0) / 25.0) ** 2))  # (16)
    chroma_7 = chroma**7
    rotation = -np.sin(2.0 * angle) * 2.0 * np.sqrt(chroma_7 / (chroma_7 + _25_TO_7))  # (17), (21)
    from_middle = (lightness - 50.0) ** 2
    by_lightness = (lightness_2 - lightness_1) / (1.0 + 0.015 * from_middle / np.sqrt(20.0 + from_middle))
    by_chroma = (chroma_2 - chroma_1) / (1.0 + 0.045 * chroma)  # (19)
    by_hue = delta_hue / (1.0 + 0.015 * chroma * weight)  # (20)
    squared = by_lightness**2 + by_chroma**2 + by_hue**2 + rotation * by_chroma * by_hue  # (22)
    # The rotation term can bring rounding just below zero.
    result: FloatArray = np.sqrt(np.maximum(squared, 0.0))
    return result
