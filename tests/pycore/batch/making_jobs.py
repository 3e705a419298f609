"""Small jobs for the tests of batches."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

from PIL import Image

#: Made in about a quarter of a second.
SMALL: Final[dict[str, Any]] = {
    "picture": {"file": "ramp.png"},
    "face": {"width_mm": 200, "height_mm": 150},
    "print": {"ppi": 36, "marks": False},
}


def make_jobs(folder: Path, count: int) -> Path:
    """A folder with a picture and so many jobs on it, each of another width."""
    folder.mkdir(parents=True, exist_ok=True)
    ramp = Image.linear_gradient("L").resize((120, 90)).convert("RGB")
    ramp.save(folder / "ramp.png")
    for number in range(count):
        job = {**SMALL, "name": f"Piece {number}", "face": {"width_mm": 200 + number, "height_mm": 150}}
        (folder / f"piece-{number:03}.json").write_text(json.dumps(job), encoding="utf-8")
    return folder
