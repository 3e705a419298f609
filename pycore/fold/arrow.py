"""The shape of an arrow that says which way cloth goes, for the ticket and the guide alike."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


def arrow_parts(points: Floats, head: float) -> tuple[Floats, Floats]:
    """The line of an arrow through points, and the head at its end.

    Parameters
    ----------
    points : (n, 2) float64
        Two or more.
    head : float
        The head's length, in the points' unit.

    Returns
    -------
    tuple of (n, 2) float64 and (3, 2) float64
        The line ends at the head's foot.

    Examples
    --------
    >>> line, tip = arrow_parts(np.array([[0.0, 0.0], [10.0, 0.0]]), 5)
    >>> line.tolist(), tip.tolist()
    ([[0.0, 0.0], [5.0, 0.0]], [[10.0, 0.0], [5.0, 2.1], [5.0, -2.1]])
    """
    for point in points[-2::-1]:
        back = points[-1] - point
        # What is nearer does not tell the direction of a head that long.
        if float(np.hypot(*back)) > head * 0.8:
            break
    along = back / max(float(np.hypot(*back)), 1e-9)
    across = np.array([-along[1], along[0]])
    foot = points[-1] - along * head
    return np.vstack([points[:-1], foot]), np.array(
        [points[-1], foot + across * head * 0.42, foot - across * head * 0.42]
    )
