"""A bound on what an enlarged picture may show between four of its pixels, so that hard edges do not ring.

Cubic convolution overshoots beside a hard edge. Between four pixels a value may therefore leave their range
only as far as the picture itself goes on in that direction from both sides: where it rises towards the four
from the left and from the right, a crest may lie between them. Half the lesser of the two rises is allowed,
up to `cell_bounds.MOST_CREST`. Beside an edge the picture is level on one side, and nothing is allowed there.
Nor is it where both rises are as high as those of lines that are drawn: strokes of two pixels would be darker
than broader ones.

That is looked at only near edges of more than `cell_bounds.SOFT` levels; softer ones ring by 3 levels at
most.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pycore.picture.tones import Values
from pycore.render.cell_bounds import Block, Cells, bounds_by_values
from pycore.render.cell_words import hold_by_words
from pycore.workers import IN_WEBASSEMBLY


def hold_edges(found: Values, values: Values, blocks: Sequence[Block], columns: Cells) -> None:
    """Keep an enlarged picture from ringing beside its hard edges.

    Parameters
    ----------
    found : (height, width, channels) uint8 or uint16
        Enlarged; changed in place.
    values : (rows, columns, channels) uint8 or uint16
        The same part of the picture.
    blocks : sequence of Block
        From top to bottom.
    columns : (width,) int
        In which cell between pixels each column of `found` lies; see `Cells`.

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> found = np.array([[[40], [12], [40], [228]]], np.uint8)
    >>> block = Block(found=slice(0, 1), source=slice(0, 1), cells=np.array([0]))
    >>> hold_edges(found, edge, [block], np.array([1, 2, 2, 4]))
    >>> found[..., 0].tolist()
    [[40, 40, 40, 200]]
    """
    if IN_WEBASSEMBLY and values.dtype == np.uint8:
        hold_by_words(found, values, blocks, columns)
        return
    for bounds in bounds_by_values(values, blocks):
        bounds.hold(found, columns)
