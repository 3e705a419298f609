"""A side made to begin at the arris with the face's own last row, each detail of it fading at its own size.

The difference between the face's last row and the side's first is split into bands of detail along the
arris; each band is added to the side and fades outwards within a few times its own width, as a membrane held
at the arris would. So a difference of colour dies away over the whole side and one of a pixel at once.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

U8 = npt.NDArray[np.uint8]
U16 = npt.NDArray[np.uint16]
F64 = npt.NDArray[np.float64]

#: Steps of an 8-bit value in the strip's fixed point.
STEP = 256

#: A band reaches so many times its own step outwards, and so many rows besides.
_FADES = 2
_LEAST = 4


def detail_bands(row: F64, *, levels: int) -> list[F64]:
    """Split a row into bands of detail, finest first, and the smooth rest; their sum is the row.

    Parameters
    ----------
    row : (columns,) float64
    levels : int
        Bands beside the rest.

    Returns
    -------
    list of (columns,) float64

    References
    ----------
    The undecimated transform by the kernel 1 2 1 / 4 with holes ("a trous"), M. J. Shensa, IEEE Trans. Signal
    Processing 40 (1992); the blending of bands over widths of their own: P. J. Burt and E. H. Adelson, A
    multiresolution spline, ACM Trans. Graphics 2 (1983). Both from memory.

    Examples
    --------
    >>> [band.tolist() for band in detail_bands(np.array([0.0, 4.0, 0.0]), levels=1)]
    [[-1.0, 2.0, -1.0], [1.0, 2.0, 1.0]]
    """
    bands = []
    smooth = row
    for level in range(levels):
        hole = 2**level
        wide = np.pad(smooth, hole, mode="symmetric")
        # Halves and quarters of sums of two: the same on every machine.
        coarser = (wide[: len(row)] + wide[2 * hole :]) * 0.25 + smooth * 0.5
        bands.append(smooth - coarser)
        smooth = coarser
    return [*bands, smooth]


def begin_with(edge: U8, strip: U16, *, first: int) -> None:
    """Change a strip so that its first row is the face's last one.

    Parameters
    ----------
    edge : (columns,) uint8
        The face's last row at the arris, encoded.
    strip : (reach, columns or more) uint16
        Encoded values times `STEP`; written in place.
    first : int
        The strip's column at which the face begins. Past the face's ends its edge is reflected.

    Examples
    --------
    >>> strip = np.zeros((4, 1), np.uint16)
    >>> begin_with(np.array([30], np.uint8), strip, first=0)
    >>> (strip // STEP).ravel().tolist()
    [30, 29, 27, 25]
    """
    reach, columns = strip.shape
    around = (first, columns - first - len(edge))
    wanted = np.pad(edge, around, mode="symmetric").astype(np.float64) * STEP
    levels = max(1, (reach // 2).bit_length())
    bands = detail_bands(wanted - strip[0], levels=levels)
    for row in range(reach):
        change = np.full(columns, 0.5)
        for level, band in enumerate(bands):
            gone = row / (_LEAST + _FADES * 2.0**level)
            if gone < 1:
                # 1 - 3 t**2 + 2 t**3: it neither begins nor ends with a step.
                change += band * (1.0 - gone * gone * (3.0 - 2.0 * gone))
        strip[row] = np.floor(np.clip(strip[row] + change, 0.0, 255.0 * STEP)).astype(np.uint16)
