"""Pictures of a taped sheet on a wall that look like photographs, made of photographs that packages ship.

No photograph of a sheet of paper on a wall is at hand, so these are put together: the wall's surface and the
framed pictures are photographs (scikit-image: brick, gravel, grass, coffee, chelsea, page; scikit-learn:
china, flower), the camera is known, and light, lens and sensor are imitated: lamps that light a part of the
wall, the sheet's own shadow, tape over its corners, print on the sheet, vignetting, blur, noise that grows
with the light, a tone curve, JPEG.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image
from skimage import data

from pycore.colour.spaces.srgb import srgb_decode, srgb_encode
from tests.pycore.wall.cameras import A4_MM, Floats, Scene, scene
from tests.shipped_photographs import shipped_photograph

SIZE_PX = (1600, 1200)


@dataclass(frozen=True)
class Shot:
    """One picture: what the wall shows, where from, and in which light."""

    wall: str
    """A photograph's name, or "" for a painted wall with the picture of gravel as its fine plaster."""
    wall_mm: float
    """How wide the photograph lies on the wall."""
    paint: tuple[float, float, float]
    """What its light is multiplied by."""
    framed: str
    lens_mm: float
    yaw_deg: float
    pitch_deg: float
    lamp_mm: tuple[float, float]
    """Where a lamp lights the wall."""
    lamp: float
    """How much brighter it makes it there."""
    tint: tuple[float, float, float]
    noise: float
    blur_px: float
    quality: int
    has_print: bool = False
    is_taped: bool = True
    lying: bool = False


SHOTS = {
    "brick, painted white": Shot(
        "brick", 900, (1.0, 0.97, 0.9), "china", 26, 22, 4, (900, 600), 0.8, (1, 0.93, 0.8), 1.6, 1.0, 82
    ),
    "brick, red, at a slant": Shot(
        "brick", 700, (0.75, 0.45, 0.36), "flower", 28, -40, 6, (-200, 800), 0.6, (1, 1, 1), 2.2, 1.3, 75
    ),
    "plaster, cold light": Shot(
        "", 500, (0.62, 0.64, 0.62), "coffee", 35, 15, -8, (200, 900), 1.2, (0.85, 0.95, 1), 1.2, 0.8, 88
    ),
    "plaster, lamp on the sheet": Shot(
        "", 400, (0.5, 0.46, 0.4), "chelsea", 26, 30, 3, (150, 250), 2.5, (1, 0.86, 0.66), 2.0, 1.2, 80
    ),
    "green wall, print on the sheet": Shot(
        "grass",
        800,
        (0.5, 0.62, 0.45),
        "china",
        50,
        -25,
        -5,
        (700, 300),
        0.5,
        (1, 0.97, 0.92),
        1.0,
        0.9,
        90,
        True,
    ),
    "gravel, dark": Shot(
        "gravel",
        1000,
        (0.4, 0.38, 0.36),
        "flower",
        30,
        35,
        10,
        (500, 900),
        1.0,
        (1, 0.95, 0.88),
        3.0,
        1.6,
        70,
    ),
    "light plaster, print, no tape": Shot(
        "",
        600,
        (0.68, 0.66, 0.6),
        "coffee",
        26,
        -18,
        2,
        (1000, 500),
        0.4,
        (1, 0.98, 0.95),
        1.5,
        1.0,
        85,
        True,
        False,
    ),
    "blue wall, lying sheet": Shot(
        "",
        450,
        (0.24, 0.32, 0.45),
        "chelsea",
        70,
        48,
        -4,
        (0, 700),
        0.9,
        (1, 0.9, 0.75),
        1.8,
        1.1,
        78,
        lying=True,
    ),
}


def photographs(*, other: bool = False) -> Iterator[tuple[str, Image.Image, Scene]]:
    """Yield each picture with its name and the camera that sees the sheet.

    `other` takes them from the other side, with the lamp elsewhere and the wall's surface larger. The first
    ones tuned how even the light inside an edge must be; the other ones judge.
    """
    for number, (name, first) in enumerate(SHOTS.items()):
        shot = first
        if other:
            lamp = (500 - first.lamp_mm[0], first.lamp_mm[1] - 200)
            yaw, pitch = -0.8 * first.yaw_deg, -first.pitch_deg
            shot = replace(first, wall_mm=1.3 * first.wall_mm, lamp_mm=lamp, yaw_deg=yaw, pitch_deg=pitch)
        one = scene(
            lens_mm=shot.lens_mm,
            yaw_deg=shot.yaw_deg,
            pitch_deg=shot.pitch_deg,
            roll_deg=1.5,
            wide_mm=1900,
            look_at_mm=(420, 220),
            size_px=SIZE_PX,
            size_mm=(A4_MM[1], A4_MM[0]) if shot.lying else A4_MM,
        )
        yield name, _developed(_light(one, shot), shot, np.random.default_rng(900 + number)), one


