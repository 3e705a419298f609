"""Bring a picture's colours into a canvas's gamut: less chroma at the same hue, only where it is needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from PIL import Image, ImageFilter

from pycore.colour.gamut.chroma_limit import ChromaLimits, chroma_limits
from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.icc.transform import make_return
from pycore.colour.link.display import pillow_table, rgb_nodes
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.picture_colours import PictureColours
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import chroma_hue
from pycore.contract.job import Intent
from pycore.errors import FieldError

#: Sectors of hue, each brought in by as much as its own colours need.
_SECTORS: Final = 36

#: Colours up to this share of the way from grey to the boundary are left alone. Common practice: 0.8 to 0.9.
_KNEE: Final = 0.85

#: Greys further than this from the canvas's black and white, in L*, are left alone: what cannot be shown is
#: bent into this span, or into one and a half times its own depth where that is less. Our own choice.
_TOE_SPAN: Final = 12.0

#: The boundary is aimed at from just inside, so that rounding and interpolation do not cross it; from further
#: inside where a profile's tables are so coarse that they miss what lies at the edge.
_AIMS: Final = (0.985, 0.96, 0.93, 0.9)

#: The share of the picture that may still clip before the next aim is tried.
_LEFT_OVER: Final = 0.002

#: How far a saturated colour leans towards its hue's cusp while it loses chroma: 0 holds the lightness
#: exactly, 1 goes to the lightness at which the hue holds most chroma. Our own choice.
_LEAN: Final = 0.35

#: A sector is brought in until this share of its pixels fits; the rest lands on the boundary.
_FITTING: Final = 0.999

#: Nodes of the table that applies it.
_NODES: Final = 49


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class BringIn:
    """A way of bringing colours in that was fitted to one picture on one canvas.

    Attributes
    ----------
    limits : ChromaLimits
        The canvas's.
    furthest : (sectors,) float64
        How far each hue sector's colours reach, in units of the way from grey to the boundary; 1 = all fit.
    black, white : float
        L* of the darkest and the lightest grey that the canvas is given.
    darkest, lightest : float
        L* of the darkest and the lightest grey that the picture asks for.
    aim : float
        Where colours of the furthest reach come to lie, in the same units.
    strength : float
        0 leaves everything as it is, 1 brings everything in.
    """

    limits: ChromaLimits
    furthest: FloatArray
    black: float
    white: float
    darkest: float
    lightest: float
    aim: float
    strength: float

    def __call__(self, wanted_lab: FloatArray) -> FloatArray:
        """Move colours: (n, 3) float64 Lab relative to the canvas's white, to the same."""
        chroma, hue = chroma_hue(wanted_lab)
        lightness = self._into_range(wanted_lab[:, 0])
        anchor, reach = _reach(self.limits, lightness, chroma, hue)
        distance = 1.0 / np.maximum(reach, 1e-3)
        furthest = _by_hue(self.furthest, hue)
        # Beyond the knee x / (1 + s x), which leaves it without a bend; s puts the furthest on the boundary.
        over, span = np.maximum(distance - _KNEE, 0.0), np.maximum(furthest - _KNEE, 1.0 - _KNEE)
        slope = 1.0 / (self.aim - _KNEE) - 1.0 / span
        held = np.minimum(_KNEE + over / (1.0 + np.maximum(slope, 0.0) * over), self.aim)
        moved = np.where((over > 0.0) & (furthest > 1.0), np.minimum(held, distance), distance)
        scale = moved / distance
        there = anchor + scale * (lightness - anchor)
        brought = np.stack([there, scale * chroma * np.cos(hue), scale * chroma * np.sin(hue)], axis=1)
        result: FloatArray = wanted_lab + self.strength * (brought - wanted_lab)
        return result

    def _into_range(self, lightness: FloatArray) -> FloatArray:
        """Shadows and highlights that the canvas does not reach, bent in from where they begin."""
        result = lightness
        if self.darkest < self.black - 0.5:
            result = _toe(result, self.darkest, self.black)
        if self.lightest > self.white + 0.5:
            result = -_toe(-result, -self.lightest, -self.white)
        return result


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
            field="strength", expected="a number from 0 to 1", got=str(strength), remedy="give a share"
        )
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    wanted = request(colours.rgb_encoded)
    limits = chroma_limits(gamut.inside)
    fitted = BringIn(
        limits=limits,
        furthest=np.ones(_SECTORS),
        black=gamut.black,
        white=100.0,
        darkest=float(wanted[:, 0].min()),
        lightest=float(wanted[:, 0].max()),
        aim=_AIMS[0],
        strength=1.0,
    )
    chroma, hue = chroma_hue(wanted)
    lightness = fitted._into_range(wanted[:, 0])
    _, reach = _reach(limits, lightness, chroma, hue)
    distance = 1.0 / np.maximum(reach, 1e-3)
    sector = np.floor(np.mod(hue, 2 * np.pi) / (2 * np.pi) * _SECTORS).astype(np.intp) % _SECTORS
    furthest = np.ones(_SECTORS)
    for index in range(_SECTORS):
        members = (sector == index) & (chroma > 1.0)
        if members.any():
            furthest[index] = max(_quantile(distance[members], colours.weights[members], _FITTING), 1.0)
    # A hue between two sectors is brought in by as much as the more demanding of them, without a step.
    wide = np.maximum(np.maximum(furthest, np.roll(furthest, 1)), np.roll(furthest, -1))
    fitted = replace(fitted, furthest=wide)
    filed = Image.fromarray(np.rint(colours.rgb_encoded * 255.0).astype(np.uint8)[None])
    for aim in _AIMS:
        fitted = replace(fitted, aim=aim)
        # Judged as it will be applied, through a table and in 8 bits, which can step over the edge again.
        table = bring_in_table(
            fitted, source, gamut, intent=intent, black_point_compensation=black_point_compensation
        )
        brought = request(np.asarray(filed.filter(table))[0] / 255.0)
        clipped = clipping(gamut, brought).difference > threshold_de
        if float(colours.weights[clipped].sum()) <= _LEFT_OVER:
            break
    return replace(fitted, strength=strength)


