"""Cameras that are known exactly, and the sheets of paper that they see."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.wall.pose import Pose, rotation_of

Floats = NDArray[np.floating[Any]]

A4_MM = (210.0, 297.0)


@dataclass(frozen=True)
class Scene:
    """A camera, the photograph's size, and a sheet's corners: upper left, then clockwise."""

    pose: Pose
    size_px: tuple[int, int]
    size_mm: tuple[float, float]

    @property
    def wall_mm(self) -> Floats:
        width, height = self.size_mm
        return np.array([[0, height], [width, height], [width, 0], [0, 0]])

    @property
    def corners_px(self) -> Floats:
        return self.seen(np.column_stack([self.wall_mm, np.zeros(4)]))

    def seen(self, points_mm: Floats) -> Floats:
        """Points (x, y, z) in the photograph."""
        out = np.column_stack([points_mm, np.ones(len(points_mm))]) @ self.pose.camera.T
        return np.asarray(out[:, :2] / out[:, 2:])


def focal_px(lens_mm: float, size_px: tuple[int, int]) -> float:
    """Of a lens as on 36 x 24 mm, by the diagonal."""
    return float(lens_mm / np.hypot(36, 24) * np.hypot(*size_px))


def scene(
    *,
    lens_mm: float,
    yaw_deg: float,
    pitch_deg: float = 0.0,
    roll_deg: float = 0.0,
    wide_mm: float = 2400.0,
    look_at_mm: tuple[float, float] = (600.0, 500.0),
    size_px: tuple[int, int] = (4000, 3000),
    size_mm: tuple[float, float] = A4_MM,
) -> Scene:
    """A camera that looks at a point of the wall, as far away as makes `wide_mm` of it fill the width."""
    focal = focal_px(lens_mm, size_px)
    facing = rotation_of(np.array([np.pi, 0, 0]))
    yaw, pitch, roll = np.radians([yaw_deg, pitch_deg, roll_deg])
    turn = (
        rotation_of(np.array([0, 0, roll]))
        @ rotation_of(np.array([pitch, 0, 0]))
        @ rotation_of(np.array([0, yaw, 0]))
        @ facing
    )
    far = wide_mm * focal / size_px[0]
    shift = np.array([0, 0, far]) - turn @ np.array([*look_at_mm, 0])
    pose = Pose(focal_px=focal, rotation=turn, shift_mm=shift, centre_px=np.array(size_px) / 2)
    return Scene(pose=pose, size_px=size_px, size_mm=size_mm)


def random_scene(random: np.random.Generator) -> Scene:
    """A camera 10 to 55 degrees off the wall's normal with a lens of 24 to 85 mm."""
    off, way = random.uniform(10, 55), random.uniform(0, 2 * np.pi)
    return scene(
        lens_mm=random.uniform(24, 85),
        yaw_deg=float(off * np.cos(way)),
        pitch_deg=float(off * np.sin(way)),
        roll_deg=random.uniform(-4, 4),
        wide_mm=random.uniform(1500, 3000),
        look_at_mm=(random.uniform(0, 800), random.uniform(0, 800)),
    )
