"""How deep into the face each line of a continued side may look, and how it goes there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_even import even_depths, even_shares, lines_shown
from pycore.fill.continued_ground import (
    I32,
    STEPS,
    along_lines,
    least_near,
    mean_along,
    most_near,
    over_channels,
    smooth,
)

# Our own figures, set on the photographs that tests name as tuned on.

#: A colour is new when it is so far, in ΔE, from every colour of the rows next to the edge round about it, or
#: so far from those of the edge itself.
_NEW: Final = 12
_ALIEN: Final = 25

#: So far from every known colour it is another thing, which is not shown whatever the ground.
_OTHER: Final = 24

#: Rows next to the edge whose colours count as known, as a share of the depth.
_KNOWN_ROWS: Final = 8

#: Where the depths at which other things begin differ from their neighbours' by more than this on average
#: (1 / 256 of the side's depth), they are no things but what the ground is made of; by so much more, all of
#: it.
_OUTLINE: Final = 10
_JUMPS: Final = 16

#: Change along the edge (ΔE a pixel, all channels) whose streaks are seen, and by how much more plainly.
_STREAK_FROM: Final = 3.0
_STREAK_MORE: Final = 4.0

#: Fine detail is new over so many quarters of what the edge has round about, and this much (ΔE) more.
_FINER: Final = 6
_FINER_BY: Final = 1.5

#: How far along the edge that is, as a share of the depth.
_FINE_ABOUT: Final = 3

#: Detail along a line (ΔE of second difference a pixel) under which the ground is smooth, and the range over
#: which it becomes rough.
_SMOOTH: Final = 1.0
_ROUGH: Final = 1.5

#: The same for shapes, of second differences between places three apart.
_APART: Final = 3
_PLAIN: Final = 2.0
_SHAPED: Final = 4.0

#: Lines along the edge: their share (in 1 / 16) of all change inwards from which they count and by how much
#: more in full; the same of their change, in 1 / `STEPS` of ΔE a pixel; and how far along the edge a line
#: must run on either side, in 1 / 16 of the depth.
_BESIDE_CHANCE: Final = 9
_BESIDE_SURE: Final = 4
_BESIDE_FROM: Final = 4
_BESIDE_LONG: Final = 14
_BESIDE_FULL: Final = 10

#: Where the ground is smooth a side begins at this share of its full pace, in 1 / 256.
_SLOW: Final = 64

#: The least reach as shares of the depth, in 1 / 256, on smooth ground and on rough.
_LEAST_SMOOTH: Final = 26
_LEAST_ROUGH: Final = 218
_LEAST_TEXTURE: Final = 90

#: Depth from which ground may be turned back, in 1 / 256 of the side's.
_LEAST_TURNED: Final = 40

#: The least reach where there are soft shapes.
_LEAST_SHAPED: Final = 128


@dataclass(frozen=True, kw_only=True, eq=False)
class Reach:
    """How each line goes into the face.

    Attributes
    ----------
    deepest : (columns,) int32
        The greatest depth that is shown, in 1 / 256 of the side's depth.
    way : (columns,) int32
        How far it goes in all, to and fro between the edge and the deepest, in the same unit.
    pace : (columns,) int32
        Depth per row at the edge, in 1 / 256.
    detail : (columns,) int32
        Detail along the line, in 1 / `STEPS` of a ΔE.
    """

    deepest: I32
    way: I32
    pace: I32
    detail: I32


def reach_along(steps: I32, slope: I32, depth: int) -> Reach:
    """Find where on each line something new begins, and set depth and pace by it.

    Parameters
    ----------
    steps : (rows, columns, 3) int32
        From `colour_steps`, row 0 at the edge.
    slope : (columns,) int32
        From `slopes_along`.
    depth : int
        The side's depth in rows.

    Returns
    -------
    Reach
    """
    rows = min(depth, len(steps))
    # Blurs must not see the picture's far part twice: more rows than are read.
    around = steps[: rows + 6]
    soft = smooth(around, 1)
    known, alien = _distances(along_lines(soft, slope, rows), rows)
    new = _new(around, slope, known, alien)
    first, other = _first(new, rows), _first_other(known)
    newness = _newness(new, known)
    lines = along_lines(around, slope, rows)
    read = np.maximum(first - 2, 2)
    detail = _detail(lines, read, apart=1)
    # 0 where smooth, 256 where rough; 256 where the roughness is fine and even.
    rough = np.clip((detail - int(_SMOOTH * STEPS)) * 256 // int(_ROUGH * STEPS), 0, 256)
    rough = rough.astype(np.int32)
    even = _evenness(around[:rows], read)
    beside = _lines_beside(soft, rows)
    # Lines along the edge stay straight only where all columns go the same way: at full pace.
    rough = np.maximum(rough, beside)
    texture = (rough * even) >> 8
    # Soft shapes, such as clouds, are drawn out a little and no more.
    shapes = _detail(lines, np.maximum(read, 3 * _APART), apart=_APART)
    shaped = np.clip((shapes - int(_PLAIN * STEPS)) * 256 // int(_SHAPED * STEPS), 0, 256)
    shaped = shaped.astype(np.int32)
    free = np.where(first < rows, (first * 218) // depth - 256 // depth, 256)
    free = np.minimum(free, 128 + rough // 2)
    least = _LEAST_SMOOTH + ((_LEAST_ROUGH - _LEAST_SMOOTH) * rough) // 256
    least -= ((least - np.minimum(least, _LEAST_TEXTURE)) * texture) >> 8
    least = np.maximum(least, _LEAST_SMOOTH + ((_LEAST_SHAPED - _LEAST_SMOOTH) * shaped) // 256)
    least = np.maximum(least, (256 * beside) >> 8)
    deepest = np.maximum(least_near(free.astype(np.int32), 5), least)
    # Another thing altogether is not shown, however rough the ground before it.
    clear = np.where(other < rows, (other * 218) // depth - 256 // depth, 256).astype(np.int32)
    # Even ground is turned back instead; other rough ground would be drawn out into streaks.
    shown = np.maximum(_scatter(clear), _streaks(around[: max(4, rows // 4)])) * (256 - even) // 256
    clear += ((256 - clear) * ((shown * rough) >> 8)) >> 8
    deepest = np.minimum(deepest, np.maximum(least_near(clear, 3), _LEAST_SMOOTH))
    deepest = np.minimum(deepest, (rows * 256) // depth)
    deepest = np.minimum(deepest, _before_meeting(slope, depth))
    # Even ground is turned back: less of it is drawn out.
    drawn_out = np.maximum(detail * (256 - texture) // 256, STEPS)
    shown_lines = lines_shown(lines)
    deepest = even_depths(deepest, shown_lines, newness, drawn_out)
    deepest = np.minimum(deepest, (rows * 256) // depth)
    deepest = np.minimum(deepest, _before_meeting(slope, depth))
    deepest = (mean_along(mean_along(deepest * 16, 3, axis=0), 3, axis=0) + 8) // 16
    rough, texture, shaped = (mean_along(one, 6, axis=0) for one in (rough, texture, shaped))
    # What is very shallow would be turned back too often.
    texture = texture * np.clip(deepest - _LEAST_TURNED, 0, 32) // 32
    texture = even_shares(texture, shown_lines, deepest)
    way = deepest + ((np.maximum(256, deepest) - deepest) * texture) // 256
    full_pace = even_shares(np.maximum(rough, shaped // 2), shown_lines, deepest)
    pace = _SLOW + ((256 - _SLOW) * full_pace) // 256
    return Reach(deepest=deepest, way=way, pace=pace, detail=detail)


def first_other(steps: I32, *, depth: int) -> I32:
    """Find the first row, straight in from each column, on which something altogether other begins.

    Parameters
    ----------
    steps : (rows, columns, 3) int32
        From `colour_steps`, row 0 at the edge.
    depth : int
        Rows that are looked at.

    Returns
    -------
    (columns,) int32
        At most `depth`, which it is where nothing begins.

    Examples
    --------
    >>> steps = np.zeros((60, 80, 3), np.int32)
    >>> steps[20:, 30:50] = 60 * STEPS
    >>> found = first_other(steps, depth=40)
    >>> abs(int(found[40]) - 20) <= 3, int(found[5])
    (True, 40)
    """
    rows = min(depth, len(steps))
    known, _ = _distances(smooth(steps[: rows + 6], 1)[:rows], rows)
    other = _first_other(known)
    return np.where(other < rows, other, depth).astype(np.int32)


def _lines_beside(soft: I32, rows: int) -> I32:
    """256 where long lines run along the edge, as planks and shelves do; 0 where none do."""
    down = np.zeros_like(soft)
    down[1:-1] = (soft[2:] - soft[:-2]) >> 1
    down = down[:rows]
    about = max(2, (rows * _BESIDE_LONG) // 16)
    # What a straight line has in every column adds up; texture's signs are mixed.
    along = mean_along(down, about, axis=1).astype(np.int64)
    power = mean_along(over_channels(down * down), about, axis=1)
    plain = np.sqrt(over_channels(along * along).astype(np.float64)).astype(np.int32)
    usual = np.sqrt(power.astype(np.float64)).astype(np.int32)
    alike = np.clip((plain * 16 // np.maximum(usual, 1) - _BESIDE_CHANCE) * 256 // _BESIDE_SURE, 0, 256)
    seen = np.clip((plain - _BESIDE_FROM) * 256 // _BESIDE_FULL, 0, 256)
    strength = ((alike * seen) >> 8).max(axis=0).astype(np.int32)
    return mean_along(most_near(strength, about // 2), about // 2, axis=0)


def _scatter(clear: I32) -> I32:
    """256 where the depths at which other things begin jump, as among leaves; 0 along an outline."""
    jumps = np.abs(clear - mean_along(clear, 4, axis=0))
    usual = mean_along(jumps, 12, axis=0)
    return np.clip((usual - _OUTLINE) * 256 // _JUMPS, 0, 256).astype(np.int32)


def _streaks(near: I32) -> I32:
    """256 where the rows next to the edge change so much along it that drawn out they would be streaks."""
    change = np.zeros(near.shape[:2], np.int32)
    change[:, 1:-1] = over_channels(np.abs(near[:, 2:] - near[:, :-2])) // 2
    usual = (change.sum(axis=0, dtype=np.int64) // len(near)).astype(np.int32)
    usual = mean_along(usual, 6, axis=0)
    return np.clip((usual - int(_STREAK_FROM * STEPS)) * 256 // int(_STREAK_MORE * STEPS), 0, 256).astype(
        np.int32
    )


def _before_meeting(slope: I32, depth: int) -> I32:
    """Lines that part outwards meet inwards: three fifths of the way there, in 1 / 256 of the depth."""
    apart = 4
    padded = np.pad(slope, apart, mode="edge")
    rise = np.maximum(padded[2 * apart :] - padded[: -2 * apart], 1)
    # They meet where slope times depth makes up for the columns between: 2 apart * 256 / rise rows inwards.
    before: I32 = ((2 * apart * 256 * 256 * 3) // (rise * depth * 5)).astype(np.int32)
    return before


def _evenness(around: I32, read: I32) -> I32:
    """256 where what varies along the edge is fine, as gravel or lawn; 0 where there are larger shapes.

    Only what lies before anything new counts.
    """
    about = max(3, len(around) // 3)
    counted = np.arange(len(around))[:, np.newaxis] < np.maximum(read, 4)
    rows = counted.sum(axis=0)
    coarse = smooth(around, 3)
    level = (coarse * counted[..., np.newaxis]).sum(axis=0, dtype=np.int64) // rows[:, np.newaxis]
    level = mean_along(mean_along(level.astype(np.int32), about, axis=0), about, axis=0)
    fine = (over_channels(np.abs(around - smooth(around, 2))) * counted).sum(axis=0, dtype=np.int64) // rows
    shapes = (over_channels(np.abs(coarse - level)) * counted).sum(axis=0, dtype=np.int64) // rows
    fine, shapes = (mean_along(one.astype(np.int32), about, axis=0) for one in (fine, shapes))
    even: I32 = np.clip((2 * fine - shapes) * 256 // np.maximum(fine, 1), 0, 256).astype(np.int32)
    return even


def _new(around: I32, slope: I32, known: I32, alien: I32) -> npt.NDArray[np.bool_]:
    """Where on each line there is something new: a colour, or detail that is finer."""
    rows = len(known)
    change = np.abs(around - smooth(around, 2))
    fine = np.maximum(np.maximum(change[..., 0], change[..., 1]), change[..., 2])
    fine = mean_along(mean_along(fine, 1, axis=0), 1, axis=1)
    new = _most_of_nine((known > (_NEW * STEPS) ** 2) | (alien > (_ALIEN * STEPS) ** 2))
    along_fine = along_lines(fine, slope, rows)
    near = max(2, rows // _KNOWN_ROWS)
    most = most_near(along_fine[:near].max(axis=0), max(1, rows // _FINE_ABOUT))
    new |= along_fine > (most * _FINER) // 4 + int(_FINER_BY * STEPS)
    return new


def _newness(new: npt.NDArray[np.bool_], known: I32) -> I32:
    """How far each new place is from what is known; 0 where nothing is new."""
    far = np.sqrt(known.astype(np.float64)).astype(np.int32) - _NEW * STEPS // 2
    return np.where(new, np.maximum(far, _NEW * STEPS // 2), 0)


def _first_other(known: I32) -> I32:
    """The first row of each line on which something altogether other begins; the last and one if none."""
    return _first(_much_of(known > (_OTHER * STEPS) ** 2), len(known))


def _most_of_nine(marked: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """A single pixel is no thing: five of nine must be marked."""
    return mean_along(mean_along(marked * np.int32(900), 1, axis=0), 1, axis=1) > 450


def _much_of(marked: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Speckles, as sky between leaves, are no thing: most of seven by seven further in must be marked."""
    share = mean_along(mean_along(marked * np.int32(900), 3, axis=0), 3, axis=1)
    further = np.concatenate([share[3:], share[-1:], share[-1:], share[-1:]])
    return _most_of_nine(marked) & (further > 540)


