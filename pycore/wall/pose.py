"""The camera before a wall: focal length, rotation and place.

On the wall x runs right, y up and z towards the room, in mm from the first reference's lower-left corner. The
camera's own axes run right, down and into the scene. Pixels are square and the principal point is the middle
of the photograph; lens distortion is ignored.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.wall.least_squares import Fitted, Floats, fit

#: A depth, or the length of a direction, below this is none.
_NONE: Final = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Pose:
    """A camera before the wall.

    Attributes
    ----------
    focal_px : float
    rotation : (3, 3) float64
        From the wall's axes to the camera's.
    shift_mm : (3,) float64
        The wall's origin in the camera's axes.
    centre_px : (2,) float64
        The principal point.
    """

    focal_px: float
    rotation: Floats
    shift_mm: Floats
    centre_px: Floats

    @property
    def camera(self) -> Floats:
        """The matrix (3, 4) that takes (x, y, z, 1) in mm on the wall to the photograph."""
        inner = intrinsic(self.focal_px, self.centre_px)
        return np.asarray(inner @ np.column_stack([self.rotation, self.shift_mm]))

    @property
    def wall_to_photo(self) -> Floats:
        """The homography (3, 3) of the wall's plane."""
        return self.camera[:, [0, 1, 3]]

    @property
    def off_normal_deg(self) -> float:
        """How far the camera's axis is off the wall's normal, degrees."""
        return float(np.degrees(np.arccos(np.clip(-self.rotation[2, 2], -1, 1))))


def intrinsic(focal_px: float, centre_px: Floats) -> Floats:
    """The camera's own matrix.

    Parameters
    ----------
    focal_px : float
    centre_px : (2,) float64

    Returns
    -------
    (3, 3) float64

    Examples
    --------
    >>> intrinsic(1000.0, np.array([400.0, 300.0]))[0].tolist()
    [1000.0, 0.0, 400.0]
    """
    return np.array([[focal_px, 0, centre_px[0]], [0, focal_px, centre_px[1]], [0, 0, 1.0]])


def rotation_of(vector: Floats) -> Floats:
    """The rotation about a vector by its length.

    Parameters
    ----------
    vector : (..., 3) float64
        Radians.

    Returns
    -------
    (..., 3, 3) float64

    References
    ----------
    Rodrigues' formula.

    Examples
    --------
    >>> rotation_of(np.array([0.0, 0.0, np.pi / 2])).round(9)[0].tolist()
    [0.0, -1.0, 0.0]
    """
    angle = np.sqrt((vector * vector).sum(axis=-1))[..., np.newaxis]
    x, y, z = np.moveaxis(vector / np.where(angle > 0, angle, 1.0), -1, 0)
    across = np.zeros((*vector.shape, 3))
    across[..., 0, 1], across[..., 0, 2], across[..., 1, 2] = -z, y, -x
    across[..., 1, 0], across[..., 2, 0], across[..., 2, 1] = z, -y, x
    angle = angle[..., np.newaxis]
    return np.asarray(np.eye(3) + np.sin(angle) * across + (1 - np.cos(angle)) * (across @ across))


def focal_from_plane(homography: Floats, centre_px: Floats) -> float:
    """The focal length by which a plane's two axes are at right angles and equally long.

    Parameters
    ----------
    homography : (3, 3) float64
        From the plane to the photograph.
    centre_px : (2,) float64
        The principal point.

    Returns
    -------
    float
        Pixels; not a number where no real one does it, as in a frontal view.

    References
    ----------
    Hartley and Zisserman, chapter 8: calibration from the images of plane figures by the absolute conic (from
    memory). Both conditions are linear in 1 / f squared.

    Examples
    --------
    >>> turn = rotation_of(np.array([np.pi, 0.0, 0.0])) @ rotation_of(np.array([0.0, 0.5, 0.0]))
    >>> pose = Pose(focal_px=900.0, rotation=turn, shift_mm=np.array([0.0, 0, 5]), centre_px=np.zeros(2))
    >>> round(focal_from_plane(pose.wall_to_photo, np.zeros(2)), 6)
    900.0
    """
    inner = intrinsic(1.0, centre_px)
    first, second = np.linalg.solve(inner, homography)[:, :2].T
    across = np.array([2 * first[:2] @ second[:2], first[:2] @ first[:2] - second[:2] @ second[:2]])
    along = np.array([2 * first[2] * second[2], first[2] ** 2 - second[2] ** 2])
    whole = across @ across
    inverse = -(across @ along) / whole if whole > 0 else 0.0
    return float(1 / np.sqrt(inverse)) if inverse > 0 else float("nan")


def pose_from_plane(homography: Floats, focal_px: float, centre_px: Floats) -> Pose:
    """The pose nearest to a homography.

    Parameters
    ----------
    homography : (3, 3) float64
        From the wall in mm to the photograph.
    focal_px : float
    centre_px : (2,) float64
        The principal point.

    Returns
    -------
    Pose
        Its rotation is the one nearest to the homography's own axes.

    Examples
    --------
    >>> frontal = np.array([[2.0, 0, 400], [0, -2, 300], [0, 0, 1]])
    >>> pose_from_plane(frontal, 1000.0, np.array([400.0, 300.0])).shift_mm.tolist()
    [0.0, 0.0, 500.0]
    """
    own = np.linalg.solve(intrinsic(focal_px, centre_px), homography)
    scale = np.sqrt(np.linalg.norm(own[:, 0]) * np.linalg.norm(own[:, 1]))
    # The camera stands before the wall: the references' side has a positive depth.
    own = own / (scale if own[2, 2] > 0 else -scale)
    axes = np.column_stack([own[:, 0], own[:, 1], np.cross(own[:, 0], own[:, 1])])
    left, _, right = np.linalg.svd(axes)
    return Pose(
        focal_px=focal_px, rotation=left @ right, shift_mm=own[:, 2].copy(), centre_px=np.asarray(centre_px)
    )


