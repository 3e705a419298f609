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
from tests.pycore.wall.cameras import random_scene, scene

FILE = Path(__file__).resolve().parents[2] / "data" / "walls.json"
_SIZE_MM = (300.0, 200.0)
_AT_MM = (500.0, 200.0)


def page_walls() -> list[dict[str, Any]]:
    """Exact and noisy corners of cameras by chance, with homography, camera, focal length and uncertainty."""
    random = np.random.default_rng(23)
    walls = []
    # A view that is too frontal for a lens, and one that hardly tells it.
    few = [scene(lens_mm=35, yaw_deg=0.5), scene(lens_mm=60, yaw_deg=9, wide_mm=1800)]
    for number, one in enumerate([*(random_scene(random) for _ in range(12)), *few]):
        corners = one.corners_px + (random.normal(0, 0.5, (4, 2)) if number % 2 else 0)
        # Every third file tells its focal length, off by some 2 percent; the last one tells another camera's.
        off = 0.1 if number == 11 else float(np.exp(random.normal(0, 0.02)))
        filed = {"filed_focal_px": one.pose.focal_px * off} if number % 3 == 2 else {}
        fit = fit_wall(
            [Marked(size_mm=one.size_mm, corners_px=corners)],
            size_px=one.size_px,
            filed_focal_px=filed.get("filed_focal_px"),
        )
        walls.append(
            {
                "reference_mm": one.size_mm,
                "photo_px": one.size_px,
                "corners": as_corners(corners),
                "wall_to_photo": fit.wall_to_photo.tolist(),
                "camera": fit.camera.tolist(),
                "focal_px": fit.pose.focal_px,
                "focal_from": fit.focal_from.value,
                **filed,
                "at_mm": _AT_MM,
                "size_mm": _SIZE_MM,
                "within_mm": fit.size_within_mm(_AT_MM, _SIZE_MM),
            }
        )
    return walls


if __name__ == "__main__":
    FILE.write_text(json.dumps(page_walls(), indent=1) + "\n", encoding="utf-8")
    print(f"wrote {FILE.name}")
