"""The colours of a picture, gathered into bins, with how often each comes in each part of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.spaces.arrays import ByteArray, FloatArray, IndexArray
from pycore.errors import FieldError
from pycore.speech import say

#: Bits kept of each channel: 64 steps, four of 255 wide; a bin then stands for the mean of what fell into it.
_BITS: Final = 6
_SHIFT: Final = 8 - _BITS
#: Bins that there may be.
BINS: Final = 1 << (3 * _BITS)

#: Pixels worked on at a time, to bound the memory beside the picture.
_PIXELS: Final = 2_000_000


@dataclass(frozen=True, kw_only=True, slots=True)
class Region:
    """A named rectangle of pixels, right and bottom excluded."""

    name: str
    left: int
    top: int
    right: int
    bottom: int


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class PictureColours:
    """The bins that are not empty.

    Attributes
    ----------
    rgb_encoded : (n, 3) float64
        The mean of the pixels in each bin, 0 to 1, in the picture's own space.
    counts : (regions, n) int64
        Pixels of each region in each bin.
    regions : tuple of str
        Their names, in the order of `counts`.
    bins : (n,) intp
        The code of each bin, rising, as `bins_of` gives it.
    """

    rgb_encoded: FloatArray
    counts: NDArray[np.int64]
    regions: tuple[str, ...]
    bins: IndexArray

    @property
    def weights(self) -> FloatArray:
        """The share of all regions' pixels in each bin: (n,) float64, sum 1."""
        total = self.counts.sum(axis=0).astype(np.float64)
        shares: FloatArray = total / total.sum()
        return shares


def picture_colours(pixels: ByteArray, regions: Sequence[Region]) -> PictureColours:
    """Gather the colours of parts of a picture.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        RGB of any space.
    regions : sequence of Region
        At least one, none empty, none reaching out of the picture. They may overlap.

    Returns
    -------
    PictureColours

    Raises
    ------
    FieldError
        The pixels or a region are not as they should be.

    Examples
    --------
    >>> grey = np.full((2, 3, 3), 128, dtype=np.uint8)
    >>> whole = Region(name="face", left=0, top=0, right=3, bottom=2)
    >>> picture_colours(grey, [whole]).counts.tolist()
    [[6]]
    """
    _check(pixels, regions)
    counts = np.zeros((len(regions), BINS), dtype=np.int64)
    sums = np.zeros((3, BINS))
    for place, region in enumerate(regions):
        part = pixels[region.top : region.bottom, region.left : region.right]
        rows = max(_PIXELS // max(part.shape[1], 1), 1)
        for start in range(0, part.shape[0], rows):
            strip = part[start : start + rows]
            codes = bins_of(strip).ravel()
            counts[place] += np.bincount(codes, minlength=BINS)
            for channel in range(3):
                sums[channel] += np.bincount(codes, weights=strip[:, :, channel].ravel(), minlength=BINS)
    total = counts.sum(axis=0)
    bins = np.flatnonzero(total)
    return PictureColours(
        rgb_encoded=(sums[:, bins] / total[bins] / 255.0).T,
        counts=counts[:, bins],
        regions=tuple(region.name for region in regions),
        bins=bins,
    )


def bins_of(pixels: ByteArray) -> NDArray[np.int32]:
    """Find the bin that each pixel falls into.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8

    Returns
    -------
    (rows, columns) int32
    """
    steps = pixels >> _SHIFT
    codes = steps[:, :, 0].astype(np.int32)
    for channel in (1, 2):
        codes <<= _BITS
        codes |= steps[:, :, channel]
    return codes


def label_pixels(pixels: ByteArray, colours: PictureColours, labels: ByteArray) -> ByteArray:
    """Spread a label of each bin over the pixels that fell into it.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
    colours : PictureColours
        Of the same picture, or of another in which each of its bins was met.
    labels : (n,) uint8
        One for each bin of `colours`.

    Returns
    -------
    (rows, columns) uint8
        0 for colours that were not met.
    """
    table = np.zeros(BINS, dtype=np.uint8)
    table[colours.bins] = labels
    spread: ByteArray = table[bins_of(pixels)]
    return spread


def weighted_quantile(values: FloatArray, weights: FloatArray, share: float) -> float:
    """The value below which so much of the weight lies.

    Parameters
    ----------
    values, weights : (n,) float64
        At least one; no weight below 0, and one above.
    share : float
        Of the weight, 0 to 1.

    Returns
    -------
    float
        One of the values.

    Examples
    --------
    >>> weighted_quantile(np.array([3.0, 1.0, 2.0]), np.array([1.0, 1.0, 2.0]), 0.5)
    2.0
    """
    order = np.argsort(values)
    total = np.cumsum(weights[order])
    return float(values[order[min(int(np.searchsorted(total, share * total[-1])), len(values) - 1)]])


def _check(pixels: ByteArray, regions: Sequence[Region]) -> None:
    if pixels.ndim != 3 or pixels.shape[2] != 3 or pixels.dtype != np.uint8:
        raise FieldError(
            field="pixels",
            expected=say("rows, columns and 3 channels of uint8"),
            got=say("an array of shape {shape} of {dtype}", shape=pixels.shape, dtype=pixels.dtype),
            remedy=say("turn the picture into 8-bit RGB"),
        )
    if not regions:
        raise FieldError(
            field="regions",
            expected=say("at least one"),
            got=say("none"),
            remedy=say("give the whole picture as one"),
        )
    for region in regions:
        inside = 0 <= region.left < region.right <= pixels.shape[1]
        if not (inside and 0 <= region.top < region.bottom <= pixels.shape[0]):
            raise FieldError(
                field=f"region {region.name}",
                expected=say(
                    "a rectangle within {shape1} x {shape0} pixels",
                    shape1=pixels.shape[1],
                    shape0=pixels.shape[0],
                ),
                got=f"{region.left}, {region.top}, {region.right}, {region.bottom}",
                remedy=say("keep it inside the picture"),
            )
