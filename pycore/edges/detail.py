"""Busy: how much fine detail and contrast a strip has."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, saturated

#: The gradient, in full scales a pixel, that counts as half busy. Our own: a soft edge of a tenth of full
#: scale, spread over three pixels. A smooth sky stays far below it.
_HALF_GRADIENT: Final = 0.03


def busy(energy: F64) -> float:
    """How busy a strip is: the mean over its pixels of the saturated gradient.

    A single line through a plain strip touches few pixels and leaves it quiet; texture touches all.

    Parameters
    ----------
    energy : (rows, columns) float64
        The squared gradient of the strip, as `Tensor.energy`.

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> busy(np.zeros((4, 9)))
    0.0
    >>> busy(np.full((4, 9), 0.03**2))
    0.5
    """
    return float(saturated(np.sqrt(energy), _HALF_GRADIENT).mean())
