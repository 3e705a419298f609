"""The wall of a photograph: its homography, the camera, and how sure both are."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final, NamedTuple

import numpy as np

from pycore.contract.record import Pair
from pycore.wall.corners import no_rectangle
from pycore.wall.homography import centring, eight_of, from_eight, homography, mapped
from pycore.wall.least_squares import Fitted, Floats, derivatives, fit
from pycore.wall.pose import Pose, fit_pose, focal_from_plane, pose_at, pose_from_plane

#: Standard deviation of a marked corner, each way; the uncertainty is stated for it.
CORNER_SIGMA_PX: Final = 1.0
#: Derived: the normal distribution's two-sided 95 percent.
_WITHIN_95: Final = 1.959964
#: How well a file's focal length is known, as a share: it is rounded to whole mm, is of the far focus, and
#: makers count it by the width or by the diagonal. Common practice (from memory).
_FILED_SIGMA: Final = 0.03
#: A filed length that the corners move by more standard deviations belongs to another picture.
_MOST_MOVED: Final = 3.0
#: Common practice (from memory): a telephone's main lens, about as 26 mm on 36 x 24 mm.
USUAL_LENS_MM: Final = 26.0
#: With a focal length less sure than this, as a share for a pixel of corner error, the view is too frontal to
#: tell it. Corners that are found are sure within 0.3 pixels; then the guess of a usual lens is worse up to
#: here, since lenses differ by some 40 percent.
_TOO_FRONTAL: Final = 1.2
#: With a focal length surer than this the corners must be those of a camera's rectangle: one unknown less
#: makes size and place surer. Above it, a fit to noisy corners may run away to a lens that nobody has.
_SURE: Final = 0.3
#: Lenses from 12 to 400 mm on 36 x 24 mm, in units of the photograph's diagonal.
_LEAST_FOCAL, _MOST_FOCAL = 0.28, 9.2
#: Corners may miss a rectangle by so many pixels, or by this share of the reference's mean edge.
_MISS_PX, _MISS_SHARE = 4.0, 0.02

#: Derived: the diagonal of 36 x 24 mm.
FULL_FRAME_DIAGONAL_MM: Final = float(np.hypot(36, 24))


class FocalFrom(StrEnum):
    """Where a focal length is known from."""

    EXIF = "exif"
    PERSPECTIVE = "perspective"
    USUAL = "usual"


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Marked:
    """A reference with its size and its corners.

    Attributes
    ----------
    size_mm : (float, float)
        Width and height.
    corners_px : (4, 2) float64
        Upper left, upper right, lower right, lower left.
    """

    size_mm: Pair
    corners_px: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WallFit:
    """What a photograph tells of its wall.

    Attributes
    ----------
    wall_to_photo : (3, 3) float64
        The homography from mm on the wall (x right, y up, from the first reference's lower-left corner) to
        pixels of the upright photograph from its upper-left corner; its last element is 1.
    camera : (3, 4) float64
        The same with z mm in front of the wall as the third coordinate.
    pose : Pose
    focal_from : FocalFrom
    miss_px : float
        Root mean square distance from the marked corners to the fitted ones of a camera.
    unknowns : (n,) float64
    covariance : (n, n) float64
        Of the unknowns, for a standard deviation of one pixel of each corner.
    plane : callable
        The homography of some unknowns.
    """

    wall_to_photo: Floats
    camera: Floats
    pose: Pose
    focal_from: FocalFrom
    miss_px: float
    unknowns: Floats
    covariance: Floats
    plane: Callable[[Floats], Floats]

    def size_within_mm(self, centre_mm: Pair, size_mm: Pair) -> Pair:
        """How sure the width and height of something on the wall are: 95 of 100 times within.

        Parameters
        ----------
        centre_mm, size_mm : (float, float)
            On the wall.

        Returns
        -------
        tuple of float
            mm, to either side.
        """
        across, down = size_mm[0] / 2, size_mm[1] / 2
        ends = np.array(centre_mm) + np.array([[-across, 0], [across, 0], [0, -down], [0, down]])
        drawn = mapped(self.wall_to_photo, ends)

        def sizes(unknowns: Floats) -> Floats:
            left, right, lower, upper = mapped(np.linalg.inv(self.plane(unknowns)), drawn)
            return np.array([np.linalg.norm(right - left), np.linalg.norm(upper - lower)])

        slope = derivatives(sizes, self.unknowns)
        within = _WITHIN_95 * np.sqrt(np.diag(slope @ self.covariance @ slope.T))
        return float(within[0]), float(within[1])


def usual_focal_px(size_px: tuple[int, int]) -> float:
    """The focal length of a usual lens.

    Parameters
    ----------
    size_px : (int, int)
        Width and height of the upright photograph.

    Returns
    -------
    float
        Pixels.

    Examples
    --------
    >>> round(usual_focal_px((3600, 2400)))
    2600
    """
    return USUAL_LENS_MM / FULL_FRAME_DIAGONAL_MM * float(np.hypot(*size_px))


def fit_wall(
    references: Sequence[Marked], *, size_px: tuple[int, int], filed_focal_px: float | None
) -> WallFit:
    """Fit the wall and the camera to marked references.

    The camera's pose is fitted. A filed focal length may move by what it is unsure of; without one it is the
    one by which the references are rectangles. Where the view is too frontal to tell it surely, the plane's
    homography is free of it. Further references have a place and a direction of their own on the wall; all
    are fitted together.

    Parameters
    ----------
    references : sequence of Marked
        At least one; the first one gives the origin and the axes.
    size_px : (int, int)
        Width and height of the upright photograph.
    filed_focal_px : float or None
        From the file.

    Returns
    -------
    WallFit

    Raises
    ------
    FieldError
        No camera sees rectangles of these sizes at these corners.
    """
    plain = _fit_plane(references)
    most_miss = max(_MISS_PX, _MISS_SHARE * _mean_edge(references))
    if filed_focal_px is not None:
        found = _fit_filed(references, plain, size_px=size_px, focal_px=filed_focal_px)
        moved = abs(float(np.log(found.pose.focal_px / filed_focal_px)))
        if found.miss_px <= most_miss and moved <= _MOST_MOVED * _FILED_SIGMA:
            return found
    seen = _fit_seen(references, plain, size_px=size_px)
    miss = _rms(seen.fitted.residuals)
    if miss > most_miss:
        raise no_rectangle(miss)
    if seen.focal_from is FocalFrom.PERSPECTIVE and seen.focal_sigma <= _SURE:
        return _fit_camera(references, plain, seen.pose, None)
    free = plain.free
    own = pose_from_plane(free, seen.pose.focal_px, _centre(size_px))
    return WallFit(
        wall_to_photo=free / free[2, 2],
        camera=_lifted(free, own),
        pose=own,
        focal_from=seen.focal_from,
        miss_px=miss,
        unknowns=plain.unknowns,
        covariance=plain.fitted.covariance * CORNER_SIGMA_PX**2,
        plane=plain.plane,
    )


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class _Plain:
    """A free homography and the further references' places."""

    fitted: Fitted
    plane: Callable[[Floats], Floats]
    layout: Callable[[Floats], Floats]

    @property
    def unknowns(self) -> Floats:
        return self.fitted.unknowns

    @property
    def free(self) -> Floats:
        """The homography."""
        return self.plane(self.unknowns)

    @property
    def points(self) -> Floats:
        """All references' corners on the wall."""
        return self.layout(self.unknowns[8:])


class _Seen(NamedTuple):
    """A pose by the corners alone, and where its focal length is from."""

    pose: Pose
    fitted: Fitted
    focal_from: FocalFrom

    @property
    def focal_sigma(self) -> float:
        """Of the focal length, as a share, for a pixel of corner error."""
        return float(np.sqrt(self.fitted.covariance[6, 6]))


def _fit_filed(
    references: Sequence[Marked], plain: _Plain, *, size_px: tuple[int, int], focal_px: float
) -> WallFit:
    begun = pose_from_plane(plain.free, focal_px, _centre(size_px))
    pose, _ = fit_pose(plain.points, _corners(references), begun, focal_sigma=_FILED_SIGMA)
    return _fit_camera(references, plain, pose, focal_px)


def _fit_seen(references: Sequence[Marked], plain: _Plain, *, size_px: tuple[int, int]) -> _Seen:
    centre, usual = _centre(size_px), usual_focal_px(size_px)
    points, corners = plain.points, _corners(references)
    guess = focal_from_plane(plain.free, centre)
    begun = pose_from_plane(plain.free, guess if _is_real(guess, size_px) else usual, centre)
    found = _Seen(*fit_pose(points, corners, begun, focal_sigma=None), FocalFrom.PERSPECTIVE)
    if _is_real(found.pose.focal_px, size_px) and found.focal_sigma <= _TOO_FRONTAL:
        return found
    begun = pose_from_plane(plain.free, usual, centre)
    return _Seen(*fit_pose(points, corners, begun), FocalFrom.USUAL)


def _is_real(focal_px: float, size_px: tuple[int, int]) -> bool:
    """Whether a lens of that focal length exists."""
    diagonal = float(np.hypot(*size_px))
    return _LEAST_FOCAL * diagonal < focal_px < _MOST_FOCAL * diagonal


def _centre(size_px: tuple[int, int]) -> Floats:
    return np.array(size_px, np.float64) / 2


def _corners(references: Sequence[Marked]) -> Floats:
    return np.concatenate([one.corners_px for one in references])


def _fit_plane(references: Sequence[Marked]) -> _Plain:
    first = references[0]
    before, after = centring(_rectangle(first.size_mm)), centring(first.corners_px)
    corners = _corners(references)
    layout = _layout_of(references)
    begun = homography(_rectangle(first.size_mm), first.corners_px)
    back = np.linalg.inv(begun)
    places = [_place_of(mapped(back, one.corners_px), one, first.size_mm[0]) for one in references[1:]]

    def plane(unknowns: Floats) -> Floats:
        return np.asarray(np.linalg.solve(after, from_eight(unknowns[:8]) @ before))

    def off(unknowns: Floats) -> Floats:
        return np.asarray((mapped(plane(unknowns), layout(unknowns[8:])) - corners).ravel())

    start = np.concatenate([eight_of(after @ begun @ np.linalg.inv(before)), *places])
    return _Plain(fitted=fit(off, start), plane=plane, layout=layout)


def _fit_camera(
    references: Sequence[Marked], plain: _Plain, pose: Pose, filed_focal_px: float | None
) -> WallFit:
    corners = _corners(references)

    def plane(unknowns: Floats) -> Floats:
        return pose_at(pose, unknowns[:7]).wall_to_photo

    def off(unknowns: Floats) -> Floats:
        apart = np.asarray((mapped(plane(unknowns), plain.layout(unknowns[7:])) - corners).ravel())
        if filed_focal_px is None:
            return apart
        return np.append(apart, (np.log(pose.focal_px / filed_focal_px) + unknowns[6]) / _FILED_SIGMA)

    fitted = fit(off, np.concatenate([np.zeros(7), plain.unknowns[8:]]))
    found = pose_at(pose, fitted.unknowns[:7])
    return WallFit(
        wall_to_photo=found.wall_to_photo / found.wall_to_photo[2, 2],
        camera=found.camera / found.wall_to_photo[2, 2],
        pose=found,
        focal_from=FocalFrom.PERSPECTIVE if filed_focal_px is None else FocalFrom.EXIF,
        miss_px=_rms(fitted.residuals[: corners.size]),
        unknowns=fitted.unknowns,
        covariance=fitted.covariance,
        plane=plane,
    )


def _lifted(plane: Floats, pose: Pose) -> Floats:
    """A camera whose plane z = 0 is exactly the homography, and whose third axis is the pose's."""
    scaled = plane / plane[2, 2]
    third = pose.camera[:, 2] / pose.shift_mm[2]
    return np.column_stack([scaled[:, 0], scaled[:, 1], third, scaled[:, 2]])


def _rectangle(size_mm: Pair) -> Floats:
    width, height = size_mm
    return np.array([[0, height], [width, height], [width, 0], [0, 0]], np.float64)


def _layout_of(references: Sequence[Marked]) -> Callable[[Floats], Floats]:
    """All corners on the wall by the further references' places: x, y in the first one's widths, turn."""
    unit = references[0].size_mm[0]

    def layout(places: Floats) -> Floats:
        found = [_rectangle(references[0].size_mm)]
        for (x, y, turn), one in zip(places.reshape(-1, 3), references[1:], strict=True):
            axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
            found.append(_rectangle(one.size_mm) @ axes + unit * np.array([x, y]))
        return np.concatenate(found)

    return layout


def _place_of(on_wall: Floats, one: Marked, unit: float) -> Floats:
    """Where a further reference lies, by its corners as the first one's homography finds them on the wall."""
    own = _rectangle(one.size_mm)
    here, there = own - own.mean(axis=0), on_wall - on_wall.mean(axis=0)
    # The turn of least squares between two centred figures.
    turn = np.arctan2((here[:, 0] * there[:, 1] - here[:, 1] * there[:, 0]).sum(), (here * there).sum())
    axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    x, y = (on_wall.mean(axis=0) - own.mean(axis=0) @ axes) / unit
    return np.array([x, y, turn])


def _mean_edge(references: Sequence[Marked]) -> float:
    edges = [np.roll(one.corners_px, -1, axis=0) - one.corners_px for one in references]
    return float(np.linalg.norm(np.concatenate(edges), axis=1).mean())


def _rms(residuals: Floats) -> float:
    """Root mean square distance of points by the residuals of their two coordinates."""
    return float(np.sqrt((residuals**2).sum() / (len(residuals) // 2)))
