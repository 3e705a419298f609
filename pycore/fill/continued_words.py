"""Several channels of a pixel in one 64-bit word, so that all are mixed at once."""

from __future__ import annotations

from typing import Final, TypeVar

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_ground import I32, I64

Number = TypeVar("Number", np.uint8, np.uint16)
Words = npt.NDArray[np.uint64]

#: Bits of a word to one channel, by bytes of a value: the value's own and 12 for two shares of 1 / 64.
BITS: Final = {1: 21, 2: 32}

#: How far a mixed pixel may lie from the nearest of its four, in levels of 255 in each channel, where the
#: face has no colour like the mixed one. Derived: two colours encoded in sRGB that lie so near are at most
#: 3.8 ΔE76 apart (4 levels would allow 7.6).
MOST_MIXED: Final = 2


def packed(pixels: npt.NDArray[Number]) -> list[Words]:
    """Put the channels of pixels side by side: three of 8 bits to a word, or two of 16.

    Parameters
    ----------
    pixels : (rows, columns, channels) uint8 or uint16

    Returns
    -------
    list of (rows x columns,) uint64

    Examples
    --------
    >>> [hex(int(word[0])) for word in packed(np.array([[[1, 2, 3, 4]]], np.uint8))]
    ['0xc0000400001', '0x4']
    """
    bits = BITS[pixels.itemsize]
    to_a_word = 64 // bits
    words: list[Words] = []
    for first in range(0, pixels.shape[2], to_a_word):
        word = pixels[..., first].astype(np.uint64)
        for lane in range(1, min(to_a_word, pixels.shape[2] - first)):
            word |= pixels[..., first + lane].astype(np.uint64) << np.uint64(lane * bits)
        words.append(word.ravel())
    return words


def mixed_words(plane: Words, places: tuple[I32, I32, I32, I32], right: I32, down: I32, shares: int) -> Words:
    """Mix four pixels in shares of 1 / 2**shares each way, with one half to round by.

    Parameters
    ----------
    plane : (pixels,) uint64
        From `packed`.
    places : four (rows, columns) int32
        Upper left, upper right, lower left, lower right.
    right, down : (rows, columns) int32
        The shares of what lies right and down.
    shares : int
        Bits of a share, at most 6.

    Returns
    -------
    (rows, columns) uint64
        In each lane the sum, 2**(2 shares) times the value.
    """
    if plane.min() == plane.max():
        # An opaque picture's opacity.
        return np.full(right.shape, plane[0] << np.uint64(2 * shares))
    one = np.uint64(1 << shares)
    to_right, to_down = right.astype(np.uint64), down.astype(np.uint64)
    upper, other, lower, last = (plane.take(place) for place in places)
    to_left = one - to_right
    upper *= to_left
    other *= to_right
    upper += other
    lower *= to_left
    last *= to_right
    lower += last
    upper *= one - to_down
    lower *= to_down
    upper += lower
    return upper


def unpack_into(
    out: npt.NDArray[Number], words: Words, number: int, shift: int, *, nearest: Words, kept: I64
) -> None:
    """Write the lanes of one word of each pixel to its channels, rounded; some kept near the nearest pixel.

    Parameters
    ----------
    out : (rows, columns, channels) uint8 or uint16
        Written in place.
    words : (rows, columns) uint64
        From `mixed_words`.
    number : int
        Which of the pixel's words.
    shift : int
        Bits of the sums that are shares.
    nearest : (n,) uint64
        The same word of the nearest pixel, from `packed`, of those that are kept.
    kept : (n,) int64
        Which pixels stay within `MOST_MIXED` of the nearest, counted row by row.
    """
    bits = BITS[out.itemsize]
    to_a_word = 64 // bits
    first = number * to_a_word
    mask = np.uint64((1 << bits) - 1)
    half = np.uint64(1 << (shift - 1))
    most = np.uint64(MOST_MIXED * (np.iinfo(out.dtype).max // 255))
    for lane in range(min(to_a_word, out.shape[2] - first)):
        value = (words >> np.uint64(lane * bits)) & mask
        value += half
        value >>= np.uint64(shift)
        if len(kept):
            near = (nearest >> np.uint64(lane * bits)) & mask
            held = np.minimum(value.ravel()[kept], near + most)
            # At least `near - most`, raised by `most` first: unsigned words have nothing under zero.
            held = np.maximum(held + most, near) - most
            value.ravel()[kept] = held
        out[..., first + lane] = value
