"""Draws the page's icon into web/static: a folded corner of a canvas, as SVG and as PNG.

    python web/tools/draw_icon.py [FOLDER]

The face, its two sides and the tuck between them are polygons in a square of 512 units.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

from PIL import Image, ImageDraw

UNITS: Final = 512
#: Drawn this much larger, then reduced, for smooth edges.
FINER: Final = 4

GROUND: Final = "#f6f0e4"
#: From back to front.
SHAPES: Final = (
    # The right side, in shadow.
    ("#7a4631", ((318, 202), (424, 120), (424, 392), (318, 474))),
    # The upper side.
    ("#c98f6b", ((46, 202), (152, 120), (424, 120), (318, 202))),
    # The folded corner: a tuck that lies on the right side.
    ("#5a2f1f", ((318, 202), (424, 120), (424, 214))),
    # The face.
    ("#b3462e", ((46, 202), (318, 202), (318, 474), (46, 474))),
    ("#e2b27f", ((46, 390), (150, 318), (232, 366), (318, 300), (318, 474), (46, 474))),
)
#: The fold's own edge.
CREASE: Final = ("#f6f0e4", ((318, 202), (424, 214)), 8)

#: File, pixels along a side, and how much of it the drawing takes. A system may cut a maskable icon to a
#: circle of 80 % (published: the Web App Manifest's safe zone).
PICTURES: Final = (
    ("icon-192.png", 192, 0.9),
    ("icon-512.png", 512, 0.9),
    ("icon-maskable-512.png", 512, 0.64),
)


def svg() -> str:
    """The drawing as SVG.

    Returns
    -------
    str
    """
    parts = [
        f'<path fill="{fill}" d="M{" L".join(f"{x} {y}" for x, y in points)} Z" />' for fill, points in SHAPES
    ]
    stroke, ((x, y), (to_x, to_y)), width = CREASE
    parts.append(f'<path stroke="{stroke}" stroke-width="{width}" d="M{x} {y} L{to_x} {to_y}" />')
    ground = f'<rect width="{UNITS}" height="{UNITS}" rx="88" fill="{GROUND}" />'
    body = "\n".join(f"  {part}" for part in (ground, *parts))
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {UNITS} {UNITS}">\n{body}\n</svg>\n'


def picture(size_px: int, share: float) -> Image.Image:
    """The drawing as pixels, on ground that fills the square.

    Parameters
    ----------
    size_px : int
        Along a side.
    share : float
        How much of the side the drawing takes, 0 to 1.

    Returns
    -------
    PIL.Image.Image
        RGB.
    """
    side = size_px * FINER
    drawn = Image.new("RGB", (side, side), GROUND)
    draw = ImageDraw.Draw(drawn)
    scale = side * share / UNITS
    start = side * (1 - share) / 2

    def placed(points: tuple[tuple[int, int], ...]) -> list[tuple[float, float]]:
        # The drawing's own middle lies lower than that of its square.
        return [(start + x * scale, start + (y - 41) * scale) for x, y in points]

    for fill, points in SHAPES:
        draw.polygon(placed(points), fill=fill)
    stroke, line, width = CREASE
    draw.line(placed(line), fill=stroke, width=round(width * scale))
    return drawn.resize((size_px, size_px), Image.Resampling.BOX)


def main(folder: Path) -> None:
    """Write all files."""
    (folder / "icon.svg").write_text(svg(), encoding="utf-8")
    for name, size_px, share in PICTURES:
        picture(size_px, share).save(folder / name, optimize=True)


if __name__ == "__main__":
    given = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parents[1] / "static"
    main(given)
