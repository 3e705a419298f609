"""What one side shows beyond a plain copy: softness, one colour, or the fade from one to the other."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.fill.facing import Facing
from pycore.fill.softness import ONE, mix, soften
from pycore.picture.tones import AnyTones, Light


@dataclass(frozen=True, kw_only=True)
class Overlay:
    """How a side's reflected picture is changed.

    Attributes
    ----------
    radius : float
        Blur at the back edge, in pixels; 0 for none.
    colour : list of uint16 or float32, or empty
        The colour that is mixed in, as linear light; empty for none.
    weights : (reach,) uint32
        How much of that colour at each distance from the front edge, 0 to `ONE`.
    """

    radius: float
    colour: list[np.uint16 | np.float32]
    weights: npt.NDArray[np.uint32]

    @property
    def is_plain(self) -> bool:
        """Nothing of the picture is left at any distance."""
        return bool(self.colour) and bool((self.weights == ONE).all())


def fade_weights(side: Facing) -> npt.NDArray[np.uint32]:
    """The share of the plain colour at each distance: 0 at the front edge, all from the back edge on.

    It rises as 3 t**2 - 2 t**3, so that it sets in and ends without a visible line.

    Parameters
    ----------
    side : Facing

    Returns
    -------
    (reach,) uint32
        0 to `ONE`.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.conventions import Side
    >>> from pycore.fill.facing import facing
    >>> from pycore.layout.grid import pixel_grid
    >>> grid = pixel_grid(Job(), ppi=25.4)
    >>> weights = fade_weights(facing(np.zeros((427, 527, 3), np.uint8), grid, Side.TOP))
    >>> int(weights[0]), int(weights[-1])
    (121, 65536)
    """
    t = np.minimum((np.arange(side.reach) + 0.5) / side.depth, 1.0)
    weights: npt.NDArray[np.uint32] = np.floor(t * t * (3.0 - 2.0 * t) * ONE + 0.5).astype(np.uint32)
    return weights


def shown_light(side: Facing, overlay: Overlay, *, channel: int, tones: AnyTones) -> Light:
    """One channel of a side, corner squares and ink-over with it, as it shall look.

    Parameters
    ----------
    side : Facing
        Its canvas holds the reflected picture there.
    overlay : Overlay
    channel : int
    tones : Tones or DeepTones
        The picture's tables.

    Returns
    -------
    (reach, along) uint16 or float32
        Linear light; row 0 at the front edge.
    """
    size = (side.reach, side.along[3] - side.along[0])
    if overlay.is_plain:
        return np.broadcast_to(overlay.colour[channel], size)
    light = tones.to_light(side.inked[..., channel], channel)
    if overlay.radius > 0:
        light = soften(light, radius=overlay.radius, depth=side.depth)
    if overlay.colour:
        light = mix(light, overlay.colour[channel], overlay.weights[:, np.newaxis])
    return light
