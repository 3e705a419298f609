"""Paint the demo picture: tulip fields above an invented estuary at dusk.

Everything in it is made up and drawn by this script with numpy and Pillow, from one seed, so that the same
file comes out each time with the pinned versions. Saturated reds, magentas and oranges reach the edges, where
a matte canvas loses colour first, and flowers stand close to the front edges, so that each side fill shows.

Run `python3 demo_data/paint.py` to write `demo_data/estuary.jpg` again.
"""

from __future__ import annotations

import argparse
from pathlib import Path

import numpy as np
from field import paint_field
from noise import fractal, smooth_step
from numpy.typing import NDArray
from PIL import Image, ImageCms
from water import paint_boats, paint_water

Pixels = NDArray[np.float32]

PAINTED_PX = (2400, 1800)
SIZE_PX = (1600, 1200)  # Enough for its face at wall distance, and quickly opened at the page's start.
SEED = 20240519
HORIZON = 0.415  # of the height, from the top
SUN = (0.655, 0.385)  # of width and height


def paint_sky(width: int, height: int, rng: np.random.Generator) -> Pixels:
    """The sky down to where the water begins, in linear light.

    Parameters
    ----------
    width, height : int
        Pixels of the picture.
    rng : numpy.random.Generator
        Where the clouds come from.

    Returns
    -------
    ndarray
        (height, width, 3), float32, rgb_linear; 0 from the horizon down.
    """
    y, x = np.mgrid[0 : round(HORIZON * height), 0:width].astype(np.float32)
    up = np.clip(1 - y / (HORIZON * height), 0, 1)  # 0 at the horizon, 1 at the top
    stops = np.array([0.0, 0.10, 0.30, 0.58, 1.0])
    colours = np.array(
        [[1.00, 0.58, 0.20], [0.98, 0.42, 0.16], [0.62, 0.25, 0.22], [0.16, 0.14, 0.28], [0.035, 0.065, 0.20]]
    )
    sky = np.stack([np.interp(up, stops, colours[:, c]) for c in range(3)], axis=2)

    away = np.hypot((x / width - SUN[0]) * 1.25, y / height - SUN[1])
    glow = np.exp(-((away / 0.17) ** 1.2))[..., None]
    sky = sky + glow * np.array([1.0, 0.52, 0.14])
    disc = smooth_step(0.0215, 0.0185, np.hypot((x / width - SUN[0]) * width / height, y / height - SUN[1]))
    sky = sky + disc[..., None] * np.array([3.0, 2.1, 0.9])

    # Clouds lie in a plane overhead: the same noise gets flatter and finer towards the horizon.
    depth = 0.16 / (up + 0.09)
    across = (x / width - 0.5) * depth * 4.2
    heap = fractal(across + 11, depth * 5.2, octaves=6, rng=rng)
    wisp = fractal(across * 2.6 + 3, depth * 11, octaves=5, rng=rng)
    cover = smooth_step(0.50, 0.72, heap * 0.78 + wisp * 0.22) * smooth_step(0.02, 0.14, up)
    lit = np.exp(-(((x / width - SUN[0]) / 0.42) ** 2)) * (1 - up) ** 0.8
    rim = smooth_step(0.0, 0.5, cover) * (1 - smooth_step(0.35, 0.95, cover))
    body = np.array([0.115, 0.075, 0.15]) + lit[..., None] * np.array([0.75, 0.16, 0.10])
    edge = np.array([0.62, 0.20, 0.19]) + lit[..., None] * np.array([1.0, 0.38, 0.08])
    cloud = body * (1 - rim[..., None] * 0.8) + edge * rim[..., None] * 0.8
    painted: Pixels = np.zeros((height, width, 3), np.float32)
    painted[: len(sky)] = sky * (1 - cover[..., None] * 0.9) + cloud * cover[..., None] * 0.9
    return painted


