"""One table from a picture's RGB to how its print looks on the screen, and how far each colour clips."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import ImageFilter

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.link.display import pillow_table, rgb_nodes
from pycore.colour.link.proof import Viewing, clip_request, proof_transform
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Intent
from pycore.errors import FieldError

#: Nodes of the link along each of red, green and blue.
LINK_NODES: Final = 33

#: The clip difference that full scale of the fourth channel stands for: 0.2 for each of 255 steps.
CLIP_FULL_DE: Final = 51.0

#: Tables are made of values that are not clipped to 0 to 1 yet.
_UNBOUNDED: Final = {
    Standard.SRGB: Standard.SRGB_UNBOUNDED,
    Standard.DISPLAY_P3: Standard.DISPLAY_P3_UNBOUNDED,
}


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class DeviceLink:
    """The table.

    Attributes
    ----------
    table : (nodes ** 3, 4) float64
        Red fastest, then green, then blue. Display red, green, blue, encoded, full scale 1, to be clipped to
        0 to 1 after interpolating; and the clip difference, clipped to its full scale `CLIP_FULL_DE`.
    nodes : int
    """

    table: FloatArray
    nodes: int

    def pillow(self) -> ImageFilter.Color3DLUT:
        """The table for `Image.filter` on mode RGB; it gives RGBA, with the clip difference as alpha."""
        return pillow_table(self.table, nodes=self.nodes, mode="RGBA")

    def halves(self) -> NDArray[np.uint16]:
        """The table for a 3D texture of half floats: (blue, green, red, 4), the bits of float16 as uint16.

        Half floats are interpolated by every graphics card; near 1 their step is an eighth of one of 8 bits.
        """
        halves: NDArray[np.uint16] = self.table.astype(np.float16).view(np.uint16)
        return halves.reshape(self.nodes, self.nodes, self.nodes, 4)


def make_link(
    source: Endpoint,
    gamut: DeviceGamut,
    display: Standard,
    *,
    intent: Intent,
    black_point_compensation: bool,
    viewing: Viewing,
    nodes: int = LINK_NODES,
    first: Callable[[FloatArray], FloatArray] | None = None,
) -> DeviceLink:
    """Build the link.

    Parameters
    ----------
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    display : Standard
        SRGB or DISPLAY_P3.
    intent : Intent
    black_point_compensation : bool
        For the way to the canvas.
    viewing : Viewing
    nodes : int
        At most 65, which is as much as Pillow takes.
    first : callable, optional
        What is done to the picture's values before anything else, such as bringing them in.

    Returns
    -------
    DeviceLink

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    FieldError
        The source has not three channels, or the display is none.
    """
    if display not in _UNBOUNDED:
        raise FieldError(
            field="display",
            expected="srgb or display-p3",
            got=display.value,
            remedy="choose one of these",
        )
    proof = proof_transform(
        source,
        gamut,
        _UNBOUNDED[display],
        intent=intent,
        black_point_compensation=black_point_compensation,
        viewing=viewing,
    )
    if proof.inputs != 3:
        raise FieldError(
            field="source",
            expected="an RGB space",
            got=f"a space of {proof.inputs} channels",
            remedy="turn the picture into RGB first",
        )
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    values = rgb_nodes(nodes) if first is None else first(rgb_nodes(nodes))
    table = np.empty((len(values), 4))
    table[:, :3] = proof(values)
    table[:, 3] = np.minimum(clipping(gamut, request(values)).difference / CLIP_FULL_DE, 1.0)
    return DeviceLink(table=table, nodes=nodes)