def _light(one: Scene, shot: Shot) -> Floats:
    """Linear light, from four samples a pixel."""
    back = np.linalg.inv(one.pose.wall_to_photo)
    width, height = SIZE_PX
    light: Floats = np.zeros((height, width, 3))
    for dx in (0.25, 0.75):
        for dy in (0.25, 0.75):
            x, y = np.meshgrid(np.arange(width) + dx, np.arange(height) + dy)
            depth = back[2, 0] * x + back[2, 1] * y + back[2, 2]
            u = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / depth
            v = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / depth
            light += 0.25 * _wall(u, v, one.size_mm, shot)
    return light


def _wall(u: Floats, v: Floats, size_mm: tuple[float, float], shot: Shot) -> Floats:
    paint = np.array(shot.paint)
    if shot.wall:
        surface = _photograph(shot.wall)
        found = _tiled(surface, u / shot.wall_mm, v / shot.wall_mm) / surface.mean() * paint * 0.9
    else:
        plaster = _photograph("gravel")
        fine = _tiled(plaster, u / shot.wall_mm, v / shot.wall_mm) / plaster.mean() - 1
        found = paint * (1 + 0.06 * fine)
    width, height = size_mm
    # A frame with a photograph to the right, at about eye height of the sheet.
    _lay(found, u, v, (560, -40, 1080, 360), np.array([0.05, 0.04, 0.03]))
    inner = (590, -10, 1050, 330)
    inside = _within(u, v, inner)
    picture = _photograph(shot.framed)
    across, down = (u[inside] - 590) / 460, (330 - v[inside]) / 340
    rows, columns = picture.shape[:2]
    found[inside] = picture[(down * rows).astype(int) % rows, (across * columns).astype(int) % columns]
    # The sheet stands off the wall by a millimetre or two: a soft line of shadow below and on the right.
    shadow = np.clip(
        1 - np.maximum(np.abs(u - width / 2 - 2) - width / 2, np.abs(v - height / 2 + 2) - height / 2) / 3,
        0,
        1,
    )
    found *= 1 - 0.35 * shadow[..., None]
    sheet = _within(u, v, (0, 0, width, height))
    found[sheet] = (0.82, 0.83, 0.85)
    if shot.has_print:
        page = _photograph("page")
        lines = _within(u, v, (25, 30, width - 25, height - 30))
        rows, columns = page.shape[:2]
        at = (
            ((height - v[lines]) / 250 * rows).astype(int) % rows,
            (u[lines] / 250 * columns).astype(int) % columns,
        )
        found[lines] *= np.clip(page[at] / np.quantile(page, 0.7), 0.1, 1)
    if shot.is_taped:
        for x in (0.0, width):
            for y in (0.0, height):
                tape = np.abs(u - x + v - y) + np.abs(u - x - v + y) * 0.4 < 16
                found[tape] = 0.55 * found[tape] + 0.45 * np.array([0.72, 0.68, 0.52])
    away = np.hypot(u - shot.lamp_mm[0], v - shot.lamp_mm[1]) / 700
    found *= np.array(shot.tint) * (0.45 + 0.3 * shot.lamp / (1 + away**2))[..., None]
    found[v < -650] = np.array([0.10, 0.08, 0.07])
    return np.asarray(found)


def _developed(light: Floats, shot: Shot, random: np.random.Generator) -> Image.Image:
    """Lens, sensor and file."""
    from tests.pycore.wall.rooms import blurred

    height, width = light.shape[:2]
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    light = blurred(light.astype(np.float32), shot.blur_px) * (1 - 0.28 * (x**2 + y**2) / 2)[..., None]
    light = light + random.normal(0, 1, light.shape) * np.sqrt(light * 0.0006 + 2e-6) * shot.noise
    # A telephone's curve: a little more contrast in the middle, soft lights.
    encoded = srgb_encode(np.clip(light, 0, 1))
    encoded = encoded + 0.06 * np.sin(2 * np.pi * (encoded - 0.5)) * encoded * (1 - encoded) * 4
    file = io.BytesIO()
    Image.fromarray(np.round(255 * np.clip(encoded, 0, 1)).astype(np.uint8)).save(
        file, "JPEG", quality=shot.quality
    )
    return Image.open(file).convert("RGB")


def _photograph(name: str) -> Floats:
    """A photograph that a package ships, in linear light."""
    if name in ("china", "flower"):
        pixels = np.asarray(Image.open(shipped_photograph(name)).convert("RGB"))
    else:
        pixels = np.asarray(Image.fromarray(getattr(data, name)()).convert("RGB"))
    return np.asarray(srgb_decode(pixels / 255.0))


def _tiled(pixels: Floats, across: Floats, down: Floats) -> Floats:
    """A photograph repeated, every other time mirrored."""
    rows, columns = pixels.shape[:2]
    x, y = (np.abs((value + 1) % 2 - 1) for value in (across, down))
    row = np.minimum((y * rows).astype(int), rows - 1)
    return np.asarray(pixels[row, np.minimum((x * columns).astype(int), columns - 1)])


def _within(
    u: Floats, v: Floats, box: tuple[float, float, float, float]
) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    left, lower, right, upper = box
    return (u >= left) & (u <= right) & (v >= lower) & (v <= upper)


def _lay(found: Floats, u: Floats, v: Floats, box: tuple[float, float, float, float], colour: Floats) -> None:
    found[_within(u, v, box)] = colour
