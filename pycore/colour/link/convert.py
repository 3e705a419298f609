"""A picture's pixels turned into a printer's values, for a file that must not be converted again."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, channels
from pycore.colour.icc.profile import Profile
from pycore.colour.link.make_map import Shift, make_pixel_map
from pycore.colour.spaces.arrays import ByteArray
from pycore.contract.job import Intent
from pycore.errors import FieldError
from pycore.speech import say


class Converter:
    """Pixels of one space to a printer's values, strip by strip; it may be used from several threads.

    Parameters
    ----------
    source : Profile or Standard
        The picture's space, grey, RGB or CMYK.
    target : Profile
        The canvas's, RGB or CMYK.
    intent : Intent
    black_point_compensation : bool
    shift : callable, optional
        What brings colours in: added to the Lab that the canvas is asked for.

    Attributes
    ----------
    inputs, channels : int
        Of the picture and of the printer.

    Raises
    ------
    FieldError
        The target is no RGB or CMYK printer.
    ProfileError
        A profile lacks what is needed.
    """

    def __init__(
        self,
        source: Endpoint,
        target: Profile,
        *,
        intent: Intent,
        black_point_compensation: bool,
        shift: Shift | None = None,
    ) -> None:
        self.inputs, self.channels = channels(source), channels(target)
        if self.channels not in {3, 4}:
            raise FieldError(
                field="target",
                expected=say("an RGB or CMYK printer"),
                got=say("{channels} channel", channels=self.channels),
                remedy=say("choose the profile of the canvas on its printer"),
            )
        self._map = make_pixel_map(
            source, target, intent=intent, black_point_compensation=black_point_compensation, shift=shift
        )

    def to_bytes(self, pixels: NDArray[Any], *, row: int, column: int) -> ByteArray:
        """Convert to 8 bits.

        Parameters
        ----------
        pixels : (rows, columns, inputs) uint8, uint16 or float32
            Encoded; float32 is 0 to 1; of CMYK full scale is full ink.
        row, column : int
            Where on the canvas the first pixel lies, for the pattern that dithers what has more than 8 bits.
            Pixels of 8 bits are rounded: each colour has one result.

        Returns
        -------
        (rows, columns, channels) uint8
        """
        return self._map.to_bytes(pixels, row=row, column=column)

    def to_words(self, pixels: NDArray[Any]) -> NDArray[np.uint16]:
        """Convert to 16 bits, without a pattern.

        Parameters
        ----------
        pixels : (rows, columns, inputs) uint8, uint16 or float32
            As for `to_bytes`.

        Returns
        -------
        (rows, columns, channels) uint16
            Device values.
        """
        return self._map.to_words(pixels)