def paint_hills(picture: Pixels, rng: np.random.Generator) -> None:
    """Three lines of far hills, paler with distance, painted over the sky in place."""
    height, width, _ = picture.shape
    x = np.arange(width, dtype=np.float32) / width
    y = np.arange(height, dtype=np.float32)[:, None] / height
    lines = [
        (0.052, 2.2, (0.56, 0.21, 0.17)),
        (0.034, 3.7, (0.26, 0.105, 0.14)),
        (0.017, 6.5, (0.085, 0.05, 0.085)),
    ]
    for place, (tall, often, colour) in enumerate(lines):
        ridge = fractal(x * often + place * 17, np.zeros_like(x), octaves=5, rng=rng)
        shape = 0.35 + 0.65 * np.abs(np.sin(x * (2.1 + place) + place * 1.7))
        top = HORIZON - tall * ridge * shape * 1.5
        inside = smooth_step(0.0, 0.0012, y - top[None, :]) * (y < HORIZON + 0.004)
        haze = (
            np.exp(-(((x - SUN[0]) / 0.2) ** 2))[None, :, None]
            * np.array([0.55, 0.24, 0.06])
            * (0.9 - 0.3 * place)
        )
        picture += inside[..., None] * (np.array(colour) + haze - picture)


def encode(rgb_linear: Pixels, rng: np.random.Generator) -> Image.Image:
    """Tone the scene, encode it as sRGB (IEC 61966-2-1) and give it a very fine grain."""
    height, width, _ = rgb_linear.shape
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    far = np.hypot(x / width - 0.52, (y / height - 0.5) * 0.9)
    exposed = rgb_linear * (1.18 - 0.42 * far[..., None] ** 2)
    shoulder = np.where(exposed < 0.6, exposed, 0.6 + 0.4 * np.tanh((exposed - 0.6) / 0.75))
    shoulder = np.clip(shoulder, 0, 1)
    srgb_encoded = np.where(
        shoulder <= 0.0031308, 12.92 * shoulder, 1.055 * np.maximum(shoulder, 1e-9) ** (1 / 2.4) - 0.055
    )
    grain = rng.normal(0, 0.0035, (height, width, 1))
    return Image.fromarray(np.uint8(np.clip(srgb_encoded + grain, 0, 1) * 255 + 0.5))


def paint(scale: float = 1.0) -> Image.Image:
    """The whole picture.

    Parameters
    ----------
    scale : float
        Of its sides, above 0.

    Returns
    -------
    PIL.Image.Image
        1600 x 1200 pixels at a scale of 1, RGB, srgb_encoded.
    """
    width, height = (round(side * scale) for side in PAINTED_PX)
    rng = np.random.default_rng(SEED)
    picture = paint_sky(width, height, rng)
    paint_hills(picture, rng)
    shore = paint_water(picture, horizon=HORIZON, sun_x=SUN[0], rng=rng)
    paint_boats(picture, horizon=HORIZON)
    paint_field(picture, horizon=HORIZON, shore=shore, sun_x=SUN[0], rng=rng)
    size_px = (round(SIZE_PX[0] * scale), round(SIZE_PX[1] * scale))
    return encode(picture, rng).resize(size_px, Image.Resampling.LANCZOS)


def main() -> None:
    """Write the picture where the command line says."""
    parser = argparse.ArgumentParser(description="Paint the picture of the demo.")
    parser.add_argument("--out", type=Path, default=Path(__file__).parent / "estuary.jpg")
    parser.add_argument("--scale", type=float, default=1.0, help="of its sides (default: %(default)s)")
    given = parser.parse_args()
    made = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    # ICC.1:2022, table 17: bytes 24 to 35 hold the moment of making, here always the first of January 2024.
    profile = made[:24] + np.array([2024, 1, 1, 0, 0, 0], dtype=">u2").tobytes() + made[36:]
    picture = paint(given.scale)
    picture.save(
        given.out, quality=86, subsampling="4:2:0", optimize=True, dpi=(300, 300), icc_profile=profile
    )
    print(f"{given.out.name}: {given.out.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main()
