"""Does a piece show what a grown side shows already? Compared blurred, wherever it could lie."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.fill.grown_cut import I32, I64

#: Blurred by so many pixels each way.
_BLUR: Final = 4

#: A piece whose values stray from their mean by no more than this has nothing in it to be known again by.
_PLAIN: Final = 4.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Known:
    """Every part of a strip that a piece could repeat.

    Attributes
    ----------
    windows : (places, values) int64
        Blurred.
    sums, spreads : (places,) int64
        Of each window: its sum, and how far its values stray, times the square of their number.
    """

    windows: I64
    sums: I64
    spreads: I64


def known(strip: I32, *, columns: int) -> Known:
    """Take a strip apart.

    Parameters
    ----------
    strip : (rows, columns, 3) int32
        What the side shows so far.
    columns : int
        Of the pieces that will be compared with it; they have its rows.

    Returns
    -------
    Known
    """
    there, wide = _reduced(strip), columns // _BLUR
    places = max(there.shape[1] - wide + 1, 0) if wide else 0
    windows = np.zeros((places, there.shape[0] * wide * 3), np.int64)
    for at in range(places):
        windows[at] = there[:, at : at + wide].ravel()
    # Sums of whole numbers, so that the order of adding changes nothing.
    sums = windows.sum(axis=1, dtype=np.int64)
    spreads = (windows * windows).sum(axis=1, dtype=np.int64) * windows.shape[1] - sums * sums
    return Known(windows=windows, sums=sums, spreads=spreads)


def likeness(piece: I32, strip: Known) -> float:
    """The greatest normalised correlation of a piece with any part of a strip.

    Parameters
    ----------
    piece : (rows, columns, 3) int32
        Encoded values.
    strip : Known
        Made for so many columns.

    Returns
    -------
    float
        0 to 1; 0 for a piece without detail and where the strip is too short.

    References
    ----------
    J. P. Lewis, Fast normalized cross-correlation, 1995, equation 2; from memory.

    Examples
    --------
    >>> piece = np.zeros((16, 16, 3), np.int32)
    >>> piece[:8, :8] = 200
    >>> likeness(piece, known(np.concatenate([piece * 0, piece // 2 + 40], axis=1), columns=16))
    1.0
    """
    count = strip.windows.shape[1]
    if len(strip.windows) == 0:
        return 0.0
    flat = _reduced(piece).ravel().astype(np.int64)
    mine = int(flat.sum(dtype=np.int64))
    spread = int((flat * flat).sum(dtype=np.int64)) * count - mine * mine
    least = (_PLAIN * _BLUR * _BLUR * count) ** 2
    if spread < least:
        return 0.0
    both = (strip.windows * flat).sum(axis=1, dtype=np.int64) * count - strip.sums * mine
    found = both / (np.sqrt(float(spread)) * np.sqrt(np.maximum(strip.spreads, 1).astype(np.float64)))
    return float(found[strip.spreads >= least].max(initial=0.0))


def _reduced(values: I32) -> I32:
    """Sums of blocks of 4 x 4; what is left over at the ends is left out."""
    rows, columns = values.shape[0] // _BLUR, values.shape[1] // _BLUR
    blocks = values[: rows * _BLUR, : columns * _BLUR].reshape(rows, _BLUR, columns, _BLUR, 3)
    sums: I32 = blocks.sum(axis=(1, 3), dtype=np.int32)
    return sums
