"""Which way the lines run that meet an edge: a slope for each column, from long straight lines.

For each column and each of 97 slopes, the change of colour across the line is summed along it (a slant stack:
what a straight line has in every row adds up, texture cancels). The slopes along the edge are then the path
through these sums that gains most while neighbouring lines neither meet within the side nor part too fast.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_blocks import BLOCK, between_blocks, in_blocks
from pycore.fill.continued_ground import (
    I32,
    I64,
    STEPS,
    mean_along,
    most_near,
    over_channels,
    smooth,
    whole_root,
)
from pycore.fill.continued_harm import Change, length_of

#: Slopes are multiples of 1 / 16 column a row, up to 3: 72 degrees from upright.
_TO_ONE: Final = 16
_STEEPEST: Final = 48

#: Sums along a line: rows that count, as a share of the depth, and how much less the last of them counts.
_INTO: Final = 0.9

#: The part of it next to the edge, in which the line must be seen as well.
_NEAR: Final = 3

#: A stack counts for what it has over this share (in 1 / 16) of what its pixels have: texture, whose signs
#: are mixed, seldom has half.
_CHANCE: Final = 7

#: Change across a line that counts in full, in ΔE a pixel of the plan.
_MOST: Final = 18

#: Squared change (ΔE a pixel) at which a pixel's direction counts by half.
_CALM: Final = 3

#: What detail of one direction is worth, in 1 / 16 of ΔE a pixel.
_TEXTURE: Final = 44

#: The plainest line's gain (1 / 16 of ΔE a pixel) at which detail's direction counts by half, and how far
#: along the edge it is averaged: grass and foliage without one plain line would be drawn into swirls.
_HALF: Final = 32
_ABOUT: Final = 6

#: What a slope of 1 must gain over an upright line, in 1 / 16 of ΔE a pixel; grows with the slope's square.
_UPRIGHT: Final = 2

#: What a rise by 2 / 16 costs besides.
_PARTING: Final = 40

#: What a line loses that comes from outside the strip.
_PENALTY: Final = 40 * STEPS

#: from one to the next the slope falls by at most 1 / 16 and rises by 2 / 16.
_FALL, _RISE = 1, 2

#: Where no line is plain it falls and rises by at most so much, in 1 / 256: at the foot of a side the ground
#: is drawn together to 0.7 and drawn out to 1.4 of its width. A line whose worth over a step (1 / 256 of ΔE
#: a pixel) is `_SURE` has half of the way to what plain lines may have; so has what lies `_LENT` steps off.
_FALL_GENTLE, _RISE_GENTLE = 8, 10
_SURE: Final = 2000
_LENT: Final = 3

#: Slopes are as sure as what they gain over an upright side, within so many steps: over that, so many times
#: what they lose, and this much (1 / 256 of ΔE a pixel) for doubt. What is a third sure counts as sure.
_ROUND: Final = 6
_LOSS: Final = 8
_DOUBT: Final = 300
_CLEAR: Final = 512

#: Mean change (1 / `STEPS` of ΔE a pixel) up to which ground is plain and from which on it is busy; the most
#: that one pixel counts with, in ΔE; and how much less, in eighths, slopes cost on plain ground.
_PLAIN: Final = 8
_BUSY_FROM: Final = 40
_BUSY: Final = 8
_LESS: Final = 7

#: A change of slope from step to step costs this much a sixteenth, so that nothing wavers for nothing.
_WAVER: Final = 16


def line_gains(steps: I32, depth: int) -> I32:
    """How plainly a straight line of each slope meets the edge at each column.

    Parameters
    ----------
    steps : (rows, columns, 3) int32
        From `colour_steps`, row 0 at the edge; at least 4 rows.
    depth : int
        The side's depth in pixels of the plan.

    Returns
    -------
    (slopes, columns) int32
        In 1 / 16 of ΔE a pixel. Slopes from -`_STEEPEST` to `_STEEPEST` by one sixteenth.
    """
    rows = min(len(steps), max(4, int(depth * _INTO)))
    columns = steps.shape[1]
    soft = smooth(steps[: min(len(steps), rows + 2)], 1)
    down, across = _change(soft)
    down, across = down[:rows], across[:rows]
    seen = np.concatenate([across, _direction(down, across)], axis=2)
    # A line that leaves the strip at an end has nothing there: room on both sides, empty.
    room = (rows * _STEEPEST) // _TO_ONE + 1
    seen = np.pad(seen, ((0, 0), (room, room), (0, 0)))
    slopes = np.arange(-_STEEPEST, _STEEPEST + 1)
    place = np.arange(0, columns, 2)[np.newaxis, :] + room
    shape = (len(slopes), place.shape[1], seen.shape[2])
    full, near = np.zeros(shape, np.int32), np.zeros(shape, np.int32)
    weights = near_weights = 0
    for row in range(0, rows, 2):
        at = place - ((slopes * row + _TO_ONE // 2) // _TO_ONE)[:, np.newaxis]
        weight = 10 - (7 * row) // rows
        here = seen[row].take(at, axis=0)
        if row * _NEAR <= rows:
            near += here
            near_weights += 1
        here *= weight
        full += here
        weights += weight
    far = _over_chance(full[..., :3], full[..., 3], weights)
    close = _over_chance(near[..., :3], near[..., 3], near_weights)
    gain = whole_root(far.astype(np.int64) * close).astype(np.int32)
    # Across the edge a steep line changes less than across itself.
    gain = (gain * _steepness(slopes)[:, np.newaxis]) >> 8
    gain = np.minimum(gain + gain // 2, _MOST * STEPS)
    gain += (_agreement(full[..., 4:], slopes, weights) * _borne_out(gain)) >> 8
    gain = mean_along(gain, 1, axis=1)
    gain = gain.repeat(2, axis=1)[:, :columns]
    return gain - _PENALTY * _comes_from_outside(slopes, columns, rows).astype(np.int32)


def _comes_from_outside(slopes: I64, columns: int, rows: int) -> npt.NDArray[np.bool_]:
    """Lines that would have to come in from past an end of the strip, where nothing is known."""
    source = np.arange(columns) - (slopes[:, np.newaxis] * rows) // _TO_ONE
    return (source < -1) | (source > columns)


def _steepness(slopes: I64) -> I32:
    """How much longer a line is than it is deep, at most twice, in 1 / 256."""
    longer = np.sqrt((256 * 256 * (_TO_ONE**2 + slopes * slopes)).astype(np.float64)).astype(np.int32)
    return np.minimum(longer // _TO_ONE, 512)


def _change(soft: I32) -> tuple[I32, I32]:
    """Change a pixel inwards and along the edge; none at the strip's borders."""
    down, across = np.zeros_like(soft), np.zeros_like(soft)
    down[1:-1] = (soft[2:] - soft[:-2]) >> 1
    across[:, 1:-1] = (soft[:, 2:] - soft[:, :-2]) >> 1
    return down, across


