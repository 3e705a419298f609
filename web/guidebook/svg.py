"""Drawings as SVG text: an ink of its own for light and dark, and coordinates with one decimal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final
from xml.sax.saxutils import escape

import numpy as np
import numpy.typing as npt

from pycore.fold.arrow import arrow_parts

Floats = npt.NDArray[np.float64]

#: What can be painted: the colour on a light page, on a dark one. The tints are those of the page's style.
PAINTS: Final = {
    "print": ("#dcb9a4", "#9a6b55"),
    "lit": ("#b3462e", "#e98f73"),
    "bare": ("#fffdf8", "#564e44"),
    "wood": ("#d9c298", "#8a744c"),
    "ground": ("#efe7d9", "#2a2621"),
    "sheet": ("#fffdf8", "#4a443b"),
    "ink": ("#262019", "#efe7da"),
    "soft": ("#6b6053", "#bcb0a0"),
}

#: What every shade is mixed with, light and dark, and how much of it a step takes.
_SHADOW: Final = ("#4a3b2c", "#14110e")
_STEP: Final = 0.11

#: The strokes: how wide, of which paint, and dashed or not.
STROKES: Final = {
    "edge": (0.6, "ink", ""),
    "crease": (0.6, "soft", "3 2"),
    "cut": (1.4, "lit", ""),
    "line": (1.1, "ink", ""),
    "bold": (2.2, "lit", ""),
    "thin": (0.7, "soft", ""),
    "way": (1.5, "ink", ""),
}


def points_text(points: Floats) -> str:
    """Points as an SVG path without its end: M x y L x y.

    Examples
    --------
    >>> points_text(np.array([[0.0, 1.25], [2.0, 3.0]]))
    'M0 1.2L2 3'
    """
    return "M" + "L".join(f"{_short(x)} {_short(y)}" for x, y in points)


def area(points: Floats, paint: str, *, shade: int = 0) -> str:
    """A filled polygon.

    Parameters
    ----------
    points : (n, 2) float64
        y downwards.
    paint : str
        Of `PAINTS`.
    shade : int
        Steps of shadow, from 0.
    """
    return f'<path class="{paint}{shade}" d="{points_text(points)}Z"/>'


def line(points: Floats, stroke: str, *, closed: bool = False) -> str:
    """A line through points, in a stroke of `STROKES`."""
    return f'<path class="{stroke}" d="{points_text(points)}{"Z" if closed else ""}"/>'


def arrow(points: Floats) -> str:
    """A line through points with a filled head at its end."""
    shaft, tip = arrow_parts(points, 6.0)
    return line(shaft, "way") + area(tip, STROKES["way"][1])


def rectangle(x: float, y: float, wide: float, high: float) -> Floats:
    """The corners of an upright rectangle."""
    return np.array([[x, y], [x + wide, y], [x + wide, y + high], [x, y + high]])


def label(text: str, x: float, y: float, *, size: float = 10.0, anchor: str = "middle") -> str:
    """A word in the drawing."""
    return (
        f'<text class="word" x="{_short(x)}" y="{_short(y)}" font-size="{size:g}" '
        f'text-anchor="{anchor}">{escape(text)}</text>'
    )


def measure(start: Sequence[float], end: Sequence[float]) -> str:
    """A dimension: a line with a short stroke across it at either end."""
    first, last = np.array(start, float), np.array(end, float)
    along = (last - first) / np.hypot(*(last - first))
    across = np.array([-along[1], along[0]]) * 3.5
    ends = [np.array([at - across, at + across]) for at in (first, last)]
    return "".join(line(one, "line") for one in (np.array([first, last]), *ends))


def drawing(parts: Iterable[str], box: Sequence[float] | Floats) -> str:
    """The whole file.

    Parameters
    ----------
    parts : iterable of str
        Elements, from back to front.
    box : x, y, width, height
        What is shown.
    """
    body = "\n".join(parts)
    used = set(_classes(body))
    x, y, wide, high = (_short(float(one)) for one in box)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{x} {y} {wide} {high}" '
        f'width="{wide}" height="{high}">\n<style>{_style(used)}</style>\n{body}\n</svg>\n'
    )


def mixed(first: str, second: str, share: float) -> str:
    """A colour between two, in sRGB.

    Examples
    --------
    >>> mixed("#000000", "#ffffff", 0.5)
    '#808080'
    """
    one, other = (np.array([int(text[at : at + 2], 16) for at in (1, 3, 5)]) for text in (first, second))
    return "#" + "".join(f"{round(float(value)):02x}" for value in one + (other - one) * share)


def _style(used: set[str]) -> str:
    light, dark = [], []
    for name in sorted(used):
        if name in STROKES:
            width, paint, dashes = STROKES[name]
            gap = f";stroke-dasharray:{dashes}" if dashes else ""
            light.append(
                f".{name}{{fill:none;stroke-width:{width:g};stroke-linejoin:round;stroke-linecap:round"
                f"{gap};stroke:{PAINTS[paint][0]}}}"
            )
            dark.append(f".{name}{{stroke:{PAINTS[paint][1]}}}")
        elif name == "word":
            light.append(
                f'.word{{font-family:Palatino,"Palatino Linotype",Georgia,serif;fill:{PAINTS["ink"][0]}}}'
            )
            dark.append(f".word{{fill:{PAINTS['ink'][1]}}}")
        else:
            paint, shade = name[:-1], int(name[-1])
            for rules, place in ((light, 0), (dark, 1)):
                colour = mixed(PAINTS[paint][place], _SHADOW[place], shade * _STEP)
                rules.append(f".{name}{{fill:{colour};stroke:{colour};stroke-width:.7}}")
    return f"{''.join(light)}@media (prefers-color-scheme:dark){{{''.join(dark)}}}"


def _classes(body: str) -> Iterable[str]:
    return (part.split('"')[0] for part in body.split('class="')[1:])


def _short(value: float) -> str:
    text = f"{value:.1f}"
    text = text[:-2] if text.endswith(".0") else text
    return "0" if text == "-0" else text
