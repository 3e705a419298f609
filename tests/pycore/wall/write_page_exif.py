"""Writes `tests/data/exif.json`: small JPEGs by Pillow, and the focal length that the core reads in each.

Run as `python -m tests.pycore.wall.write_page_exif` from the repository's root.
"""

from __future__ import annotations

import base64
import io
import json
from pathlib import Path
from typing import Any

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

from pycore.wall.exif import filed_focal_px

FILE = Path(__file__).resolve().parents[2] / "data" / "exif.json"
SIZE_PX = (40, 30)

#: Tags of the EXIF directory by what the file is; see `pycore/wall/exif.py` for their numbers.
TAGS: dict[str, dict[int, Any]] = {
    "by 35 mm": {0xA405: 26},
    "by 35 mm before the sensor": {0xA405: 26, 0x920A: IFDRational(500, 10), 0xA20E: IFDRational(9000, 10)},
    "by the sensor in inches": {0x920A: IFDRational(42, 10), 0xA20E: IFDRational(3000, 10), 0xA210: 2},
    "by the sensor in cm, reduced": {
        0x920A: IFDRational(75, 10),
        0xA20E: IFDRational(15000, 10),
        0xA210: 3,
        0xA002: 4000,
        0xA003: 3000,
    },
    "a length of 0": {0xA405: 0},
    "a lens that is none": {0xA405: 60_000},
    "a fraction over 0": {0x920A: IFDRational(4, 0), 0xA20E: IFDRational(3000, 10)},
    "the sensor unknown": {0x920A: IFDRational(42, 10)},
    "a unit unknown": {0x920A: IFDRational(42, 10), 0xA20E: IFDRational(3000, 10), 0xA210: 9},
}


def page_exif() -> list[dict[str, Any]]:
    """Each file in base64, with its focal length in pixels where the core reads one."""
    files = {name: jpeg(tags) for name, tags in TAGS.items()}
    files["the other order of bytes"] = jpeg({0xA405: 35}, endian="<")
    files["upright by its orientation"] = jpeg({0xA405: 26}, orientation=6)
    files["no block"] = jpeg(None)
    files["cut within the block"] = jpeg({0x920A: IFDRational(42, 10), 0xA20E: IFDRational(3000, 10)})[:60]
    files["no JPEG"] = b"\x89PNG"
    made = []
    for name, data in files.items():
        focal = filed_focal_px(data, width_px=SIZE_PX[0], height_px=SIZE_PX[1])
        told = {} if focal is None else {"focal_px": focal}
        made.append({"name": name, "data": base64.b64encode(data).decode(), **told})
    return made


def jpeg(tags: dict[int, Any] | None, *, endian: str = ">", orientation: int = 1) -> bytes:
    """A small photograph with these tags of the EXIF directory."""
    file = io.BytesIO()
    exif = Image.Exif()
    exif.endian = endian
    exif[0x0112] = orientation
    exif.get_ifd(0x8769).update(tags or {})
    Image.new("RGB", SIZE_PX, "beige").save(file, "JPEG", **({} if tags is None else {"exif": exif}))
    return file.getvalue()


if __name__ == "__main__":
    FILE.write_text(json.dumps(page_exif(), indent=1) + "\n", encoding="utf-8")
    print(f"wrote {FILE.name}")
