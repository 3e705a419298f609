"""Colours of 8 bits that were looked up before: most pixels of a picture have one of few colours."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.spaces.arrays import ByteArray

U32 = NDArray[np.uint32]

#: Places in the table, as a power of two: 8 MB. Of an enlarged photograph nine pixels in ten then find theirs.
_BITS: Final = 20

#: Spreads neighbouring colours over the table: 2^32 divided by the golden ratio (Knuth, The art of computer
#: programming, volume 3, 6.4).
_SPREAD: Final = np.uint32(2654435769)
_DOWN: Final = np.uint32(32 - _BITS)
_HIGH: Final = np.uint64(32)


class SeenColours(threading.local):
    """A table of one place for each of many colours; a new colour takes the place of an old one.

    Each thread has its own, so that none reads what another is writing.
    """

    def __init__(self) -> None:
        # An entry is the colour above its result. No colour but 0 may find itself in an empty place, so place
        # 0, which is that colour's, begins with another one in it.
        self._entries = np.zeros(1 << _BITS, dtype=np.uint64)
        self._entries[0] = np.uint64(1) << _HIGH

    def results(self, colours: U32, look_up: Callable[[ByteArray], ByteArray]) -> ByteArray:
        """The results of colours, looking up only what was not met.

        Parameters
        ----------
        colours : (n,) uint32
            Four channels of 8 bits each, the first in the lowest bits; channels that there are not are 0.
        look_up : callable
            From (m, 4) uint8 colours to (m, 4) uint8 results; the same for the same colour every time.

        Returns
        -------
        (n, 4) uint8
        """
        places = (colours * _SPREAD) >> _DOWN
        found = self._entries.take(places, mode="clip")
        results = found.astype(np.uint32)
        found >>= _HIGH
        new = np.flatnonzero(found != colours)
        if len(new):
            missed = colours[new]
            answers = look_up(missed.view(np.uint8).reshape(-1, 4)).view(np.uint32)[:, 0]
            results[new] = answers
            self._entries[places[new]] = (missed.astype(np.uint64) << _HIGH) | answers
        return results.view(np.uint8).reshape(-1, 4)
