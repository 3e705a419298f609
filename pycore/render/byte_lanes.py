"""Comparing bytes eight at a time, as the lanes of whole numbers of 64 bits.

WebAssembly as numpy is built for it takes the greater of two values one by one, which costs as much as four
sums of 64 bits. Where no sum leaves its own byte, eight bytes need no more than one: so comparisons are made
of sums, shifts and masks here. Natively numpy compares many bytes at once and has no need of it.

A lane holds 0 to 255. Words are signed, since numpy shifts those quicker; what a shift brings in at the top
is always masked.

References
----------
L. Lamport, Multiple byte processing with full-word instructions, Communications of the ACM 18 (1975).
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

#: Eight bytes each.
Words = npt.NDArray[np.int64]


def in_each(byte: int) -> np.int64:
    """The word that holds a byte in each lane.

    Parameters
    ----------
    byte : int
        0 to 255.

    Returns
    -------
    numpy.int64

    Examples
    --------
    >>> hex(in_each(0x12))
    '0x1212121212121212'
    """
    return np.int64(int.from_bytes(bytes([byte]) * 8, signed=True))


#: The highest bit of each lane.
HIGH: Final = in_each(0x80)
_LOW: Final = in_each(0x7F)
_ONE: Final = in_each(0x01)
_ALL: Final = np.int64(0xFF)
_LAST: Final = np.int64(7)


def moved(words: Words, count: int) -> Words:
    """Each byte in the place of the one that lies some places before it; the last ones are 0.

    Parameters
    ----------
    words : array of int64
    count : int
        Places, at least 1.

    Returns
    -------
    array of int64
        Of the same shape.

    Examples
    --------
    >>> moved(np.frombuffer(bytes(range(8)), np.int64), 3).tobytes().hex()
    '0304050607000000'
    """
    found = np.empty(words.shape, np.int64)
    places = found.reshape(-1).view(np.uint8)
    places[:-count] = words.reshape(-1).view(np.uint8)[count:]
    places[-count:] = 0
    return found


def compared(one: Words, other: Words) -> tuple[Words, Words]:
    """The greater and the lesser of two bytes.

    Parameters
    ----------
    one, other : array of int64

    Returns
    -------
    greater, lesser : array of int64

    Examples
    --------
    >>> both = bytes([7, 200, 5, 0, 0, 0, 0, 0, 9, 100, 5, 1, 0, 0, 0, 0])
    >>> one, other = np.frombuffer(both, np.int64).reshape(2, 1)
    >>> [list(found.tobytes()[:4]) for found in compared(one, other)]
    [[9, 200, 5, 1], [7, 100, 5, 0]]
    """
    gain = _gain(one, other)
    return other ^ gain, np.bitwise_xor(gain, one, out=gain)


def greater(one: Words, other: Words) -> Words:
    """The greater of two bytes.

    Parameters
    ----------
    one, other : array of int64

    Returns
    -------
    array of int64
    """
    gain = _gain(one, other)
    return np.bitwise_xor(gain, other, out=gain)


def lesser(one: Words, other: Words) -> Words:
    """The lesser of two bytes.

    Parameters
    ----------
    one, other : array of int64

    Returns
    -------
    array of int64
    """
    gain = _gain(one, other)
    return np.bitwise_xor(gain, one, out=gain)


def halved(words: Words) -> Words:
    """Half of each byte, rounded down.

    Parameters
    ----------
    words : array of int64

    Returns
    -------
    array of int64

    Examples
    --------
    >>> halved(np.frombuffer(bytes([255, 1, 2, 3, 128, 129, 0, 7]), np.int64)).tobytes().hex()
    '7f00010140400003'
    """
    found = words >> np.int64(1)
    found &= _LOW
    return found


def _gain(one: Words, other: Words) -> Words:
    """The bits in which two bytes differ where `one` is not less than `other`."""
    gain = one ^ other
    # The seven low bits are compared by their difference, which the high bit keeps from going below 0.
    mask = one | HIGH
    mask -= other & _LOW
    # Where the high bits differ, `one` is greater if it has it.
    wrong = mask ^ one
    wrong &= gain
    mask ^= wrong
    mask >>= _LAST
    mask &= _ONE
    mask *= _ALL
    gain &= mask
    return gain


def reaching(words: Words, least: int) -> Words:
    """1 in each lane whose byte is at least so much, 0 in others.

    Parameters
    ----------
    words : array of int64
        Bytes of 0 to 127.
    least : int
        1 to 128.

    Returns
    -------
    array of int64

    Examples
    --------
    >>> reaching(np.frombuffer(bytes([11, 12, 0, 127, 3, 4, 5, 13]), np.int64), 12).tobytes().hex()
    '0001000100000001'
    """
    found = words + in_each(128 - least)
    found >>= _LAST
    found &= _ONE
    return found


def exceeding(words: Words, most: int) -> Words:
    """Bytes of 128 or more where a byte exceeds a limit.

    Parameters
    ----------
    words : array of int64
    most : int
        0 to 127.

    Returns
    -------
    array of int64
        The seven low bits of each byte mean nothing.
    """
    found = words & _LOW
    found += in_each(127 - most)
    found |= words
    return found
