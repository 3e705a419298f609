"""The picture resampled once, in linear light, in blocks of rows that do not depend on who asks for them.

The filter is the cubic convolution of Keys with a = -1/2, widened by the scale when the picture shrinks, by
Pillow in mode F: its coefficients and sums are double precision without a library function among them. Where
the picture is enlarged, `ringing` keeps hard edges from overshooting. Drawings are resampled by Pillow's
Hamming filter, which reaches one pixel, has no negative weight and so cannot ring at all.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from PIL import Image

from pycore.contract.job import Enlarging
from pycore.layout.quarter_turns import turned_size, unturned_box
from pycore.picture.deep_tones import widened
from pycore.picture.orientation import turned
from pycore.picture.tones import F32, U8, U16, AnyTones, Values
from pycore.render.axis import Axis
from pycore.render.cell_bounds import Block
from pycore.render.cubic import Taps, resampled_down, taps
from pycore.render.ringing import hold_edges
from pycore.render.sharpen import sharpen
from pycore.workers import IN_WEBASSEMBLY, in_order, worker_count

#: Rows of a block. Blocks begin at multiples of it, so that a row is the same whoever asks for it.
BLOCK_ROWS = 64

#: Blocks of a piece where pieces are made one after another, and pixels that it should have: several blocks
#: together cost less, and narrow ones most.
_PIECE_BLOCKS = 4, 16
_PIECE_PIXELS = 2**20

#: Blocks of a picture that shrinks as much are made one by one, by Pillow alone: together they would rest on
#: too many rows, and sums of whole rows, of which there are more then, cost more than Pillow's.
_MOST_BY_ROWS = 1.5

_FILTERS = {
    Enlarging.PHOTOGRAPH: Image.Resampling.BICUBIC,
    Enlarging.DRAWING: Image.Resampling.HAMMING,
}

_EIGHT_BITS = 255

#: What is resampled: an upright picture of 8 bits, or the values of one of 16 (rows, columns, channels).
Pixels = Image.Image | U16


@dataclass(frozen=True, kw_only=True)
class Area:
    """A rectangle on a picture in its pixels, x to the right and y down; fractions are meant."""

    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, kw_only=True)
class Sharpening:
    """Output sharpening of what is resampled: how much, 0 to 1, and how far; see `sharpen`."""

    amount: float
    times: int


def piece_rows(width: int) -> int:
    """How many rows are best asked for at once: of one block where several are made side by side.

    Parameters
    ----------
    width : int
        Pixels of a row.

    Returns
    -------
    int
        A multiple of `BLOCK_ROWS`.

    Examples
    --------
    >>> piece_rows(3600) % BLOCK_ROWS
    0
    """
    if worker_count() > 1:
        return BLOCK_ROWS
    least, most = _PIECE_BLOCKS
    return BLOCK_ROWS * min(max(_PIECE_PIXELS // (BLOCK_ROWS * width), least), most)


@dataclass(frozen=True, kw_only=True)
class Resampler:
    """An area of a picture at another size; any blocks of its rows on request, from several threads at once.

    Attributes
    ----------
    pixels : PIL.Image.Image or (rows, columns, channels) uint16
        Mode L, RGB or CMYK, or values of 16 bits; before the job's turn.
    area : Area
        On the turned picture, inside it.
    width, height : int
        Pixels of the result.
    turn : int
        Clockwise, 0, 90, 180 or 270 degrees.
    tones : Tones or DeepTones
        The picture's tables; those of 16 bits give a result of 16.
    enlarging : Enlarging
    sharpening : Sharpening or None
    """

    pixels: Pixels
    area: Area
    width: int
    height: int
    turn: int
    tones: AnyTones
    enlarging: Enlarging = Enlarging.PHOTOGRAPH
    sharpening: Sharpening | None = None

    def piece(self, first: int, out: Values) -> int:
        """Resample one block, or several that follow one another.

        Parameters
        ----------
        first : int
            The first row, a multiple of `BLOCK_ROWS`.
        out : (rows, columns, channels or more) uint8 or uint16
            The rows of all these blocks, written in place; channels past the picture's own are left as they
            are.

        Returns
        -------
        int
            The row after the last one.
        """
        last, channels = first + len(out), self.tones.channels
        begins = range(first, last, BLOCK_ROWS)
        if self.sharpening is None:
            self._rows([(begin, min(begin + BLOCK_ROWS, last)) for begin in begins], out[..., :channels])
            return last
        times = self.sharpening.times
        for begin in begins:
            block = out[begin - first : begin - first + BLOCK_ROWS]
            top, bottom = max(0, begin - times), min(self.height, begin + len(block) + times)
            around = np.empty((bottom - top, self.width, channels), out.dtype)
            self._rows([(top, bottom)], around)
            sharp = sharpen(around, amount=self.sharpening.amount, times=times)
            block[..., :channels] = sharp[begin - top : begin - top + len(block)]
        return last

    def shares(self, out: Values) -> Iterator[float]:
        """Resample all of it.

        Parameters
        ----------
        out : (height, width, channels or more) uint8 or uint16
            Written in place; channels past the picture's own are left as they are.

        Yields
        ------
        float
            The share that is done, after each piece.
        """
        rows = piece_rows(self.width)

        def place(first: int) -> int:
            return self.piece(first, out[first : first + rows])

        for last in in_order(place, range(0, self.height, rows)):
            yield last / self.height

    def _rows(self, spans: list[tuple[int, int]], out: Values) -> None:
        """Resample rows that follow one another, each span of them by itself."""
        area, start = self.area, spans[0][0]
        if self._is_exact:
            box = (int(area.left), int(area.top) + start, int(area.right), int(area.top) + spans[-1][1])
            out[...] = self._own(_values(_cut(self.pixels, box, self.turn)))
            return
        across = self._across
        down = [self._down(first, last) for first, last in spans]
        is_photograph = self.enlarging is Enlarging.PHOTOGRAPH
        by_rows = IN_WEBASSEMBLY and is_photograph and down[0].scale < _MOST_BY_ROWS
        if len(spans) > 1 and not by_rows:
            for span in spans:
                self._rows([span], out[span[0] - start : span[1] - start])
            return
        top = down[0].span[0]
        source = self._source(across, top, down[-1].span[1])
        blocks = [
            Block(
                found=slice(first - start, last - start),
                source=slice(axis.span[0] - top, axis.span[1] - top),
                cells=axis.cells + (axis.span[0] - top),
            )
            for axis, (first, last) in zip(down, spans, strict=True)
        ]
        found = out
        if IN_WEBASSEMBLY and out.shape[2] > 1:
            # Where values are worked on one by one, those of a channel had better follow one another.
            found = np.moveaxis(np.empty((out.shape[2], *out.shape[:2]), out.dtype), 0, 2)
        each = taps([axis.beyond(top) for axis in down]).parts(self.width) if by_rows else None
        for channel in range(self.tones.channels):
            for rows, light in self._resized(self._light(source, channel), down[0], each):
                found[rows, :, channel] = self.tones.resampled(light, channel)
        if is_photograph and min(across.scale, down[0].scale) < 1:
            hold_edges(found, self._own(_values(source)), blocks, across.cells)
        if found is not out:
            for channel in range(out.shape[2]):
                out[..., channel] = found[..., channel]

    def _resized(
        self, light: Image.Image, down: Axis, parts: list[tuple[slice, Taps]] | None
    ) -> Iterator[tuple[slice, F32]]:
        """One channel's light at its new size, with the rows that it is of."""
        # Pillow takes the box as float32: counted from the block's own corner it is exact enough.
        (left, right), (top, bottom), count = self._across.box, down.box, self._across.count
        if parts is None:
            box = (left, top, right, bottom)
            yield (
                slice(None),
                np.asarray(light.resize((count, down.count), _FILTERS[self.enlarging], box=box)),
            )
            return
        box = (left, 0.0, right, float(light.height))
        wide = np.asarray(light.resize((count, light.height), Image.Resampling.BICUBIC, box=box))
        for rows, one in parts:
            yield rows, resampled_down(wide, one)

    @cached_property
    def _across(self) -> Axis:
        area, size = self.area, turned_size(_size(self.pixels), self.turn)[0]
        scale = (area.right - area.left) / self.width
        return Axis(start=area.left, stop=area.right, count=self.width, scale=scale, size=size)

    def _down(self, first: int, last: int) -> Axis:
        area, size = self.area, turned_size(_size(self.pixels), self.turn)[1]
        scale = (area.bottom - area.top) / self.height
        start, stop = area.top + first * scale, area.top + last * scale
        return Axis(start=start, stop=stop, count=last - first, scale=scale, size=size)

    def _source(self, across: Axis, top: int, bottom: int) -> Pixels:
        return _cut(self.pixels, (across.span[0], top, across.span[1], bottom), self.turn)

    @cached_property
    def _is_exact(self) -> bool:
        """Each pixel asked for is one pixel of the picture, so that its bytes are handed on as they are."""
        area = self.area
        is_whole = float(area.left).is_integer() and float(area.top).is_integer()
        return is_whole and area.right - area.left == self.width and area.bottom - area.top == self.height

    @cached_property
    def _tables(self) -> list[list[float]]:
        """Light of the 256 values of each channel, for Pillow."""
        steps = np.arange(256, dtype=np.uint16) * (self.tones.top // 255)
        light = (self.tones.light[channel][steps] for channel in range(self.tones.channels))
        return [row.tolist() for row in light]

    def _light(self, source: Pixels, channel: int) -> Image.Image:
        plane = _plane(source, channel)
        if isinstance(plane, Image.Image):
            return plane.point(self._tables[channel], "F")
        return Image.fromarray(self.tones.light[channel][plane])

    def _own(self, values: Values) -> Values:
        """Values of the picture as values of the result: 8 bits widened where that has 16."""
        return widened(values) if values.dtype == np.uint8 and self.tones.top != _EIGHT_BITS else values


def resample(
    pixels: Pixels,
    area: Area,
    out: Values,
    *,
    turn: int,
    tones: AnyTones,
    enlarging: Enlarging = Enlarging.PHOTOGRAPH,
    sharpening: Sharpening | None = None,
) -> Iterator[float]:
    """Resample an area of a picture into an array.

    Parameters
    ----------
    pixels : PIL.Image.Image or (rows, columns, channels) uint16
    area : Area
        On the turned picture, inside it.
    out : (rows, columns, channels or more) uint8 or uint16
        Written in place; channels past the picture's own are left as they are.
    turn : int
        Clockwise, 0, 90, 180 or 270 degrees.
    tones : Tones or DeepTones
        The picture's tables.
    enlarging : Enlarging
    sharpening : Sharpening or None

    Yields
    ------
    float
        The share that is done, after each block of rows.

    References
    ----------
    R. G. Keys, Cubic convolution interpolation for digital image processing, IEEE Trans. ASSP 29 (1981).

    Examples
    --------
    >>> from pycore.picture.tones import tones
    >>> out = np.zeros((2, 2, 1), np.uint8)
    >>> whole = Area(left=0, top=0, right=4, bottom=4)
    >>> grey = Image.new("L", (4, 4), 90)
    >>> _ = list(resample(grey, whole, out, turn=0, tones=tones(None, channels=1)))
    >>> out.tolist()
    [[[90], [90]], [[90], [90]]]
    """
    resampler = Resampler(
        pixels=pixels,
        area=area,
        width=out.shape[1],
        height=out.shape[0],
        turn=turn,
        tones=tones,
        enlarging=enlarging,
        sharpening=sharpening,
    )
    yield from resampler.shares(out)


def _size(pixels: Pixels) -> tuple[int, int]:
    """Width and height."""
    return pixels.size if isinstance(pixels, Image.Image) else (pixels.shape[1], pixels.shape[0])


def _cut(pixels: Pixels, box: tuple[int, int, int, int], turn: int) -> Pixels:
    """A part of the turned picture, without turning the whole of it."""
    left, top, right, bottom = unturned_box(box, turn, size=_size(pixels))
    if isinstance(pixels, Image.Image):
        return turned(pixels.crop((left, top, right, bottom)), turn)
    return np.ascontiguousarray(np.rot90(pixels[top:bottom, left:right], -turn // 90))


def _plane(part: Pixels, channel: int) -> Pixels:
    """One channel: a picture of mode L, or (rows, columns) uint16."""
    if isinstance(part, Image.Image):
        return part.getchannel(channel) if len(part.getbands()) > 1 else part
    return np.ascontiguousarray(part[..., channel])


def _values(part: Pixels) -> Values:
    """The values, (rows, columns, channels)."""
    if not isinstance(part, Image.Image):
        return part
    values: U8 = np.asarray(part)
    return values if values.ndim == 3 else values[..., np.newaxis]
