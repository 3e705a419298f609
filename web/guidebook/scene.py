"""A corner on its bars as SVG."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from guidebook import svg
from pycore.fold.scene import Polygon


def drawn(polygons: Sequence[Polygon]) -> list[str]:
    """The polygons as SVG, each with its edges."""
    parts = []
    for one in polygons:
        flat = one.seen[:, :2]
        parts.append(svg.area(flat, one.paint, shade=one.shade))
        count = len(flat)
        edges = [
            svg.points_text(np.array([flat[at], flat[(at + 1) % count]]))
            for at in range(count)
            if at not in one.open_edges
        ]
        if edges:
            parts.append(f'<path class="edge" d="{"".join(edges)}"/>')
    return parts
