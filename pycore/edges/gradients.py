"""Gradients, local means and the structure tensor: plain sums and differences, the same everywhere."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

F64 = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, eq=False)
class Tensor:
    """The structure tensor of an image, pixel by pixel: products of its gradient, means over the channels.

    Attributes
    ----------
    rr, rc, cc : (rows, columns) float64
        Down by down, down by across, across by across; squared steps of value a pixel.
    """

    rr: F64
    rc: F64
    cc: F64

    @property
    def energy(self) -> F64:
        """The squared gradient: the tensor's trace."""
        return self.rr + self.cc


def gradient(values: F64) -> tuple[F64, F64]:
    """The gradient down and across: central differences, smoothed by 1-2-1 along the other axis.

    Past its edges an image goes on with its last value.

    Parameters
    ----------
    values : (rows, columns, channels) float64
        At least one row and column.

    Returns
    -------
    down, across : (rows, columns, channels) float64
        Steps of value a pixel.

    References
    ----------
    The kernel that is known by Sobel's name, divided by 8 so that a ramp of 1 a pixel gives 1.

    Examples
    --------
    >>> ramp = np.tile(np.arange(5.0), (4, 1))[..., np.newaxis]
    >>> float(gradient(ramp)[1][1, 2, 0])
    1.0
    """
    rows, columns, channels = values.shape
    padded = np.empty((rows + 2, columns + 2, channels))
    padded[1:-1, 1:-1] = values
    padded[0, 1:-1], padded[-1, 1:-1] = values[0], values[-1]
    padded[:, 0], padded[:, -1] = padded[:, 1], padded[:, -2]
    across = (padded[:, 2:] - padded[:, :-2]) / 2
    down = (padded[2:] - padded[:-2]) / 2
    return (
        (down[:, :-2] + 2 * down[:, 1:-1] + down[:, 2:]) / 4,
        (across[:-2] + 2 * across[1:-1] + across[2:]) / 4,
    )


def tensor(values: F64) -> Tensor:
    """The structure tensor before any averaging over a neighbourhood.

    Parameters
    ----------
    values : (rows, columns, channels) float64

    Returns
    -------
    Tensor

    References
    ----------
    S. Di Zenzo, A note on the gradient of a multi-image, Computer Vision, Graphics, and Image Processing 33
    (1986): the channels' tensors are added; here their mean is taken.

    Examples
    --------
    >>> flat = tensor(np.ones((3, 3, 3)))
    >>> float(flat.energy.max())
    0.0
    """
    down, across = gradient(values)
    return Tensor(
        rr=channel_mean(down * down), rc=channel_mean(down * across), cc=channel_mean(across * across)
    )


def channel_mean(values: F64) -> F64:
    """The mean over the channels, one channel after the other: several times sooner done than numpy's own.

    Parameters
    ----------
    values : (rows, columns, channels) float64

    Returns
    -------
    (rows, columns) float64

    Examples
    --------
    >>> channel_mean(np.array([[[1.0, 2.0, 6.0]]])).tolist()
    [[3.0]]
    """
    total = values[..., 0].copy()
    for channel in range(1, values.shape[2]):
        total += values[..., channel]
    total /= values.shape[2]
    return total


def local_mean(values: F64, half: int, *, axis: int) -> F64:
    """The mean over up to `half` neighbours on either side; at an edge over those that there are.

    Parameters
    ----------
    values : float64
        Any shape.
    half : int
        At least 0.
    axis : int
        Along which.

    Returns
    -------
    float64
        Of the same shape.

    Examples
    --------
    >>> local_mean(np.array([0.0, 3.0, 6.0]), 1, axis=0).tolist()
    [1.5, 3.0, 4.5]
    """
    across = values.swapaxes(0, axis)
    size = len(across)
    reach = min(half, size - 1)
    # Running sums with as many zeros before as the window is wide, and the last sum again after the end.
    sums = np.zeros((size + 2 * reach + 1, *across.shape[1:]))
    np.cumsum(across, axis=0, out=sums[reach + 1 : reach + 1 + size])
    sums[reach + 1 + size :] = sums[reach + size]
    place = np.arange(size)
    count = np.minimum(place + reach + 1, size) - np.maximum(place - reach, 0)
    means = sums[2 * reach + 1 :] - sums[:size]
    means /= count.reshape(-1, *[1] * (values.ndim - 1))
    result: F64 = means.swapaxes(0, axis)
    return result


def square_mean(values: F64, half: int) -> F64:
    """The mean over a square of `2 half + 1` pixels a side; at an edge over what there is of it.

    Parameters
    ----------
    values : (rows, columns, ...) float64
    half : int

    Returns
    -------
    float64
        Of the same shape.

    Examples
    --------
    >>> float(square_mean(np.eye(3), 1)[1, 1].round(3))
    0.333
    """
    return local_mean(local_mean(values, half, axis=0), half, axis=1)


def saturated(amount: F64, half_at: float) -> F64:
    """Bring an amount from 0 up to 0 to 1: `x2 / (x2 + h2)`, one half where it equals `half_at`.

    Parameters
    ----------
    amount : float64 array
        Of any shape, 0 and more.
    half_at : float
        Above 0.

    Returns
    -------
    float64 array
        Of the same shape, 0 to 1.

    Examples
    --------
    >>> saturated(np.array([0.0, 0.5, 1.0]), 0.5).tolist()
    [0.0, 0.5, 0.8]
    """
    squared = amount * amount
    result: F64 = squared / (squared + half_at * half_at)
    return result