def _first(marked: npt.NDArray[np.bool_], rows: int) -> I32:
    marked[:2] = False
    return np.where(marked.any(axis=0), marked.argmax(axis=0), rows).astype(np.int32)


def _distances(lines: I32, rows: int) -> tuple[I32, I32]:
    """Squared distance of each place from the colours next to the edge and from those of the edge row.

    Every second column and row is looked at, and brought back by repeating.
    """
    coarse = np.ascontiguousarray(lines[::2, ::2].transpose(2, 0, 1))
    _, deep, columns = coarse.shape
    near = max(2, rows // _KNOWN_ROWS)
    least = np.full((deep, columns), 2**30, np.int32)
    edge = least.copy()
    reach = rows // 2
    for row in range((near + 1) // 2):
        for shift in range(-reach, reach + 1, 2):
            begin, end = max(0, -shift), min(columns, columns - shift)
            if end <= begin:
                continue
            there = coarse[:, row : row + 1, begin + shift : end + shift]
            gap = coarse[:, :, begin:end] - there
            gap *= gap
            squared = gap[0]
            squared += gap[1]
            squared += gap[2]
            np.minimum(least[:, begin:end], squared, out=least[:, begin:end])
            if row == 0:
                np.minimum(edge[:, begin:end], squared, out=edge[:, begin:end])
    size = (lines.shape[0], lines.shape[1])
    return _doubled(least, size), _doubled(edge, size)


def _doubled(values: I32, size: tuple[int, int]) -> I32:
    return values.repeat(2, axis=0).repeat(2, axis=1)[: size[0], : size[1]]


def _detail(lines: I32, upto: I32, *, apart: int) -> I32:
    """Change along each line, which a stretch would smear: the mean second difference up to a row."""
    bend = over_channels(np.abs(lines[2 * apart :] - 2 * lines[apart:-apart] + lines[: -2 * apart]))
    counted = np.arange(len(bend))[:, np.newaxis] < upto
    total = (bend * counted).sum(axis=0, dtype=np.int64) // np.maximum(counted.sum(axis=0), 1)
    return mean_along(total.astype(np.int32), max(1, len(lines) // 7), axis=0)