def _direction(down: I32, across: I32) -> I32:
    """Power of the change and, each pixel with a weight that saturates, the three parts of its tensor.

    Returns
    -------
    (rows, columns, 5) int32
        Power across; then inwards, mixed and across, and all of it, these four in 1 / 1024.
    """
    inwards = over_channels(down * down).astype(np.int64)
    mixed = over_channels(down * across).astype(np.int64)
    across_ = over_channels(across * across).astype(np.int64)
    calm = int(_CALM * STEPS * STEPS)
    whole = inwards + across_ + calm
    # Lines along the edge do not count: from |mixed| = 1.8 across on less, from 2.8 on not at all.
    tilt = np.clip((2867 * across_ - 1024 * np.abs(mixed)) // (across_ + 1), 0, 1024)
    parts = [(part * tilt) // whole for part in (inwards, mixed, across_)]
    parts.append(((inwards + across_) * 1024) // whole)
    tensor = np.stack(parts, axis=2).astype(np.int32)
    tensor = mean_along(mean_along(tensor, 1, axis=0), 1, axis=1)
    return np.concatenate([across_[..., np.newaxis].astype(np.int32), tensor], axis=2)


def _agreement(parts: I32, slopes: I64, weights: int) -> I32:
    """How well all detail beside the edge, long lines or short, runs the way of each slope."""
    inwards, mixed, across, whole = (parts[..., part].astype(np.int64) for part in range(4))
    m = slopes[:, np.newaxis]
    # The change along the line's own direction, squared, in shares of all change: 0 on the line.
    along = inwards * _TO_ONE**2 - 2 * m * mixed * _TO_ONE + m * m * across
    share = np.maximum(along * 256 // (_TO_ONE**2 + m * m), 0) // np.maximum(inwards + across, 1)
    strength = (inwards + across) * 256 // np.maximum(whole, 1)
    strength = strength * strength // 256
    much = np.minimum(whole // weights, 512)
    worth: I32 = ((128 - share) * strength * much // (256 * 256) * _TEXTURE // 256).astype(np.int32)
    return worth


def _borne_out(gain: I32) -> I32:
    """How far plain lines round about bear out what detail says of direction, in 1 / 256 for each column."""
    plain = mean_along(gain.max(axis=0), _ABOUT, axis=0)
    return (plain * 256 // (plain + _HALF)).astype(np.int32)


def _over_chance(stack: I32, power: I32, weights: int) -> I32:
    """What the stack's mean has over what mixed signs would give it."""
    wide = stack.astype(np.int64)
    mean = whole_root(over_channels(wide * wide)) // weights
    usual = whole_root(power // weights)
    over: I32 = np.maximum(mean - (usual * _CHANCE) // 16, 0).astype(np.int32)
    return over


def calm_along(change: Change) -> I32:
    """How calm the ground is that a side may show: slopes may change there, since no line shows it.

    Parameters
    ----------
    change : Change
        Of the strip, from `change_of`.

    Returns
    -------
    (columns,) int32
        256 where it is plain, 0 where it is busy.

    Examples
    --------
    >>> from pycore.fill.continued_harm import change_of
    >>> steps = np.zeros((60, 80, 3), np.int32)
    >>> steps[:, 50:52] = 40 * STEPS
    >>> calm = calm_along(change_of(steps, 40))
    >>> int(calm[20]), int(calm[51])
    (256, 0)
    """
    # Over two pixels; half of it a pixel.
    size = length_of(change.down, change.across) // 2
    usual = np.minimum(size, _BUSY * STEPS).sum(axis=0) // len(size)
    calm: I32 = np.clip(256 - (usual - _PLAIN) * 256 // (_BUSY_FROM - _PLAIN), 0, 256).astype(np.int32)
    return calm


def slopes_along(gains: I32, calm: I32) -> I32:
    """The slope of the lines at each column.

    Parameters
    ----------
    gains : (slopes, columns) int32
        From `line_gains`.
    calm : (columns,) int32
        From `calm_along`.

    Returns
    -------
    (columns,) int32
        Columns per row outwards, in 1 / 256.

    References
    ----------
    A. J. Viterbi 1967, the best path by dynamic programming; from memory.

    Examples
    --------
    >>> gains = np.zeros((97, 40), np.int32)
    >>> gains[48 + 8, 18:22] = 200
    >>> abs(int(slopes_along(gains, np.zeros(40, np.int32))[20]) - 128) <= 1
    True
    """
    count, columns = gains.shape
    slopes = np.arange(-_STEEPEST, _STEEPEST + 1)
    prior = (slopes * slopes * _UPRIGHT * 16) // (_TO_ONE * _TO_ONE)
    worth = gains.astype(np.int64) * 16
    worth = in_blocks(worth)
    blocks = worth.shape[1]
    quiet = in_blocks(calm.astype(np.int64)[np.newaxis])[0] // BLOCK
    # On calm ground neither slopes nor their changes show.
    shows = 256 - quiet * _LESS // 8
    worth -= prior[:, np.newaxis] * (BLOCK * shows) // 256
    # The least change first among equals.
    changes = np.array(sorted(range(-_RISE, _FALL + 1), key=abs))
    # Where lines part that fast, what lies between them is drawn out: only plain lines are worth it.
    cost = (np.abs(changes) * _WAVER + (changes == -_RISE) * _PARTING) * 16
    # Between two steps counts the busier.
    dear = np.maximum(shows, np.roll(shows, 1))
    costs = (cost * dear[:, np.newaxis] // 256)[..., np.newaxis]
    worths = np.ascontiguousarray(worth.T)
    # `back[b, s]`: how many slopes up (or down) the block before lies.
    back = np.zeros((blocks, count), np.int64)
    room = max(_RISE, _FALL)
    wide = np.full(count + 2 * room, -(2**60), np.int64)
    best = wide[room : room + count]
    best[:] = worths[0]
    at = np.arange(count)
    before = at + room + changes[:, np.newaxis]
    for block in range(1, blocks):
        options = wide[before]
        options -= costs[block]
        choice = options.argmax(axis=0)
        back[block] = changes[choice]
        np.add(options[choice, at], worths[block], out=best)
    path = np.empty(blocks, np.int64)
    path[-1] = int(best.argmax())
    for block in range(blocks - 1, 0, -1):
        path[block - 1] = path[block] + back[block, path[block]]
    return between_blocks(_refined(path, worth, slopes, quiet), columns)


def _refined(path: I64, worth: I64, slopes: I64, quiet: I64) -> I64:
    """The path's slopes in 1 / 256, between the candidates and steadied by what is plain.

    The vertex of the parabola through a step's three candidates, then the mean over five steps, each weighed
    with what it gains over an upright line without any: a plain line keeps its slope and lends it to its
    neighbours.
    """
    step = 256 // _TO_ONE
    blocks = np.arange(len(path))
    inner = np.clip(path, 1, len(slopes) - 2)
    # Without what steep slopes were given, which would tilt the parabola.
    longer = _steepness(slopes)
    below, here, above = (worth[inner + shift, blocks] * 256 // longer[inner + shift] for shift in (-1, 0, 1))
    bend = 2 * here - below - above
    vertex = np.where((bend > 0) & (here > 0), (above - below) * step // np.maximum(2 * bend, 1), 0)
    nodes = slopes[path] * step + np.clip(vertex, -step // 2, step // 2) * (inner == path)
    weights = np.maximum(here, 0) + 16 * STEPS
    total, parts = np.zeros(len(path), np.int64), np.zeros(len(path), np.int64)
    for shift in range(-2, 3):
        at = np.clip(blocks + shift, 0, len(path) - 1)
        total += nodes[at] * weights[at]
        parts += weights[at]
    sure = _sure(here, worth[_STEEPEST])
    return _held((total // parts) * sure // 256, np.maximum(here, 0) * sure // 256, quiet)


def _sure(here: I64, upright: I64) -> I64:
    """How sure the slopes are, in 1 / 256, by what they gain and lose over an upright side round about."""
    over = np.clip(here - upright, -(2**20), 2**20).astype(np.int32)
    gained = mean_along(np.maximum(over, 0), _ROUND, axis=0).astype(np.int64)
    lost = mean_along(np.maximum(-over, 0), _ROUND, axis=0).astype(np.int64)
    share = gained * (256 + _CLEAR) // (gained + _LOSS * lost + _DOUBT)
    return mean_along(np.minimum(share, 256).astype(np.int32), _ROUND, axis=0).astype(np.int64)


def _held(nodes: I64, plain: I64, quiet: I64) -> I64:
    """Slopes that fall and rise from one step to the next by no more than what the side bears there."""
    near = most_near(np.minimum(plain, 2**20).astype(np.int32), _LENT)
    sure = np.maximum(near.astype(np.int64) * 256 // (near + _SURE), quiet)
    fall = _FALL_GENTLE + ((256 // _TO_ONE * _FALL - _FALL_GENTLE) * sure) // 256
    rise = _RISE_GENTLE + ((256 // _TO_ONE * _RISE - _RISE_GENTLE) * sure) // 256
    return -_no_steeper(-_no_steeper(nodes, fall), rise)


def _no_steeper(nodes: I64, most: I64) -> I64:
    """Nodes that fall by no more than `most` to each from the one before: half way between two envelopes."""
    ramp = np.cumsum(most)
    from_left = np.maximum.accumulate(nodes + ramp) - ramp
    from_right = np.minimum.accumulate((nodes + ramp)[::-1])[::-1] - ramp
    held: I64 = (from_left + from_right) // 2
    return held
