"""Bring a picture's colours into a canvas's gamut: less chroma at the same hue, only where it is needed.

Lightness is that of CIELAB and hue that of IPT (`spaces/ipt.py`), because a blue that keeps its CIELAB hue
turns purple; a blue that no light has, as very wide spaces name some, is taken for the light nearest to it
(`spaces/spectral.py`). A vivid colour gives up some lightness, too, where it would lose most of its chroma at
its own. What lies inside and how far colours move is told in CIELAB and CIEDE2000.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np

from pycore.colour.gamut.chroma_limit import ChromaLimits, chroma_limits
from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.gamut.inside import InsideTest
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.nearest_lightness import NearestLightness, nearest_lightness
from pycore.colour.mapping.picture_colours import PictureColours, weighted_quantile
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.ipt import lab_to_lpt, lpt_to_lab
from pycore.colour.spaces.lab import chroma_hue
from pycore.colour.spaces.spectral import as_light
from pycore.contract.job import Intent
from pycore.errors import FieldError
from pycore.speech import say

#: Sectors of hue, each brought in by as much as its own colours need.
_SECTORS: Final = 36

#: How far a colour on the boundary may be moved to make room for what lies outside, in CIEDE2000. What lies
#: inside moves by less, so nobody sees it; the bend that this leaves is as soft as that allows.
ROOM_DE: Final = 0.7

#: The boundary is aimed at from inside, so that rounding does not cross it, by this share of the room; by
#: more of it where a profile's tables are so coarse that they miss what lies at the edge.
_AIMS: Final = (0.4, 0.9)

#: The share of the picture that may still clip before the next aim is tried.
_LEFT_OVER: Final = 0.002

#: Greys up to this far from the canvas's black and white, in L*, make room for darker and lighter ones. Those
#: at the canvas's own black then move by at most 1 / e of it, in CIEDE2000 0.6 or less.
_TOE_SPAN: Final = 2.0
_TOE_ROOM: Final = 0.74

#: A colour is moved along the line to another of its hue, its anchor, which lies inside. A grey is its own. A
#: colour's anchor has the lightness at which the gamut comes nearest to it (`nearest_lightness.py`); that
#: comes in with chroma, by the chroma's share of itself and this.
_LEAN_FROM: Final = 4.0

#: The anchor has this share of the colour's chroma, or of what the gamut has there. With none the lightest
#: yellow would become nearly white: a canvas has hardly any chroma as light. These and the figures of
#: `nearest_lightness.py` are our own, set on three printers' profiles so that colours come out near those
#: that were asked for, and still apart.
_ANCHOR_CHROMA: Final = 0.92
_ANCHOR_HELD: Final = 0.84

#: How sharply a limit sets in.
_POWER: Final = 4.0

#: A sector is brought in until this share of its pixels fits; the rest lands on the boundary.
_FITTING: Final = 0.999

#: The step by which the room at the boundary is turned from CIEDE2000 into a share of the way from grey.
_TRIAL: Final = 0.03

#: The most of that share, and what lies no further out than any knee then stands and is not moved. derived: a
#: knee stands at 1 - room (1 + sqrt(1 - aim)), and the smallest aim is 0.4; a thousandth is for rounding.
_MOST_ROOM: Final = 0.15
_FIRST_KNEE: Final = 1.0 - _MOST_ROOM * (1.0 + (1.0 - min(_AIMS)) ** 0.5) - 1e-3

#: By how much more than that room a colour may be moved, in CIEDE2000, for each L* above or below the gamut.
#: A tenth of L* above a hollow of the boundary, as there are beside the lightest yellow and the darkest blue,
#: a colour would else lose half its chroma beside one that lies inside. Our own choice.
_STEEPEST: Final = 6.0

#: The most L* above or below the gamut for which that counts, where the threshold is no less.
_MOST_SLACK: Final = 3.0

#: Colours that are moved at once: what is worked out on the way then stays in the processor's cache.
_TOGETHER: Final = 1 << 13


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class BringIn:
    """A way of bringing colours in that was fitted to one picture on one canvas.

    Attributes
    ----------
    limits : ChromaLimits
        The canvas's, over L* and the hue of IPT.
    nearest : NearestLightness
        Of these limits.
    inside : callable
        Whether colours, (n, 3) float64 Lab, lie in the canvas's gamut.
    furthest : (sectors,) float64
        How far each hue sector's colours reach, in units of the way from grey to the boundary; 1 = all fit.
    black, white : float
        L* of the darkest and the lightest grey that the canvas is given.
    darkest, lightest : float
        L* of the darkest and the lightest grey that the picture asks for.
    aim : float
        By how much of the room at the boundary the furthest colours come to lie inside.
    slack : float
        How far above or below the gamut, in L*, a colour may lie and still not be missed.
    strength : float
        0 leaves everything as it is, 1 brings everything in.
    """

    limits: ChromaLimits
    nearest: NearestLightness
    inside: InsideTest
    furthest: FloatArray
    black: float
    white: float
    darkest: float
    lightest: float
    aim: float
    slack: float
    strength: float

    @property
    def does_nothing(self) -> bool:
        """No colour is moved."""
        fits = self.darkest >= self.black and self.lightest <= self.white
        return self.strength == 0.0 or (fits and bool(np.all(self.furthest <= 1.0)))

    def __call__(self, wanted_lab: FloatArray) -> FloatArray:
        """Move colours: (n, 3) float64 Lab relative to the canvas's white, to the same.

        A colour that need not move comes back as it is, to the last bit.
        """
        if self.does_nothing:
            return wanted_lab
        result = np.empty_like(wanted_lab)
        for first in range(0, len(wanted_lab), _TOGETHER):
            part = slice(first, first + _TOGETHER)
            result[part] = self._moved(wanted_lab[part])
        return result

    def _moved(self, wanted_lab: FloatArray) -> FloatArray:
        light = as_light(wanted_lab)
        lpt = lab_to_lpt(light)
        lightness, chroma, hue = self._into_range(light, lpt)
        anchor, held, reach = _reach(self.limits, self.nearest, lightness, chroma, hue)
        distance = 1.0 / np.maximum(reach, 1e-3)
        # The sampled boundary cuts sharp edges; what lies inside the true one is not beyond it, and needs no
        # more than the room that shadows make for one another, however dark its inks are.
        doubtful = np.flatnonzero((distance > 1.0) | (lightness != lpt[:, 0]))
        within = doubtful[self.inside(wanted_lab[doubtful])]
        distance[within] = np.minimum(distance[within], 1.0)
        lifted = lightness[within] - lpt[within, 0]
        lightness[within] = lpt[within, 0] + np.clip(lifted, -_TOE_ROOM, _TOE_ROOM)
        chroma[within] = np.hypot(lpt[within, 1], lpt[within, 2])
        furthest = _by_hue(self.furthest, hue)
        scale = np.ones_like(distance)
        near = np.flatnonzero((distance > _FIRST_KNEE) & (furthest > 1.0))
        if len(near):
            edge = [one[near] for one in (anchor, held, lightness, chroma, hue, distance)]
            room = _room(*edge)
            scale[near] = _held(edge[5], furthest[near], room, self.aim) / edge[5]
        brought = _polar(anchor + scale * (lightness - anchor), held + scale * (chroma - held), hue)
        goes = (scale < 1.0) | (lightness != lpt[:, 0])
        way = self._bounded(wanted_lab[goes], lpt[goes], brought[goes] - lpt[goes])
        result = wanted_lab.copy()
        rest = (1.0 - self.strength) * (wanted_lab[goes] - light[goes])
        result[goes] = lpt_to_lab(lpt[goes] + self.strength * way) + rest
        return result

    def _bounded(self, wanted_lab: FloatArray, lpt: FloatArray, way: FloatArray) -> FloatArray:
        """The ways that colours are moved, the shorter the nearer they lie above or below the gamut."""
        # What is moved by less than the room, which is more than this, needs no bound.
        far = np.flatnonzero(np.linalg.norm(way, axis=1) > ROOM_DE)
        height = self.inside.upright_distance(wanted_lab[far], furthest=self.slack)
        far, height = far[height < self.slack], height[height < self.slack]
        moved = delta_e_2000(wanted_lab[far], lpt_to_lab(lpt[far] + way[far]))
        most = ROOM_DE + _STEEPEST * height / (1.0 - height / self.slack)
        result = way.copy()
        result[far] *= np.minimum(most / np.maximum(moved, 1e-9), 1.0)[:, None]
        return result

    def _into_range(self, light: FloatArray, lpt: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """L*, chroma and hue of colours, in Lab and with IPT's pair.

        Shadows and highlights that the canvas does not reach are bent in from where they begin. Lighter, the
        pair of a near black would be vivid: its chroma in CIELAB does not grow.
        """
        lightness, (chroma, hue) = lpt[:, 0].copy(), chroma_hue(lpt)
        if self.darkest < self.black:
            lightness = _toe(lightness, self.darkest, self.black)
        if self.lightest > self.white:
            lightness = -_toe(-lightness, -self.lightest, -self.white)
        bent = np.flatnonzero((lightness != lpt[:, 0]) & (chroma > 0.0))
        asked, _ = chroma_hue(light[bent])
        found, _ = chroma_hue(lpt_to_lab(_polar(lightness[bent], chroma[bent], hue[bent])))
        chroma[bent] *= np.minimum(asked / np.maximum(found, 1e-9), 1.0)
        return lightness, chroma, hue


def fit_bring_in(
    colours: PictureColours,
    source: Endpoint,
    gamut: DeviceGamut,
    *,
    intent: Intent,
    black_point_compensation: bool,
    threshold_de: float,
    strength: float,
) -> BringIn:
    """Measure how far a picture leaves a canvas's gamut in each hue.

    Where no colour is missed by more than the threshold, nothing will be moved: neither in a hue, nor in the
    shadows, nor in the highlights.

    Parameters
    ----------
    colours : PictureColours
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    intent : Intent
        Relative or absolute; what the others need is what the relative one needs.
    black_point_compensation : bool
    threshold_de : float
        What differs by no more than this does not count as clipped.
    strength : float
        0 to 1.

    Returns
    -------
    BringIn

    Raises
    ------
    FieldError
        The strength is not from 0 to 1.
    ProfileError
        A profile lacks what is needed.
    """
    if not 0.0 <= strength <= 1.0:
        raise FieldError(
            field="strength",
            expected=say("a number from 0 to 1"),
            got=str(strength),
            remedy=say("give a share"),
        )
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    wanted = request(colours.rgb_encoded)
    lost = clipping(gamut, wanted).difference > threshold_de
    limits, nearest = _limits(gamut)
    fitted = BringIn(
        limits=limits,
        nearest=nearest,
        inside=gamut.inside,
        furthest=np.ones(_SECTORS),
        black=gamut.black,
        white=100.0,
        darkest=float(np.min(wanted[lost, 0], initial=gamut.black)),
        lightest=float(np.max(wanted[lost, 0], initial=100.0)),
        aim=_AIMS[0],
        slack=min(threshold_de, _MOST_SLACK),
        strength=1.0,
    )
    light = as_light(wanted)
    lightness, chroma, hue = fitted._into_range(light, lab_to_lpt(light))
    _, _, reach = _reach(fitted.limits, fitted.nearest, lightness, chroma, hue)
    distance = 1.0 / np.maximum(reach, 1e-3)
    sector = np.floor(np.mod(hue, 2 * np.pi) / (2 * np.pi) * _SECTORS).astype(np.intp) % _SECTORS
    furthest = np.ones(_SECTORS)
    for index in range(_SECTORS):
        members = (sector == index) & (chroma > 1.0)
        if (lost & members).any():
            furthest[index] = max(
                weighted_quantile(distance[members], colours.weights[members], _FITTING), 1.0
            )
    # A hue between two sectors is brought in by as much as the more demanding of them, without a step.
    wide = np.maximum(np.maximum(furthest, np.roll(furthest, 1)), np.roll(furthest, -1))
    fitted = replace(fitted, furthest=wide)
    for aim in _AIMS:
        fitted = replace(fitted, aim=aim)
        clipped = clipping(gamut, fitted(wanted)).difference > threshold_de
        if float(colours.weights[clipped].sum()) <= _LEFT_OVER:
            break
    return replace(fitted, strength=strength)


@lru_cache(maxsize=4)
def _limits(gamut: DeviceGamut) -> tuple[ChromaLimits, NearestLightness]:
    limits = chroma_limits(lambda lpt: gamut.inside(lpt_to_lab(lpt)))
    return limits, nearest_lightness(limits)


def _held(distance: FloatArray, furthest: FloatArray, room: FloatArray, aim: float) -> FloatArray:
    """Where a colour comes to lie between grey (0) and the boundary (1).

    Beyond a knee x / (1 + s x), which leaves it without a bend; s puts the furthest just inside the boundary.
    The knee stands where what lies on the boundary moves by no more than its room, however far the furthest
    is.
    """
    short = room * aim
    # derived: with the furthest at infinity a colour on the boundary moves by u^2 / (2 u - short), where u is
    # how far the knee stands inside; that is the room.
    knee = 1.0 - room - np.sqrt(room * (room - short))
    over, span = np.maximum(distance - knee, 0.0), furthest - knee
    slope = np.maximum(1.0 / (1.0 - short - knee) - 1.0 / span, 0.0)
    bent: FloatArray = np.minimum(distance, np.minimum(knee + over / (1.0 + slope * over), 1.0 - short))
    return bent


def _room(
    anchor: FloatArray,
    held: FloatArray,
    lightness: FloatArray,
    chroma: FloatArray,
    hue_rad: FloatArray,
    distance: FloatArray,
) -> FloatArray:
    """The share of the way from the anchor that `ROOM_DE` is, at the boundary."""

    def there(share: float) -> FloatArray:
        scale = share / distance
        there_l, there_c = anchor + scale * (lightness - anchor), held + scale * (chroma - held)
        return lpt_to_lab(_polar(there_l, there_c, hue_rad))

    moved = delta_e_2000(there(1.0), there(1.0 - _TRIAL))
    room: FloatArray = np.clip(ROOM_DE * _TRIAL / np.maximum(moved, 1e-6), 0.005, _MOST_ROOM)
    return room


def _polar(lightness: FloatArray, chroma: FloatArray, hue_rad: FloatArray) -> FloatArray:
    return np.stack([lightness, chroma * np.cos(hue_rad), chroma * np.sin(hue_rad)], axis=1)


def _reach(
    limits: ChromaLimits,
    nearest: NearestLightness,
    lightness: FloatArray,
    chroma: FloatArray,
    hue_rad: FloatArray,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """L* and chroma of each colour's anchor, and how far the line through the colour stays inside."""
    # Greys keep their lightness; the lean comes in with chroma.
    anchor = lightness + nearest(lightness, chroma, hue_rad) * chroma / (chroma + _LEAN_FROM)
    held = _limited(_ANCHOR_CHROMA * chroma, np.maximum(_ANCHOR_HELD * limits(anchor, hue_rad), 1e-6))
    reach = limits.reach(
        anchor=anchor, anchor_chroma=held, lightness=lightness, chroma=chroma, hue_rad=hue_rad
    )
    return anchor, held, reach


def _limited(values: FloatArray, most: FloatArray | float) -> FloatArray:
    """Small values as they are, large ones no further from 0 than a limit."""
    result: FloatArray = values / (1.0 + np.abs(values / most) ** _POWER) ** (1.0 / _POWER)
    return result


def _by_hue(sectors: FloatArray, hue_rad: FloatArray) -> FloatArray:
    """Between the middles of two sectors, along a straight line."""
    place = np.mod(hue_rad, 2 * np.pi) / (2 * np.pi) * _SECTORS - 0.5
    left = np.floor(place).astype(np.intp)
    part = place - left
    result: FloatArray = sectors[left % _SECTORS] * (1 - part) + sectors[(left + 1) % _SECTORS] * part
    return result


def _toe(lightness: FloatArray, lowest: float, floor: float) -> FloatArray:
    """Bend what lies near `floor` so that `lowest` comes out at it, without a bend where that begins."""
    start = floor + min(1.5 * (floor - lowest), _TOE_SPAN)
    share = np.clip((lightness - lowest) / (start - lowest), 0.0, 1.0)
    power = (start - lowest) / (start - floor)
    return np.where(lightness < start, floor + (start - floor) * share**power, lightness)
