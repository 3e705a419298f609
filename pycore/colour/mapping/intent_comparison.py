"""What each rendering intent does to a picture on a canvas, in figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.proof import clip_request, colorimetric
from pycore.colour.mapping.picture_colours import PictureColours, weighted_quantile
from pycore.colour.spaces.arrays import BoolArray, FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.lab import chroma_hue
from pycore.contract.job import Intent

#: Compensation has no effect on the absolute intent.
CHOICES: Final = (
    (Intent.PERCEPTUAL, False),
    (Intent.PERCEPTUAL, True),
    (Intent.RELATIVE, False),
    (Intent.RELATIVE, True),
    (Intent.SATURATION, False),
    (Intent.SATURATION, True),
    (Intent.ABSOLUTE, False),
)

#: Shadows and highlights begin here, L* as filed. Common practice.
_SHADOWS: Final = 25.0
_HIGHLIGHTS: Final = 85.0

#: Hue is compared where both colours have more chroma than this.
_HUED: Final = 10.0

#: A printed colour lies on the boundary when this much further from mid grey it is outside.
_OUTWARD: Final = 1.03


@dataclass(frozen=True, kw_only=True, slots=True)
class IntentFigures:
    """One intent on one picture.

    Differences are CIEDE2000 between what is filed and what is printed, both seen with their own white as
    white (under the absolute intent, with the canvas's white as it is).
    """

    intent: Intent
    black_point_compensation: bool
    outside_share: float
    """Of the picture, 0 to 1: outside the gamut by more than the threshold, as the gamut figures count it."""
    flattened_share: float
    """Of these the part that prints on the gamut's boundary, where tones and steps are no longer told apart.

    An intent that compresses brings colours in from outside, so this is the smaller of the two.
    """
    mean_de: float
    p95_de: float
    shadow_loss: float
    """How much smaller steps of lightness become in the shadows, 0 to 1; 0 where there are none."""
    highlight_loss: float
    hue_shift_deg: float
    """Mean size of the change of hue, degrees, where there is hue."""
    chroma_change: float
    """Mean change of chroma; negative where colours become duller."""
    harm: float
    """One number to rank by; see `intent_advice`."""


def intents_in_turn(
    colours: PictureColours,
    source: Endpoint,
    gamut: DeviceGamut,
    *,
    threshold_de: float,
    among: Sequence[tuple[Intent, bool]] = CHOICES,
) -> Iterator[IntentFigures]:
    """Work out the figures of every intent, with and without black point compensation.

    One intent follows the other, so that whoever waits for them can stop between two.

    Parameters
    ----------
    colours : PictureColours
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    threshold_de : float
        What differs by no more than this does not count as outside.
    among : sequence of (Intent, bool)
        Which intents, with or without compensation.

    Yields
    ------
    IntentFigures
        In their order.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    filed = make_transform(source, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)(
        colours.rgb_encoded
    )
    outside: dict[tuple[bool, bool], BoolArray] = {}
    for intent, compensated in among:
        # What lies outside depends on the change of white and of black alone, which most intents share.
        key = (intent is Intent.ABSOLUTE, compensated)
        if key not in outside:
            request = clip_request(source, gamut, intent=intent, black_point_compensation=compensated)
            outside[key] = clipping(gamut, request(colours.rgb_encoded)).difference > threshold_de
        yield _figures(colours, source, gamut, filed, outside[key], intent, compensated)


def _figures(
    colours: PictureColours,
    source: Endpoint,
    gamut: DeviceGamut,
    filed: FloatArray,
    outside: BoolArray,
    intent: Intent,
    compensated: bool,
) -> IntentFigures:
    weights = colours.weights
    to_device = make_transform(source, gamut.profile, intent=intent, black_point_compensation=compensated)
    device = to_device(colours.rgb_encoded)
    flattened = outside & _on_boundary(gamut, gamut.to_lab(device))
    shown = make_transform(
        gamut.profile,
        Standard.LAB,
        intent=colorimetric(intent),
        black_point_compensation=False,
    )
    printed = shown(device)
    difference = delta_e_2000(filed, printed)
    chroma, hue = chroma_hue(filed)
    chroma_after, hue_after = chroma_hue(printed)
    hued = (chroma > _HUED) & (chroma_after > _HUED)
    turn = np.degrees(np.abs(np.angle(np.exp(1j * (hue_after - hue)))))
    figures = {
        "outside_share": float(weights[outside].sum()),
        "flattened_share": float(weights[flattened].sum()),
        "mean_de": float(np.average(difference, weights=weights)),
        "p95_de": weighted_quantile(difference, weights, 0.95),
        "shadow_loss": _steps_lost(filed[:, 0], printed[:, 0], weights, filed[:, 0] < _SHADOWS),
        "highlight_loss": _steps_lost(filed[:, 0], printed[:, 0], weights, filed[:, 0] > _HIGHLIGHTS),
        "hue_shift_deg": float(np.average(turn[hued], weights=weights[hued])) if hued.any() else 0.0,
        "chroma_change": float(np.average(chroma_after - chroma, weights=weights)),
    }
    shadows, highlights = (
        float(weights[part].sum()) for part in (filed[:, 0] < _SHADOWS, filed[:, 0] > _HIGHLIGHTS)
    )
    harm = (
        figures["mean_de"]
        + 0.25 * figures["p95_de"]
        + 20.0 * figures["flattened_share"]
        + 10.0 * (figures["shadow_loss"] * shadows + figures["highlight_loss"] * highlights)
        + 0.1 * figures["hue_shift_deg"]
    )
    return IntentFigures(intent=intent, black_point_compensation=compensated, harm=harm, **figures)


def _on_boundary(gamut: DeviceGamut, printed_lab: FloatArray) -> BoolArray:
    middle = np.array([50.0, 0.0, 0.0])
    outward: BoolArray = ~gamut.inside(middle + _OUTWARD * (printed_lab - middle))
    return outward


def _steps_lost(before: FloatArray, after: FloatArray, weights: FloatArray, part: BoolArray) -> float:
    """One less the slope of the line through lightness after over lightness before, clipped to 0 to 1."""
    if np.count_nonzero(part) < 2:
        return 0.0
    before, after, weights = before[part], after[part], weights[part]
    apart = before - np.average(before, weights=weights)
    spread = float(np.average(apart**2, weights=weights))
    if spread <= 0.0:
        return 0.0
    slope = float(np.average(apart * after, weights=weights)) / spread
    return min(max(1.0 - slope, 0.0), 1.0)
