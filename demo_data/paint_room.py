"""Render the room of the documents: a wall over a sofa with a sheet of A4 taped to it, by a telephone.

The camera is known exactly, so that what is measured in the picture can be compared with it. Everything is
made up, by numpy alone, from one seed.

Run `python3 demo_data/paint_room.py [--out FILE] [--scale SHARE]` to write `demo_data/room.jpg` again, which
takes minutes; it prints the sheet's corners.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

import numpy as np
from noise import fractal
from numpy.typing import NDArray
from PIL import Image
from sofa import Field, hit, lit_share, nearest, normals, open_share, sofa

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from pycore.colour.spaces.srgb import srgb_encode
from pycore.wall.fit_wall import FULL_FRAME_DIAGONAL_MM
from pycore.wall.pose import Pose, rotation_of

Floats = NDArray[np.floating[Any]]

SIZE_PX = (1200, 900)
LENS_MM = 26  # As on 36 x 24 mm.
SHEET_MM = (210.0, 297.0)
FLOOR_MM = -1120.0
SOFA_MM = (-260.0, 1560.0)
#: Pixels that differ so much from a neighbour, in linear light, are sampled at more places.
EDGE = 0.03
PLACES = ((0.125, 0.625), (0.375, 0.125), (0.625, 0.875), (0.875, 0.375))
EXPOSURE = 0.82

WALL, PAPER = (0.47, 0.45, 0.40), (0.80, 0.81, 0.83)
KEY, FILL = np.array([1.02, 0.93, 0.80]), np.array([0.36, 0.39, 0.44])
#: To the window: from the left, above and in front.
TO_WINDOW = np.array([-0.52, 0.50, 0.69])
SEED = 20310430
BLOCKS = sofa(*SOFA_MM, FLOOR_MM)


def camera(scale: float = 1.0) -> Pose:
    """The camera: at eye height, right of the sofa's middle, looking slightly down and to the left.

    Parameters
    ----------
    scale : float, optional
        The share of the picture's width and height.

    Returns
    -------
    Pose
    """
    size = np.round(np.array(SIZE_PX) * scale)
    focal = LENS_MM / FULL_FRAME_DIAGONAL_MM * float(np.hypot(*size))
    facing = rotation_of(np.array([np.pi, 0, 0]))
    yaw, pitch, roll = np.radians([13.0, 3.0, 0.6])
    turn = (
        rotation_of(np.array([0, 0, roll]))
        @ rotation_of(np.array([pitch, 0, 0]))
        @ rotation_of(np.array([0, yaw, 0]))
        @ facing
    )
    far = 2300 * focal / float(size[0])
    look_at = np.array([580.0, 10.0, 0.0])
    shift = np.array([0, 0, far]) - turn @ look_at
    return Pose(focal_px=focal, rotation=turn, shift_mm=shift, centre_px=size / 2)


def render(pose: Pose) -> Floats:
    """Linear light of every pixel, (rows, columns, 3)."""
    width, height = (int(2 * one) for one in pose.centre_px)
    field = nearest(BLOCKS)
    columns, rows = (one.ravel() for one in np.meshgrid(np.arange(width), np.arange(height)))
    pixels = np.stack([columns, rows], axis=1)
    light = seen(pose, pixels + 0.5, field)
    fine = np.flatnonzero(_changes(light.reshape(height, width, 3)).ravel())
    light[fine] = sum(seen(pose, pixels[fine] + np.array(place), field) for place in PLACES) / len(PLACES)
    return EXPOSURE * light.reshape(height, width, 3)


def _changes(light: Floats) -> NDArray[np.bool_]:
    """Where a pixel differs from one of its neighbours."""
    padded = np.pad(light.mean(axis=2), 1, mode="edge")
    windows = np.lib.stride_tricks.sliding_window_view(padded, (3, 3))
    return np.asarray(windows.max(axis=(2, 3)) - windows.min(axis=(2, 3)) > EDGE)


def seen(pose: Pose, at: Floats, field: Field) -> Floats:
    """Linear light at places of the photograph (n, 2)."""
    eye = -pose.rotation.T @ pose.shift_mm
    own = np.column_stack([(at - pose.centre_px) / pose.focal_px, np.ones(len(at))])
    ways = own @ pose.rotation
    ways /= np.linalg.norm(ways, axis=1, keepdims=True)
    far = np.where(ways[:, 2] < 0, -eye[2] / np.minimum(ways[:, 2], -1e-6), 1e9)
    starts = np.broadcast_to(eye.astype(np.float32), ways.shape)
    on_wall = eye + far[:, None] * ways
    light = wall_light(on_wall, field)
    # What lies well over the sofa's back meets none of it.
    low = np.flatnonzero(on_wall[:, 1] < FLOOR_MM + 1300)
    along = hit(field, starts[low], ways[low].astype(np.float32), far=far[low].astype(np.float32))
    met = np.isfinite(along)
    places = (starts[low][met] + along[met, None] * ways[low][met]).astype(np.float32)
    light[low[met]] = cloth_light(places, field)
    return light


def wall_light(at: Floats, field: Field) -> Floats:
    """The plastered wall with its sheet, in the window's light and the sofa's shadow."""
    x, y = at[:, 0], at[:, 1]
    grain = fractal(x / 26, y / 26, octaves=4, rng=np.random.default_rng(SEED + 1))
    albedo = np.array(WALL) * (0.975 + 0.05 * grain)[:, None]
    sheet = (x >= 0) & (x <= SHEET_MM[0]) & (y >= 0) & (y <= SHEET_MM[1])
    albedo[sheet] = PAPER
    for corner in ((8, 8), (202, 8), (8, 289), (202, 289)):
        tape = (np.abs(x - corner[0]) < 17) & (np.abs(y - corner[1]) < 9)
        albedo[tape] = 0.72 * albedo[tape] + 0.28 * np.array([0.72, 0.66, 0.50])
    away = np.zeros_like(at, np.float32)
    away[:, 2] = 1
    near = np.flatnonzero(y < FLOOR_MM + 1450)
    key, sky = np.ones(len(at), np.float32), np.ones(len(at), np.float32)
    places = at[near].astype(np.float32)
    key[near] = lit_share(field, places, TO_WINDOW.astype(np.float32), softness=2.2)
    sky[near] = open_share(field, places, away[near])
    # The window is near: its light falls off along the wall.
    fall = 1 / (1 + ((x + 900) / 3600) ** 2 + ((y - 300) / 4200) ** 2)
    return np.asarray(albedo * (0.86 * KEY * (key * fall)[:, None] + FILL * sky[:, None]), np.float32)


def cloth_light(at: Floats, field: Field) -> Floats:
    """The sofa's cloth: woven, soft towards its edges."""
    apart = np.stack([one.distance(at) for one in BLOCKS])
    cloth = np.array([one.cloth for one in BLOCKS])[apart.argmin(axis=0)]
    away = normals(field, at)
    weave = fractal(at[:, 0] / 5, (at[:, 1] + at[:, 2]) / 5, octaves=2, rng=np.random.default_rng(SEED + 2))
    cloth = cloth * (0.86 + 0.28 * weave)[:, None]
    facing = np.clip(away @ TO_WINDOW, 0, 1)
    # Light reaches a little round the edge of cloth.
    soft = np.clip((away @ TO_WINDOW + 0.25) / 1.25, 0, 1)
    arrives = lit_share(field, at + 3 * away, TO_WINDOW.astype(np.float32), softness=3.0)
    key = (0.6 * facing + 0.4 * soft) * arrives
    sky = open_share(field, at, away) * (0.62 + 0.38 * away[:, 1])
    fall = 1 / (1 + ((at[:, 0] + 900) / 3600) ** 2)
    return np.asarray(cloth * (1.5 * KEY * (key * fall)[:, None] + 1.1 * FILL * sky[:, None]), np.float32)


