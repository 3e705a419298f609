"""Writes `tests/data/walls.json`: walls as the core measures them; the client page's numbers must equal them.

Run as `python -m tests.pycore.wall.write_page_walls` from the repository's root.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np

from pycore.wall.fit_wall import Marked, fit_wall
from pycore.wall.measure import as_corners
from tests.pycore.wall.cameras import random_scene

FILE = Path(__file__).resolve().parents[2] / "data" / "walls.json"
_SIZE_MM = (300.0, 200.0)
_AT_MM = (500.0, 200.0)


def page_walls() -> list[dict[str, Any]]:
    """Exact and noisy corners of cameras by chance, with homography, camera, focal length and uncertainty."""
    random = np.random.default_rng(23)
    walls = []
    for number in range(12):
        one = random_scene(random)
        corners = one.corners_px + (random.normal(0, 0.5, (4, 2)) if number % 2 else 0)
        fit = fit_wall(
            [Marked(size_mm=one.size_mm, corners_px=corners)], size_px=one.size_px, filed_focal_px=None
        )
        walls.append(
            {
                "reference_mm": one.size_mm,
                "photo_px": one.size_px,
                "corners": as_corners(corners),
                "wall_to_photo": fit.wall_to_photo.tolist(),
                "camera": fit.camera.tolist(),
                "focal_px": fit.pose.focal_px,
                "is_usual": fit.focal_from.value == "usual",
                "at_mm": _AT_MM,
                "size_mm": _SIZE_MM,
                "within_mm": fit.size_within_mm(_AT_MM, _SIZE_MM),
            }
        )
    return walls


if __name__ == "__main__":
    FILE.write_text(json.dumps(page_walls(), indent=1) + "\n", encoding="utf-8")
    print(f"wrote {FILE.name}")
