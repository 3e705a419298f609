"""Rigid maps of space, many at a time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

E1, E2, E3 = np.eye(3)
ORIGIN = np.zeros(3)


@dataclass(frozen=True)
class Rigid:
    """X -> turn X + shift, for n positions at once.

    Attributes
    ----------
    turn : (n, 3, 3) float64
        Rotations.
    shift : (n, 3) float64
        mm.
    """

    turn: Floats
    shift: Floats

    def apply(self, points: Floats) -> Floats:
        """Map points of space.

        Parameters
        ----------
        points : (m, 3) float64
            mm.

        Returns
        -------
        (n, m, 3) float64
            mm, by each of the n maps.
        """
        mapped: Floats = points @ np.swapaxes(self.turn, -1, -2) + self.shift[:, np.newaxis, :]
        return mapped

    def direct(self, direction: Floats) -> Floats:
        """Turn one direction.

        Parameters
        ----------
        direction : (3,) float64

        Returns
        -------
        (n, 3) float64
            By each of the n maps.
        """
        turned: Floats = self.turn @ direction
        return turned

    def after(self, first: Rigid) -> Rigid:
        """The map that does `first`, then this.

        Parameters
        ----------
        first : Rigid
            Of as many maps as this one.

        Returns
        -------
        Rigid
        """
        return Rigid(
            self.turn @ first.turn,
            np.einsum("nij,nj->ni", self.turn, first.shift) + self.shift,
        )


def about(axis: Floats, point: Floats, angle: Floats) -> Rigid:
    """Turn about an axis through a point.

    Parameters
    ----------
    axis, point : (3,) float64
        A unit vector; mm.
    angle : (n,) float64
        Radians, right-handed.

    Returns
    -------
    Rigid
        n maps.

    References
    ----------
    Rodrigues' rotation formula: R = 1 + sin a K + (1 - cos a) K K.

    Examples
    --------
    >>> np.round(about(E2, ORIGIN, np.array([np.pi / 2])).direct(E1) + 0.0, 12).tolist()
    [[0.0, 0.0, -1.0]]
    """
    x, y, z = axis
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    sin, cos = np.sin(angle)[:, np.newaxis, np.newaxis], np.cos(angle)[:, np.newaxis, np.newaxis]
    turn = np.eye(3) + sin * cross + (1 - cos) * (cross @ cross)
    return Rigid(turn, point - turn @ point)


def from_rays(
    vertex: Floats, rays: tuple[Floats, Floats], place: Floats, images: tuple[Floats, Floats]
) -> Rigid:
    """The rigid map that takes a vertex and two rays to a place and two rays at the same angle.

    Parameters
    ----------
    vertex : (3,) float64
        mm.
    rays : two (3,) float64
        Unit, not parallel.
    place : (n, 3) float64
        mm.
    images : two (n, 3) float64
        Unit, at the rays' angle.

    Returns
    -------
    Rigid
        n maps.
    """
    flat = _frame(rays[0][np.newaxis], rays[1][np.newaxis])
    turn = _frame(*images) @ np.swapaxes(flat, -1, -2)
    return Rigid(turn, place - turn @ vertex)


def _frame(first: Floats, second: Floats) -> Floats:
    """Right-handed frames, (n, 3, 3), columns: the first ray, the second made upright to it, their normal."""
    along = first / np.linalg.norm(first, axis=-1, keepdims=True)
    upright = second - np.sum(second * along, axis=-1, keepdims=True) * along
    upright = upright / np.linalg.norm(upright, axis=-1, keepdims=True)
    return np.stack([along, upright, np.cross(along, upright)], axis=-1)