def developed(light: Floats) -> Image.Image:
    """Lens and sensor: a little darker towards the corners, a little blur and noise."""
    height, width = light.shape[:2]
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    light = light * (1 - 0.10 * (x**2 + y**2) / 2)[..., None]
    padded = np.pad(light, ((1, 1), (1, 1), (0, 0)), mode="edge")
    rows = 0.12 * padded[:-2] + 0.76 * padded[1:-1] + 0.12 * padded[2:]
    light = 0.12 * rows[:, :-2] + 0.76 * rows[:, 1:-1] + 0.12 * rows[:, 2:]
    encoded = 255 * srgb_encode(np.clip(light, 0, 1).astype(np.float64))
    encoded += np.random.default_rng(SEED).normal(0, 0.9, encoded.shape)
    return Image.fromarray(np.clip(np.round(encoded), 0, 255).astype(np.uint8))


def main() -> None:
    """Write the photograph, with the lens in the file as a camera writes it."""
    parser = argparse.ArgumentParser(description="Render the room of the documents.")
    parser.add_argument("--out", type=Path, default=Path(__file__).with_name("room.jpg"))
    parser.add_argument("--scale", type=float, default=1.0, help="of width and height (default: %(default)s)")
    given = parser.parse_args()
    pose = camera(given.scale)
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA405] = LENS_MM
    developed(render(pose)).save(given.out, quality=88, exif=exif)
    width, height = SHEET_MM
    sheet = np.array([[0, height, 0, 1], [width, height, 0, 1], [width, 0, 0, 1], [0, 0, 0, 1]])
    corners = sheet @ pose.camera.T
    print("the sheet's corners:", np.round(corners[:, :2] / corners[:, 2:], 1).tolist())


if __name__ == "__main__":
    main()
