"""One direction of a part of a picture that is resampled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from pycore.render.cell_bounds import Cells
from pycore.render.cubic import REACH, Span


@dataclass(frozen=True, kw_only=True)
class Axis:
    """One direction of a part that is resampled: from where to where on the picture, and to how many pixels.

    Attributes
    ----------
    start, stop : float
        On the turned picture.
    count : int
        Pixels of the result.
    scale : float
        Pixels of the picture to each of them.
    size : int
        The picture's own, which nothing reaches beyond.
    """

    start: float
    stop: float
    count: int
    scale: float
    size: int

    @cached_property
    def span(self) -> tuple[int, int]:
        """The source pixels that it rests on."""
        reach = math.ceil(REACH * max(self.scale, 1.0)) + 1
        return max(0, math.floor(self.start) - reach), min(self.size, math.ceil(self.stop) + reach)

    @property
    def box(self) -> tuple[float, float]:
        """Where it starts and stops on these."""
        return self.start - self.span[0], self.stop - self.span[0]

    def beyond(self, first: int) -> Span:
        """The same, counted from a pixel of the picture on.

        Parameters
        ----------
        first : int
            That pixel.

        Returns
        -------
        Span
        """
        start, stop = self.box
        begin, end = self.span
        return Span(first=begin - first, size=end - begin, start=start, stop=stop, count=self.count)

    @cached_property
    def cells(self) -> Cells:
        """In which cell between them each pixel of the result lies."""
        places = self.start - self.span[0] + (np.arange(self.count) + 0.5) * self.scale - 0.5
        return np.clip(np.floor(places).astype(np.intp) + 1, 0, self.span[1] - self.span[0])
