"""A picture's pixels turned into a printer's values, for a file that must not be converted again."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.icc.profile import Profile
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.display import pillow_table, rgb_nodes
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.contract.job import Intent
from pycore.errors import FieldError

#: Nodes of the table from the picture's RGB to the printer's values.
_NODES: Final = 49

#: Rows of pixels are taken together up to this many pixels.
_PIXELS: Final = 65536


class Converter:
    """Pixels of one space to a printer's values, strip by strip.

    Parameters
    ----------
    source : Profile or Standard
        The picture's RGB space.
    target : Profile
        The canvas's, RGB or CMYK.
    intent : Intent
    black_point_compensation : bool

    Raises
    ------
    FieldError
        The source is no RGB space.
    ProfileError
        A profile lacks what is needed.
    """

    def __init__(
        self, source: Endpoint, target: Profile, *, intent: Intent, black_point_compensation: bool
    ) -> None:
        transform = make_transform(
            source, target, intent=intent, black_point_compensation=black_point_compensation
        )
        if transform.inputs != 3 or transform.outputs not in {3, 4}:
            raise FieldError(
                field="source",
                expected="an RGB picture and an RGB or CMYK printer",
                got=f"{transform.inputs} channels in and {transform.outputs} out",
                remedy="turn the picture into RGB first, or choose another profile",
            )
        self.channels = transform.outputs
        self._flat: FloatArray = transform(rgb_nodes(_NODES))
        mode = "RGB" if self.channels == 3 else "CMYK"
        self._table = pillow_table(self._flat, nodes=_NODES, mode=mode)

    def bytes(self, pixels: ByteArray) -> ByteArray:
        """Convert pixels of 8 bits.

        Parameters
        ----------
        pixels : (rows, columns, 3) uint8

        Returns
        -------
        (rows, columns, channels) uint8
            Of CMYK 255 is full ink.
        """
        converted: ByteArray = np.asarray(Image.fromarray(pixels).filter(self._table))
        return converted

    def words(self, pixels: NDArray[np.uint16]) -> NDArray[np.uint16]:
        """Convert pixels of 16 bits.

        Parameters
        ----------
        pixels : (rows, columns, 3) uint16

        Returns
        -------
        (rows, columns, channels) uint16
            Of CMYK 65535 is full ink.
        """
        grid = self._flat.reshape(_NODES, _NODES, _NODES, self.channels)
        flat = pixels.reshape(-1, 3)
        result = np.empty((len(flat), self.channels), dtype=np.uint16)
        for start in range(0, len(flat), _PIXELS):
            # The table has blue first, red fastest.
            values = flat[start : start + _PIXELS, ::-1] / 65535.0
            found = interpolate(grid, values, method=Interpolation.TETRAHEDRAL)
            result[start : start + _PIXELS] = np.rint(found * 65535.0)
        return result.reshape(*pixels.shape[:2], self.channels)