def fit_pose(
    wall_mm: Floats, photo_px: Floats, start: Pose, *, focal_sigma: float | None = 0.0
) -> tuple[Pose, Fitted]:
    """Fit a pose to points of the wall's plane, by their distances in the photograph.

    A plane that is seen from far has a second pose that is nearly as good, tilted the other way about the
    line of sight; both are tried.

    Parameters
    ----------
    wall_mm : (n, 2) float64
        At least four points of the wall.
    photo_px : (n, 2) float64
        The same in the photograph.
    start : Pose
        With the focal length that is known or guessed.
    focal_sigma : float, optional
        How well the focal length is known: its relative standard deviation. 0: exactly. None: not at all.

    Returns
    -------
    Pose
    Fitted
        Its unknowns are a rotation after the start's, radians; the move in units of the distance; and, unless
        the focal length is known exactly, the logarithm of its change. Residuals are pixels, and the last one
        the focal length's in standard deviations where it has one.
    """
    middle = wall_mm.mean(axis=0)
    fits = [_fit_from(one, wall_mm, photo_px, focal_sigma) for one in (start, _tilted_back(start, middle))]
    return min(fits, key=lambda one: float(one[1].residuals @ one[1].residuals))


def pose_at(start: Pose, unknowns: Floats) -> Pose:
    """The pose that a fit's unknowns mean.

    Parameters
    ----------
    start : Pose
        Where the fit began.
    unknowns : (6,) or (7,) float64
        See `fit_pose`.

    Returns
    -------
    Pose
    """
    focal_px, rotation, shift_mm = _moved(start, unknowns)
    return Pose(focal_px=float(focal_px), rotation=rotation, shift_mm=shift_mm, centre_px=start.centre_px)


def _moved(start: Pose, unknowns: Floats) -> tuple[Floats, Floats, Floats]:
    """Focal lengths, rotations and shifts that sets of unknowns mean, one in each of their first axes."""
    focal_px = start.focal_px * np.exp(np.clip(unknowns[..., 6:].sum(axis=-1), -20, 20))
    shift_mm = start.shift_mm + np.linalg.norm(start.shift_mm) * unknowns[..., 3:6]
    return np.asarray(focal_px), rotation_of(unknowns[..., :3]) @ start.rotation, shift_mm


def _cameras_at(start: Pose, unknowns: Floats) -> Floats:
    """The matrices (k, 3, 4) of the poses that (k, 6) or (k, 7) unknowns mean."""
    focal_px, rotation, shift_mm = _moved(start, unknowns)
    cameras = np.concatenate([rotation, shift_mm[..., np.newaxis]], axis=2)
    cameras[:, :2] *= focal_px[:, np.newaxis, np.newaxis]
    cameras[:, :2] += start.centre_px[:, np.newaxis] * cameras[:, 2:]
    return np.asarray(cameras)


def _fit_from(
    start: Pose, wall_mm: Floats, photo_px: Floats, focal_sigma: float | None
) -> tuple[Pose, Fitted]:
    on_wall = np.column_stack([wall_mm, np.zeros(len(wall_mm)), np.ones(len(wall_mm))])

    def off(unknowns: Floats) -> Floats:
        seen = on_wall @ _cameras_at(start, unknowns).swapaxes(1, 2)
        with np.errstate(divide="ignore", invalid="ignore"):
            apart = (seen[..., :2] / seen[..., 2:] - photo_px).reshape(len(unknowns), -1)
        # What lies behind the camera is no answer.
        apart[np.repeat(seen[..., 2] <= _NONE, 2, axis=1)] = np.inf
        return np.column_stack([apart, unknowns[:, 6] / focal_sigma]) if focal_sigma else np.asarray(apart)

    found = fit(off, np.zeros(6 if focal_sigma == 0 else 7), at_once=True)
    best = pose_at(start, found.unknowns)
    return best, found


def _tilted_back(pose: Pose, middle_mm: Floats) -> Pose:
    """The pose whose wall is tilted the other way about the line of sight to a point of it."""
    there = pose.rotation @ np.append(middle_mm, 0.0) + pose.shift_mm
    sight = there / np.linalg.norm(there)
    normal = pose.rotation[:, 2]
    axis = np.cross(normal, -sight)
    tilt = float(np.arctan2(np.linalg.norm(axis), normal @ -sight))
    length = float(np.linalg.norm(axis))
    if length < _NONE:
        return pose
    turned = rotation_of(axis / length * 2 * tilt) @ pose.rotation
    shift = there - turned @ np.append(middle_mm, 0.0)
    return Pose(focal_px=pose.focal_px, rotation=turned, shift_mm=shift, centre_px=pose.centre_px)
