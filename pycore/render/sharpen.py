"""Output sharpening: a little more of the finest detail, since ink on woven canvas softens it.

To each value is added what its lightness has more than the lightness around it, by a bell-shaped mean with a
standard deviation of 0.17 mm of printed canvas (two pixels at 300 ppi), times the amount; by no more than
`MOST` of 255. That is done in encoded values, which go with lightness, at the canvas's resolution. Of RGB all
three channels get the same, so that no hue turns; inks are sharpened each by itself.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import Values

F32 = npt.NDArray[np.float32]

#: Common practice (from memory): halos much wider than this are seen at arm's length.
SPREAD_MM: Final = 0.17

#: No value is changed by more, of 255.
MOST: Final = 16


def passes(px_per_mm: float) -> int:
    """How often 1 2 1 / 4 is applied, each time spreading by a variance of half a pixel.

    Parameters
    ----------
    px_per_mm : float
        Of the print file.

    Returns
    -------
    int
        At least one.

    Examples
    --------
    >>> passes(300 / 25.4)
    8
    """
    return max(1, int(2.0 * (SPREAD_MM * px_per_mm) ** 2 + 0.5))


def sharpen(values: Values, *, amount: float, times: int) -> Values:
    """Sharpen part of a canvas.

    Parameters
    ----------
    values : (rows, columns, channels) uint8 or uint16
        With `times` rows more at each end than are wanted, where the picture has them.
    amount : float
        0 to 1.
    times : int
        As from `passes`.

    Returns
    -------
    (rows, columns, channels) array
        As given.

    Examples
    --------
    >>> edge = np.repeat([100, 140], 3).astype(np.uint8).reshape(1, 6, 1)
    >>> sharpen(edge, amount=1.0, times=1).ravel().tolist()
    [100, 100, 90, 150, 140, 140]
    """
    top = np.iinfo(values.dtype).max
    most = np.float32(MOST * top / 255)
    channels = values.shape[2]
    shared: list[F32]
    if channels == 3:
        red, green, blue = (values[..., channel].astype(np.float32) for channel in range(3))
        shared = [((red + blue + 2 * green) * np.float32(0.25)).astype(np.float32)] * 3
    else:
        shared = [values[..., channel].astype(np.float32) for channel in range(channels)]
    out = np.empty_like(values)
    last: F32 | None = None
    for channel in range(channels):
        if last is None or channels != 3:
            last = _detail(shared[channel], times) * np.float32(amount)
            np.clip(last, -most, most, out=last)
        value = values[..., channel] + last
        out[..., channel] = np.clip(value, 0, top) + np.float32(0.5)
    return out


def _detail(light: F32, times: int) -> F32:
    blurred = light
    for _ in range(times):
        blurred = _smooth(_smooth(blurred.T).T)
    return light - blurred


def _smooth(values: F32) -> F32:
    """Rows by 1 2 1 / 4, the ends held."""
    smooth = values * np.float32(0.5)
    quarter = values * np.float32(0.25)
    smooth[1:] += quarter[:-1]
    smooth[0] += quarter[0]
    smooth[:-1] += quarter[1:]
    smooth[-1] += quarter[-1]
    return smooth
