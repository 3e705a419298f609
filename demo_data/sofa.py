"""A sofa as distances: rounded boxes and cushions, seen along rays, with soft shadow and shaded folds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.floating[Any]]
Field = Callable[[Floats], Floats]


@dataclass(frozen=True)
class Block:
    """A rounded box in mm: its middle, its half sizes, how round its edges are, its turns and its cloth."""

    middle: tuple[float, float, float]
    half: tuple[float, float, float]
    round: float
    cloth: tuple[float, float, float]
    """rgb_linear."""
    lean_deg: float = 0.0
    """About the axis along the sofa: its top goes back towards the wall."""
    turn_deg: float = 0.0
    """In the plane of the wall."""
    puff: float = 0.0
    """How far its faces bulge, mm."""

    def distance(self, points: Floats) -> Floats:
        """From points (n, 3) to its surface, mm; a little too short where it bulges."""
        own = (points - np.array(self.middle, np.float32)) @ self.axes
        if self.puff:
            across = np.clip(1 - (own[:, :2] / np.array(self.half[:2], np.float32)) ** 2, 0, 1)
            own = own * np.array([1, 1, 0], np.float32) + own * np.array([0, 0, 1], np.float32) * (
                1 / (1 + self.puff / self.half[2] * across[:, :1] * across[:, 1:])
            )
        out = np.abs(own) - (np.array(self.half, np.float32) - self.round)
        outside = np.sqrt((np.maximum(out, 0) ** 2).sum(axis=1))
        return np.asarray(outside + np.minimum(out.max(axis=1), 0) - self.round, np.float32)

    @property
    def axes(self) -> Floats:
        """Its own axes as columns."""
        lean, turn = np.radians([self.lean_deg, self.turn_deg])
        back = np.array([[1, 0, 0], [0, np.cos(lean), np.sin(lean)], [0, -np.sin(lean), np.cos(lean)]])
        flat = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
        return np.asarray(back @ flat, np.float32)


BLUE, OCHRE, LINEN = (0.055, 0.095, 0.135), (0.42, 0.20, 0.045), (0.52, 0.48, 0.41)


def sofa(left: float, right: float, floor: float) -> list[Block]:
    """A sofa with two seats between two places along the wall, on a floor at that height; mm."""
    middle, wide = (left + right) / 2, right - left
    arm, seat = 150.0, (wide - 2 * 150.0) / 2
    blocks = [
        Block((middle, floor + 480, 130), (wide / 2 - 10, 330, 75), 45, BLUE, lean_deg=4),
        Block((middle, floor + 230, 470), (wide / 2 - 12, 120, 400), 30, BLUE),
        Block((left + arm / 2, floor + 330, 480), (arm / 2, 270, 410), 62, BLUE),
        Block((right - arm / 2, floor + 330, 480), (arm / 2, 270, 410), 62, BLUE),
    ]
    for side in (-1, 1):
        at = middle + side * seat / 2
        blocks += [
            Block((at, floor + 400, 560), (seat / 2 - 5, 78, 330), 58, BLUE),
            Block((at, floor + 650, 285), (seat / 2 - 7, 225, 80), 68, BLUE, lean_deg=13, puff=45),
        ]
    blocks += [
        Block((left + 380, floor + 640, 435), (190, 190, 48), 46, OCHRE, lean_deg=20, turn_deg=13, puff=85),
        Block((right - 400, floor + 630, 430), (180, 180, 46), 44, LINEN, lean_deg=22, turn_deg=-9, puff=80),
    ]
    return blocks


def nearest(blocks: list[Block]) -> Field:
    """The distance to the nearest block."""

    def field(points: Floats) -> Floats:
        found = blocks[0].distance(points)
        for one in blocks[1:]:
            found = np.minimum(found, one.distance(points))
        return found

    return field


def hit(field: Field, starts: Floats, ways: Floats, *, far: Floats) -> Floats:
    """How far along each ray the surface lies; infinite where it meets none before `far`."""
    along = np.zeros(len(ways), np.float32)
    left = np.arange(len(ways))
    found = np.full(len(ways), np.inf, np.float32)
    for _ in range(160):
        apart = field(starts[left] + along[left, None] * ways[left])
        near = apart < 0.4
        found[left[near]] = along[left[near]]
        along[left] += 0.8 * apart
        left = left[~near & (along[left] < far[left])]
        if not len(left):
            break
    return found


def normals(field: Field, points: Floats) -> Floats:
    """The directions away from the surface, by four differences."""
    corners = np.array([[1, -1, -1], [-1, -1, 1], [-1, 1, -1], [1, 1, 1]], np.float32)
    away = sum(corner * field(points + 1.2 * corner)[:, None] for corner in corners)
    return np.asarray(away / np.linalg.norm(away, axis=1, keepdims=True), np.float32)


def lit_share(field: Field, points: Floats, way: Floats, *, softness: float) -> Floats:
    """How much of a soft light arrives: the narrowest gap on the way to it, by its distance."""
    share: Floats = np.ones(len(points), np.float32)
    along: Floats = np.full(len(points), 14, np.float32)
    for _ in range(40):
        apart = field(points + along[:, None] * way)
        share = np.minimum(share, np.clip(0.5 + 0.5 * apart * softness / along, 0, 1))
        along += np.clip(apart, 12, 70)
    return np.asarray(share * share * (3 - 2 * share))


def open_share(field: Field, points: Floats, away: Floats) -> Floats:
    """How open the room is over each point: near surfaces keep light off."""
    closed = np.zeros(len(points), np.float32)
    for step, weight in ((15, 0.30), (40, 0.24), (90, 0.22), (180, 0.16), (330, 0.12)):
        closed += weight * np.clip(1 - field(points + step * away) / step, 0, 1)
    return np.asarray(np.clip(1 - 1.15 * closed, 0.05, 1))