#: Moves colours of a picture's own RGB, (n, 3) float64, 0 to 1.
Mover = Callable[[FloatArray], FloatArray]


def bring_in_mover(
    bring_in: BringIn, source: Endpoint, gamut: DeviceGamut, *, intent: Intent, black_point_compensation: bool
) -> Mover:
    """What brings the picture's colours in, within their own space.

    Parameters
    ----------
    bring_in : BringIn
    source : Profile or Standard
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
        All as they were for the fit.

    Returns
    -------
    callable
        Colours that it need not move stay exactly as they are.

    Raises
    ------
    ProfileError
        A profile lacks what is needed, such as the way back into the picture's space.
    """
    kind = Intent.ABSOLUTE if intent is Intent.ABSOLUTE else Intent.RELATIVE
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    back = make_return(source, gamut.profile, intent=kind, black_point_compensation=black_point_compensation)

    def move(rgb_encoded: FloatArray) -> FloatArray:
        wanted = request(rgb_encoded)
        moved = bring_in(wanted)
        goes = np.abs(moved - wanted).max(axis=1, keepdims=True) > 1e-9
        result: FloatArray = rgb_encoded + np.where(goes, back(moved) - rgb_encoded, 0.0)
        return result

    return move


def bring_in_table(
    bring_in: BringIn, source: Endpoint, gamut: DeviceGamut, *, intent: Intent, black_point_compensation: bool
) -> ImageFilter.Color3DLUT:
    """The table that brings the picture's pixels in, within their own space.

    Parameters
    ----------
    bring_in : BringIn
    source : Profile or Standard
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
        All as they were for the fit.

    Returns
    -------
    PIL.ImageFilter.Color3DLUT
        For pictures of mode RGB.

    Raises
    ------
    ProfileError
        A profile lacks what is needed, such as the way back into the picture's space.
    """
    move = bring_in_mover(
        bring_in, source, gamut, intent=intent, black_point_compensation=black_point_compensation
    )
    return pillow_table(move(rgb_nodes(_NODES)), nodes=_NODES, mode="RGB")


def _reach(
    limits: ChromaLimits, lightness: FloatArray, chroma: FloatArray, hue_rad: FloatArray
) -> tuple[FloatArray, FloatArray]:
    # Greys keep their lightness; the lean comes in with chroma.
    anchor = lightness + _LEAN * chroma / (chroma + 20.0) * (limits.cusp(hue_rad) - lightness)
    return anchor, limits.reach(anchor=anchor, lightness=lightness, chroma=chroma, hue_rad=hue_rad)


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


def _quantile(values: FloatArray, weights: FloatArray, share: float) -> float:
    order = np.argsort(values)
    total = np.cumsum(weights[order])
    return float(values[order[min(int(np.searchsorted(total, share * total[-1])), len(values) - 1)]])
