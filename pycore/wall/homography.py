"""The homography between a plane in mm and a photograph in pixels."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.wall.least_squares import Floats, fit

#: Four points give eight equations for a homography's eight unknowns: nothing is left to refine.
_EXACT: Final = 4


def mapped(homography: Floats, points: Floats) -> Floats:
    """Map points by a homography.

    Parameters
    ----------
    homography : (3, 3) float64
    points : (n, 2) float64

    Returns
    -------
    (n, 2) float64
        Infinite or not a number where a point maps to infinity.

    Examples
    --------
    >>> mapped(np.diag([2.0, 3.0, 1.0]), np.array([[1.0, 1.0]])).tolist()
    [[2.0, 3.0]]
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        out = points @ homography[:, :2].T + homography[:, 2]
        return np.asarray(out[:, :2] / out[:, 2:])


def homography(plane: Floats, photo: Floats) -> Floats:
    """Fit the homography from a plane's points to those of a photograph.

    The normalised direct linear transform gives the start; with more than four points the distances in the
    photograph are then made least.

    Parameters
    ----------
    plane, photo : (n, 2) float64
        At least four points each, no three of four in a line.

    Returns
    -------
    (3, 3) float64
        Its last element is 1, but where the plane's origin maps to infinity.

    References
    ----------
    Hartley and Zisserman, Multiple View Geometry, chapter 4: the normalised direct linear transform, and the
    refinement of the error in one image (from memory).

    Examples
    --------
    >>> square = np.array([[0.0, 1.0], [1.0, 1.0], [1.0, 0.0], [0.0, 0.0]])
    >>> homography(square, 100 * square + 7)[:2, 2].round(6).tolist()
    [7.0, 7.0]
    """
    from_plane, from_photo = centring(plane), centring(photo)
    here, there = mapped(from_plane, plane), mapped(from_photo, photo)
    found = _direct(here, there)
    if len(plane) > _EXACT:
        # The middle of the points lies in the photograph, so the last element is never 0 here.
        fitted = fit(lambda eight: (mapped(from_eight(eight), here) - there).ravel(), eight_of(found))
        found = from_eight(fitted.unknowns)
    whole = np.linalg.solve(from_photo, found @ from_plane)
    return whole / whole[2, 2] if abs(whole[2, 2]) > 1e-12 * np.abs(whole[2]).max() else whole


def centring(points: Floats) -> Floats:
    """The similarity that moves points to a mean of 0 and a mean distance of the square root of 2.

    Parameters
    ----------
    points : (n, 2) float64

    Returns
    -------
    (3, 3) float64

    References
    ----------
    Hartley and Zisserman, chapter 4: isotropic scaling (from memory).

    Examples
    --------
    >>> centring(np.array([[0.0, 0.0], [2.0, 2.0]])).tolist()
    [[1.0, 0.0, -1.0], [0.0, 1.0, -1.0], [0.0, 0.0, 1.0]]
    """
    middle = points.mean(axis=0)
    scale = np.sqrt(2) / max(float(np.linalg.norm(points - middle, axis=1).mean()), 1e-300)
    return np.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1.0]])


def eight_of(matrix: Floats) -> Floats:
    """The eight unknowns of a homography whose last element is not 0.

    Parameters
    ----------
    matrix : (3, 3) float64

    Returns
    -------
    (8,) float64

    Examples
    --------
    >>> eight_of(2 * np.eye(3)).tolist()
    [1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0]
    """
    flat: Floats = (matrix / matrix[2, 2]).ravel()
    return flat[:8]


def from_eight(unknowns: Floats) -> Floats:
    """The homography of its eight unknowns.

    Parameters
    ----------
    unknowns : (8,) float64

    Returns
    -------
    (3, 3) float64

    Examples
    --------
    >>> from_eight(eight_of(np.eye(3))).tolist()
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
    """
    return np.append(unknowns, 1.0).reshape(3, 3)


def _direct(plane: Floats, photo: Floats) -> Floats:
    x, y = plane.T
    u, v = photo.T
    one, none = np.ones_like(x), np.zeros_like(x)
    # Hartley and Zisserman, chapter 4: two rows a point of A h = 0.
    first = np.stack([x, y, one, none, none, none, -u * x, -u * y, -u], axis=1)
    second = np.stack([none, none, none, x, y, one, -v * x, -v * y, -v], axis=1)
    return np.asarray(np.linalg.svd(np.concatenate([first, second]))[2][-1].reshape(3, 3))
