"""The light on a photographed wall: its colour and brightness, where it falls off, where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.spaces.srgb import SRGB_LUMINANCE, srgb_decode
from pycore.contract.record import Pair
from pycore.picture.tones import U8
from pycore.wall.homography import mapped
from pycore.wall.least_squares import Floats

#: Of the reference's width and height what is left out on each side: edges are blurred, corners taped.
_INSET: Final = 0.15
#: Places a side at which reference and wall are looked at.
_PLACES: Final = 32
_LUMINANCE: Final = np.array(SRGB_LUMINANCE)
#: The wall's light may differ from that on the reference by this factor, and no more is believed.
MOST_FACTOR: Final = 2.5
#: A wall whose places lie further from a smooth light than this share, half of them, shows things, not light.
_UNEVEN: Final = 0.12
#: A fall of light of less than this share a metre tells no direction.
_EVEN_PER_M: Final = 0.04
#: An encoded value from which paper is overexposed.
_BURNT: Final = 253


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class RoomLight:
    """How a white surface looks in the photograph, place by place.

    Attributes
    ----------
    white : (3,) float64
        Linear sRGB of the reference's surface at its middle.
    middle_mm : (float, float)
        That middle on the wall.
    fall : (2,) float64
        The logarithm of the light by mm, to the right and up.
    is_burnt : bool
        The reference is overexposed, so its colour is not known.
    """

    white: Floats
    middle_mm: Pair
    fall: Floats
    is_burnt: bool

    @property
    def from_deg(self) -> float:
        """Where the light comes from: degrees clockwise from above; 0 where the wall does not tell."""
        if float(np.linalg.norm(self.fall)) * 1000 < _EVEN_PER_M:
            return 0.0
        return float(np.degrees(np.arctan2(self.fall[0], self.fall[1])) % 360)

    def gain(self, x_mm: Floats, y_mm: Floats, *, amount: float) -> Floats:
        """The factors of linear sRGB by which a print's colours look as they would on the wall.

        Parameters
        ----------
        x_mm, y_mm : (...) float64
            Places on the wall.
        amount : float
            0: the print's own colours; 1: all of the room's light.

        Returns
        -------
        (..., 3) float64
        """
        limit = float(np.log(MOST_FACTOR))
        fall = self.fall[0] * (x_mm - self.middle_mm[0]) + self.fall[1] * (y_mm - self.middle_mm[1])
        factor = amount * np.clip(fall, -limit, limit)
        tint = amount * np.log(np.maximum(self.white, 1e-3))
        return np.asarray(np.exp(factor[..., None] + tint))


def read_light(
    pixels: U8, wall_to_pixels: Floats, *, reference_mm: Pair, centre_mm: Pair, size_mm: Pair
) -> RoomLight:
    """Read the room's light off the reference and the wall round it and behind the piece.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        srgb_encoded.
    wall_to_pixels : (3, 3) float64
        From mm on the wall to these pixels.
    reference_mm : (float, float)
        Width and height of the first reference, whose lower-left corner is the origin.
    centre_mm, size_mm : (float, float)
        Where the piece hangs, and its width and height.

    Returns
    -------
    RoomLight
    """
    width, height = reference_mm
    inside = np.linspace(_INSET, 1 - _INSET, _PLACES)
    paper = _values(pixels, wall_to_pixels, _grid(inside * width, inside * height))[0]
    middle = (width / 2, height / 2)
    if not len(paper):
        return RoomLight(white=np.ones(3), middle_mm=middle, fall=np.zeros(2), is_burnt=True)
    # The middle half by brightness: folds, tape and writing are left out.
    bright = paper @ _LUMINANCE
    low, high = np.quantile(bright, [0.25, 0.75])
    white = paper[(bright >= low) & (bright <= high)].mean(axis=0)
    return RoomLight(
        white=white,
        middle_mm=middle,
        fall=_fall(pixels, wall_to_pixels, reference_mm, centre_mm, size_mm),
        is_burnt=bool((white >= srgb_decode(np.array(_BURNT / 255))).any()),
    )


def _fall(pixels: U8, wall_to_pixels: Floats, reference_mm: Pair, centre_mm: Pair, size_mm: Pair) -> Floats:
    """The slope of the wall's light, by the places that a smooth light explains; 0 where there are few."""
    width, height = reference_mm
    margin = 0.6 * max(width, height)
    spans = []
    for axis, length in enumerate((width, height)):
        low = min(0.0, centre_mm[axis] - size_mm[axis] / 2) - margin
        high = max(length, centre_mm[axis] + size_mm[axis] / 2) + margin
        spans.append(np.linspace(low, high, _PLACES))
    places = _grid(spans[0], spans[1])
    x, y = places.T
    # The reference and a rim round it are no wall.
    rim = 0.08 * max(width, height)
    wall = places[(x < -rim) | (x > width + rim) | (y < -rim) | (y > height + rim)]
    values, wall = _values(pixels, wall_to_pixels, wall)
    if len(wall) < _PLACES:
        return np.zeros(2)
    logs = np.log(np.maximum(values @ _LUMINANCE, 1e-4))
    design = np.column_stack([wall / 1000, np.ones(len(wall))])
    found = np.array([0.0, 0.0, float(np.median(logs))])
    scale = 0.5
    for _ in range(12):
        off = logs - design @ found
        near = np.clip(1 - (off / (3 * scale)) ** 2, 0, None) ** 2
        normal = design.T @ (design * near[:, None]) + 1e-6 * np.eye(3)
        found = np.linalg.solve(normal, design.T @ (near * logs))
        scale = float(np.clip(1.5 * np.median(np.abs(logs - design @ found)), 0.02, scale))
    if float(np.median(np.abs(logs - design @ found))) > _UNEVEN:
        return np.zeros(2)
    return found[:2] / 1000


def _grid(x: Floats, y: Floats) -> Floats:
    return np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)


def _values(pixels: U8, wall_to_pixels: Floats, places_mm: Floats) -> tuple[Floats, Floats]:
    """Linear sRGB at those places that the photograph shows, and the places."""
    seen = mapped(wall_to_pixels, places_mm)
    depth = places_mm @ wall_to_pixels[2, :2] + wall_to_pixels[2, 2]
    rows, columns = pixels.shape[:2]
    with np.errstate(invalid="ignore"):
        is_in = (depth > 0) & (seen >= 0).all(axis=1) & (seen[:, 0] < columns) & (seen[:, 1] < rows)
    at = seen[is_in].astype(int)
    return srgb_decode(pixels[at[:, 1], at[:, 0]] / 255.0), places_mm[is_in]
