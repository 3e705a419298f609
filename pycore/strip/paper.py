"""The strip itself: where its text, patches and pieces stand, drawn in the print file's own values."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.conventions import MM_PER_INCH, mm_to_px
from pycore.picture.tones import Values
from pycore.printing.lettering import LINE_PX, latin_text, letters

#: As wide as a hand: it fits on the edge of any sheet. Common practice.
WIDTH_MM: Final = 100.0
#: Bare canvas round it, and what lies between the margins.
_MARGIN_MM: Final = 5.0
INNER_MM: Final = WIDTH_MM - 2 * _MARGIN_MM
#: Larger than the aperture of a hand-held device, which has at most 8 mm. Common practice.
PATCH_MM: Final = (16.0, 14.0)
_PITCH_MM: Final = 18.0
_GAP_MM: Final = 1.5
_LETTERS_MM: Final = 2.2
_LINE_MM: Final = 0.25
#: A patch that differs from bare canvas by no more than this share of full scale gets a frame.
_UNSEEN: Final = 0.03
#: A letter is so wide before it is enlarged, in pixels; the first one has as much before it.
_LETTER_PX: Final = 6


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Drawn:
    """A piece of the canvas in the file's values, with its name and the rows at which it folds."""

    name: str
    pixels: Values
    folds: tuple[int, ...]


def draw_strip(
    lines: Sequence[str],
    patches: Sequence[tuple[str, Values]],
    pieces: Sequence[Drawn],
    *,
    columns: int,
    bare: Values,
    ppi: float,
    is_cmyk: bool,
) -> Values:
    """Draw a strip.

    Parameters
    ----------
    lines : sequence of str
        The text above the patches.
    patches : sequence of (str, (channels,) array)
        What stands below each patch, with a new line after a comma, and its values in the file.
    pieces : sequence of Drawn
        Shown below the patches.
    columns : int
        Patches in a row.
    bare : (channels,) uint8 or uint16
        Canvas without ink.
    ppi : float
    is_cmyk : bool
        Four channels of ink, black the last.

    Returns
    -------
    (rows, columns, channels) uint8 or uint16
    """
    pen = _Pen(ppi, bare, is_cmyk=is_cmyk)
    for text in lines:
        for part in pen.broken(text, pen.inner):
            pen.text(part, pen.left, pen.inner)
            pen.down += pen.line_px
    pen.down += pen.gap
    for first in range(0, len(patches), columns):
        row = patches[first : first + columns]
        for place, (_, values) in enumerate(row):
            pen.fill(values, pen.left + mm_to_px(place * _PITCH_MM, ppi=ppi))
        pen.down += pen.patch[1] + pen.line
        labels = [
            [part for said in text.split(", ") for part in pen.broken(said, pen.patch[0])] for text, _ in row
        ]
        for line in range(max(2, *map(len, labels))):
            for place, label in enumerate(labels):
                part = "".join(label[line : line + 1])
                pen.text(part, pen.left + mm_to_px(place * _PITCH_MM, ppi=ppi), pen.patch[0])
            pen.down += pen.line_px
        pen.down += pen.gap
    for piece in pieces:
        pen.text(piece.name, pen.left, pen.inner)
        pen.down += pen.line_px
        pen.piece(piece)
        pen.down += len(piece.pixels) + pen.gap
    return pen.paper()


class _Pen:
    """Puts things on a strip whose length is not known before all of it is drawn."""

    def __init__(self, ppi: float, bare: Values, *, is_cmyk: bool) -> None:
        self.bare = bare
        top = np.iinfo(bare.dtype).max
        self.ink = bare.copy()
        self.ink[: 3 if not is_cmyk else 4] = (0, 0, 0, top) if is_cmyk else 0
        self.left, self.inner = mm_to_px(_MARGIN_MM, ppi=ppi), mm_to_px(INNER_MM, ppi=ppi)
        self.width = mm_to_px(WIDTH_MM, ppi=ppi)
        self.patch = mm_to_px(PATCH_MM[0], ppi=ppi), mm_to_px(PATCH_MM[1], ppi=ppi)
        self.gap, self.line = mm_to_px(_GAP_MM, ppi=ppi), max(1, mm_to_px(_LINE_MM, ppi=ppi))
        self.enlarged = max(1, round(_LETTERS_MM / MM_PER_INCH * ppi / LINE_PX))
        self.line_px = self.enlarged * LINE_PX
        self.down = self.left
        self._things: list[tuple[int, int, Values]] = []

    def room(self, most_px: int) -> int:
        """Letters that there is room for."""
        return most_px // (self.enlarged * _LETTER_PX) - 1

    def broken(self, text: str, most_px: int) -> list[str]:
        """A text in lines between its words, each with room, as long as no word alone is too long."""
        lines: list[str] = []
        for word in text.split():
            if lines and len(lines[-1]) + 1 + len(word) <= self.room(most_px):
                lines[-1] += f" {word}"
            else:
                lines.append(word)
        return lines

    def text(self, text: str, left: int, most_px: int) -> None:
        """Write as much of a line as there is room for."""
        shown = latin_text(text)[: self.room(most_px)]
        if not shown:
            return
        bits = letters(shown, enlarged=self.enlarged)
        self._things.append((self.down, left, np.where(bits[..., np.newaxis], self.ink, self.bare)))

    def fill(self, values: Values, left: int) -> None:
        """Put a patch; one that nobody would see has a frame round it."""
        wide, high = self.patch
        apart = np.abs(values.astype(np.int64) - self.bare.astype(np.int64)).max()
        if apart <= _UNSEEN * np.iinfo(self.bare.dtype).max:
            frame = np.broadcast_to(self.ink, (high + 2 * self.line, wide + 2 * self.line, values.size))
            self._things.append((self.down - self.line, left - self.line, frame))
        self._things.append((self.down, left, np.broadcast_to(values, (high, wide, values.size))))

    def piece(self, piece: Drawn) -> None:
        """Put a piece of the canvas in the middle, with a tick on each side of every fold."""
        wide = piece.pixels.shape[1]
        left = self.left + (self.inner - wide) // 2
        self._things.append((self.down, left, piece.pixels))
        tick = np.broadcast_to(self.ink, (self.line, max(1, self.left - 2 * self.line), self.ink.size))
        for fold in piece.folds:
            row = self.down + fold - self.line // 2
            self._things.append((row, left - self.line - tick.shape[1], tick))
            self._things.append((row, left + wide + self.line, tick))

    def paper(self) -> Values:
        """The strip, as long as what is on it."""
        high = self.down + self.left - self.gap
        pixels = np.empty((high, self.width, self.bare.size), self.bare.dtype)
        pixels[:] = self.bare
        for top, left, thing in self._things:
            room = pixels[top : top + thing.shape[0], left : left + thing.shape[1]]
            room[:] = thing[: room.shape[0], : room.shape[1]]
        return pixels
