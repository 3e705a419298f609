"""Photographs of rooms, rendered with a known camera: wall, sheet of paper, sofa, shadows, noise, blur."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image

from pycore.colour.spaces.srgb import srgb_encode
from tests.pycore.wall.cameras import Floats, Scene


@dataclass(frozen=True)
class Room:
    """What a rendered room looks like; colours in linear light."""

    seed: int = 0
    wall: tuple[float, float, float] = (0.46, 0.43, 0.38)
    paper: tuple[float, float, float] = (0.80, 0.81, 0.83)
    light: tuple[float, float, float] = (0.9, 0.84, 0.74)
    gradient: float = 0.0
    """How much the light changes over a metre to the right."""
    texture: float = 0.0
    """Standard deviation of the wall's pattern, as a share."""
    stripes: float = 0.0
    """Depth of a wallpaper's stripes, as a share."""
    shadow: float = 0.0
    """Depth of a slanted shadow with a soft edge across the sheet, as a share."""
    things: bool = False
    """A sofa below, a dark frame with a picture to the right."""
    noise: float = 0.0
    """Standard deviation, levels of 255."""
    blur_px: float = 0.7
    quality: int = 0
    """Of the JPEG; 0: not compressed."""


def render(scene: Scene, room: Room) -> Image.Image:
    """The photograph: four samples a pixel, then blur in linear light, noise and the sRGB curve."""
    width, height = scene.size_px
    random = np.random.default_rng(room.seed)
    back = np.linalg.inv(scene.pose.wall_to_photo)
    linear: Floats = np.zeros((height, width, 3), np.float32)
    rows_at_once = 200
    patterns = random.normal(0, 1, (2, 512, 512)).astype(np.float32)
    for top in range(0, height, rows_at_once):
        rows = np.arange(top, min(top + rows_at_once, height))
        for dx in (0.25, 0.75):
            for dy in (0.25, 0.75):
                x, y = np.meshgrid(np.arange(width) + dx, rows + dy)
                linear[rows] += 0.25 * _seen(back, x, y, scene, room, patterns)
    if room.blur_px:
        linear = blurred(linear, room.blur_px)
    encoded = 255 * srgb_encode(linear.astype(np.float64))
    encoded += random.normal(0, room.noise, encoded.shape) if room.noise else 0
    image = Image.fromarray(np.clip(np.round(encoded), 0, 255).astype(np.uint8))
    if not room.quality:
        return image
    file = io.BytesIO()
    image.save(file, "JPEG", quality=room.quality)
    return Image.open(file).convert("RGB")


def _seen(back: Floats, x: Floats, y: Floats, scene: Scene, room: Room, patterns: Floats) -> Floats:
    depth = back[2, 0] * x + back[2, 1] * y + back[2, 2]
    u = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / depth
    v = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / depth
    albedo = np.empty((*u.shape, 3), np.float32)
    albedo[:] = room.wall
    if room.texture:
        grain = patterns[0][(v / 9).astype(int) % 512, (u / 9).astype(int) % 512]
        grain = grain + patterns[1][(v / 40).astype(int) % 512, (u / 40).astype(int) % 512]
        albedo *= (1 + 0.7 * room.texture * grain)[..., None]
    if room.stripes:
        albedo *= (1 - room.stripes * ((u % 120) < 60))[..., None]
    if room.things:
        albedo[v < -520] = (0.10, 0.14, 0.20)
        frame = (u > 700) & (u < 1300) & (v > 100) & (v < 560)
        albedo[frame] = (0.03, 0.02, 0.02)
        inner = (u > 730) & (u < 1270) & (v > 130) & (v < 530)
        albedo[inner] = np.stack([0.3 + 0.2 * np.sin(u / 50), 0.4 + 0.2 * np.cos(v / 40), 0.5 + 0 * u], -1)[
            inner
        ]
    sheet_width, sheet_height = scene.size_mm
    sheet = (u >= 0) & (u <= sheet_width) & (v >= 0) & (v <= sheet_height)
    albedo[sheet] = room.paper
    bright = np.clip(1 + room.gradient * u / 1000, 0.2, 1.8)
    if room.shadow:
        across = (u - sheet_width * 0.55) + 0.5 * (v - sheet_height * 0.5)
        bright = bright * (1 - room.shadow / (1 + np.exp(-across / 12)))
    return np.asarray(albedo * np.array(room.light, np.float32) * bright[..., None], np.float32)


def blurred(linear: Floats, sigma_px: float) -> Floats:
    """Blur by a normal distribution."""
    reach = int(np.ceil(3 * sigma_px))
    steps = np.arange(-reach, reach + 1)
    kernel = np.exp(-0.5 * (steps / sigma_px) ** 2)
    kernel = (kernel / kernel.sum()).astype(np.float32)
    for axis in (0, 1):
        padding = [(reach, reach) if one == axis else (0, 0) for one in range(3)]
        padded = np.pad(linear, padding, mode="edge")
        length = linear.shape[axis]
        linear = np.asarray(
            sum(
                weight * np.take(padded, range(step, step + length), axis=axis)
                for step, weight in enumerate(kernel)
            ),
            np.float32,
        )
    return linear


def random_room(random: np.random.Generator) -> Room:
    """A room as a telephone might see it."""
    shade = random.uniform(0.12, 0.62)
    tint = 1 + random.uniform(-0.15, 0.15, 3)
    wall = tuple(float(one) for one in np.clip(shade * tint, 0.05, 0.68))
    warm = random.uniform(-0.15, 0.15)
    level = random.uniform(0.45, 1.0)
    return Room(
        seed=int(random.integers(1 << 30)),
        wall=(wall[0], wall[1], wall[2]),
        light=(level * (1 + warm), level, level * (1 - warm)),
        gradient=float(random.uniform(-0.3, 0.3)),
        texture=float(random.choice([0.0, 0.02, 0.06])),
        stripes=float(random.choice([0.0, 0.0, 0.25])),
        shadow=float(random.choice([0.0, 0.0, 0.3, 0.5])),
        things=bool(random.random() < 0.7),
        noise=float(random.uniform(0.5, 5)),
        blur_px=float(random.uniform(0.5, 2.2)),
        quality=int(random.choice([60, 80, 92])),
    )
