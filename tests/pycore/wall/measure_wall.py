"""The full figures of the wall, on 1,000 random cameras; takes minutes.

Prints how OpenCV and this core differ on exact and on noisy corners, how often the stated uncertainty holds
the truth, and the size and place of a piece by exact corners.

    python tests/pycore/wall/measure_wall.py [1000]
"""

from __future__ import annotations

import sys
from pathlib import Path

import cv2
import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[3]))

from pycore.wall.fit_wall import Marked, fit_wall
from pycore.wall.homography import homography, mapped
from pycore.wall.pose import fit_pose, pose_from_plane
from tests.pycore.wall.cameras import Floats, Scene, random_scene

CENTRE, SIZE = (700.0, 500.0), (300.0, 200.0)
ENDS = np.array(CENTRE) + np.array([[-SIZE[0] / 2, 0], [SIZE[0] / 2, 0]])


def opencv_pose(one: Scene, corners: Floats) -> Floats:
    """The place of the wall's origin by OpenCV."""
    focal, (wide, high) = one.pose.focal_px, one.size_px
    inner = np.array([[focal, 0, wide / 2], [0, focal, high / 2], [0, 0, 1]])
    plane = np.column_stack([one.wall_mm, np.zeros(4)])
    _, _, shift = cv2.solvePnP(plane, corners, inner, None, flags=cv2.SOLVEPNP_ITERATIVE)
    return np.asarray(shift[:, 0], float)


def opencv_focal(one: Scene, corners: Floats) -> float:
    """The focal length by OpenCV, with square pixels and without distortion, from 26 mm on."""
    wide, high = one.size_px
    start = np.hypot(wide, high) * 26 / np.hypot(36, 24)
    inner = np.array([[start, 0, wide / 2], [0, start, high / 2], [0, 0, 1]])
    fixed = cv2.CALIB_USE_INTRINSIC_GUESS | cv2.CALIB_FIX_PRINCIPAL_POINT | cv2.CALIB_FIX_ASPECT_RATIO
    fixed |= cv2.CALIB_ZERO_TANGENT_DIST | cv2.CALIB_FIX_K1 | cv2.CALIB_FIX_K2 | cv2.CALIB_FIX_K3
    plane = np.column_stack([one.wall_mm, np.zeros(4)]).astype(np.float32)
    found = cv2.calibrateCamera(
        [plane], [corners.astype(np.float32)[:, None]], (wide, high), inner, None, flags=fixed
    )
    return float(found[1][0, 0])


def main(cameras: int) -> None:
    """Print the figures."""
    random = np.random.default_rng(11)
    plane, focal = [], []
    place: list[float] = []
    ours: list[float] = []
    theirs: list[float] = []
    held, sizes, fronts = [0, 0], [], []
    for number in range(cameras):
        one = random_scene(np.random.default_rng(50_000 + number))
        exact, true = one.corners_px, one.pose.wall_to_photo / one.pose.wall_to_photo[2, 2]
        found = homography(one.wall_mm, exact)
        cv = np.asarray(cv2.findHomography(one.wall_mm, exact)[0], float)
        plane.append(np.abs(found - cv).max() / np.abs(cv).max())
        noisy = exact + random.normal(0, 1, (4, 2))
        for corners, into in ((exact, place), (noisy, ours)):
            begun = pose_from_plane(homography(one.wall_mm, corners), one.pose.focal_px, one.pose.centre_px)
            pose, _ = fit_pose(one.wall_mm, corners, begun)
            to = opencv_pose(one, corners) if into is place else one.pose.shift_mm
            into.append(float(np.linalg.norm(pose.shift_mm - to) / np.linalg.norm(to)))
        far = one.pose.shift_mm
        theirs.append(float(np.linalg.norm(opencv_pose(one, noisy) - far) / np.linalg.norm(far)))
        back = np.linalg.inv(true)
        for way, filed in enumerate((None, one.pose.focal_px * float(np.exp(random.normal(0, 0.03))))):
            fitted = fit_wall(
                [Marked(size_mm=one.size_mm, corners_px=noisy)], size_px=one.size_px, filed_focal_px=filed
            )
            left, right = mapped(back, mapped(fitted.wall_to_photo, ENDS))
            off = abs(float(np.linalg.norm(right - left)) - SIZE[0])
            held[way] += off <= fitted.size_within_mm(CENTRE, SIZE)[0]
        fitted = fit_wall(
            [Marked(size_mm=one.size_mm, corners_px=exact)], size_px=one.size_px, filed_focal_px=None
        )
        left, right = mapped(back, mapped(fitted.wall_to_photo, ENDS))
        sizes.append(abs(float(np.linalg.norm(right - left)) / SIZE[0] - 1))
        front = np.array([[CENTRE[0] + 150, CENTRE[1] + 100, 38.0, 1.0]])
        seen = front @ fitted.camera.T
        fronts.append(np.linalg.norm((seen[:, :2] / seen[:, 2:])[0] - one.seen(front[:, :3])[0]))
        if number % 10 == 0:
            try:
                cv_focal = opencv_focal(one, exact)
                focal.append((fitted.pose.focal_px / one.pose.focal_px, cv_focal / one.pose.focal_px))
            except cv2.error:
                focal.append((fitted.pose.focal_px / one.pose.focal_px, np.nan))
    print(f"{cameras} cameras")
    print(f"exact: homography differs from findHomography by {max(plane):.1e} at most")
    print(f"exact: place differs from solvePnP by median {np.median(place):.1e}, worst {max(place):.1e}")
    print(f"noisy: place off by rms {rms(ours):.4f} here, {rms(theirs):.4f} by solvePnP")
    print(f"noisy: median {np.median(ours):.5f} here, {np.median(theirs):.5f} by solvePnP")
    print(f"uncertainty holds: {held[0] / cameras:.1%} without, {held[1] / cameras:.1%} with a filed length")
    print(f"exact corners, no filed length: size off by {max(sizes):.2%} at most")
    print(f"front corner off by median {np.median(fronts):.4f}, worst {max(fronts):.3f} pixels")
    both = np.abs(np.log(np.array(focal)))
    print(f"focal length: median off {np.median(both[:, 0]):.1e} here, {np.nanmedian(both[:, 1]):.1e} OpenCV")


def rms(values: list[float]) -> float:
    """Root mean square."""
    return float(np.sqrt(np.mean(np.square(values))))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
