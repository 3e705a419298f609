"""The glossary's drawings about colour, from sRGB and the illustrative canvas as the engine has them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from guidebook import svg
from pycore.colour.gamut.mesh import gamut_mesh
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import Profile, parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.contract.job import Intent
from pycore.fold.scene import Floats


def colour_drawings() -> Iterator[tuple[str, str]]:
    """Every drawing: the glossary's word and the file's text."""
    yield "gamut", _gamut()
    yield "rendering-intent", _intents()
    yield "black-point-compensation", _black_point()
    yield "profile", _profile()
    yield "proof", _proof()
    yield "soft-proof", _soft_proof()
    yield "clip", _clip()


@lru_cache(maxsize=1)
def _matte() -> Profile:
    return parse_profile(illustrative_profile())


def _gamut() -> str:
    """Both gamuts seen along the lightness axis, a* to the right, b* up; half a unit a Lab unit."""
    parts = [_axes()]
    parts += [svg.line(_outline(_srgb_surface()), "line", closed=True)]
    matte = _outline(gamut_mesh(_matte(), intent=Intent.RELATIVE).lab_d50[:, 1:])
    parts += [svg.area(matte, "print"), svg.line(matte, "bold", closed=True), _axes()]
    parts.append(svg.label("canvas", 0, -8, size=11))
    parts.append(svg.label("sRGB", -36, -52, size=11))
    return svg.drawing(parts, (-60, -66, 120, 132))


def _clip() -> str:
    """A colour outside the canvas's gamut, and where it prints."""
    matte = _outline(gamut_mesh(_matte(), intent=Intent.RELATIVE).lab_d50[:, 1:])
    wanted = _lab_of_srgb(np.array([[0.1, 0.75, 0.1]]))[0]
    device = make_transform(Standard.LAB, _matte(), intent=Intent.RELATIVE, black_point_compensation=False)
    back = make_transform(_matte(), Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    printed = back(device(wanted[np.newaxis]))[0]
    way = np.array([[wanted[1], -wanted[2]], [printed[1], -printed[2]]]) / 2
    parts = [svg.area(matte, "print"), svg.line(matte, "edge", closed=True), _axes()]
    parts += [svg.arrow(way), svg.area(_disc(way[0], 3.0), "lit")]
    return svg.drawing(parts, (-60, -66, 120, 132))


def _srgb_surface() -> Floats:
    steps = np.linspace(0, 1, 12)
    grid = np.stack(np.meshgrid(steps, steps, steps), axis=-1).reshape(-1, 3)
    surface = grid[np.any((grid == 0) | (grid == 1), axis=1)]
    lab: Floats = _lab_of_srgb(surface)[:, 1:]
    return lab


def _lab_of_srgb(values: Floats) -> Floats:
    convert = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    lab: Floats = convert(values)
    return lab


def _outline(ab: Floats) -> Floats:
    """The convex outline of a* and b*, b* up, half a unit each."""
    points = sorted({(round(float(a) / 2, 3), round(-float(b) / 2, 3)) for a, b in ab})

    def half(ordered: list[tuple[float, float]]) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for x, y in ordered:
            while len(kept) > 1 and (kept[-1][0] - kept[-2][0]) * (y - kept[-2][1]) <= (
                kept[-1][1] - kept[-2][1]
            ) * (x - kept[-2][0]):
                kept.pop()
            kept.append((x, y))
        return kept[:-1]

    return np.array(half(points) + half(points[::-1]))


def _intents() -> str:
    """How the chroma of one hue comes out: relative keeps and cuts off, perceptual draws all together."""
    chroma = np.linspace(0, 100, 41)
    hue = np.radians(330)
    lab = np.column_stack([np.full_like(chroma, 65), chroma * np.cos(hue), chroma * np.sin(hue)])
    parts = [_frame()]
    for intent, stroke in ((Intent.RELATIVE, "bold"), (Intent.PERCEPTUAL, "line")):
        printed = _printed(lab, intent=intent, compensated=True)
        out = np.hypot(printed[:, 1], printed[:, 2])
        parts.append(svg.line(np.column_stack([chroma, 100 - out]), stroke))
    parts += [svg.line(np.array([[0.0, 100.0], [100.0, 0.0]]), "crease")]
    parts.append(svg.label("relative", 60, 30, size=11, anchor="end"))
    parts.append(svg.label("perceptual", 110, 72, size=11, anchor="end"))
    parts += [
        svg.label("colour in the picture", 50, 114, size=11),
        svg.label("printed", 4, -4, size=11, anchor="start"),
    ]
    return svg.drawing(parts, (-12, -16, 124, 136))


def _black_point() -> str:
    """How dark greys come out with black point compensation (bold) and without."""
    lightness = np.linspace(0, 50, 51)
    lab = np.column_stack([lightness, np.zeros((51, 2))])
    parts = [_frame(), svg.line(np.array([[0.0, 100.0], [100.0, 0.0]]), "crease")]
    for compensated, stroke in ((False, "line"), (True, "bold")):
        printed = _printed(lab, intent=Intent.RELATIVE, compensated=compensated)
        parts.append(svg.line(np.column_stack([lightness * 2, 100 - printed[:, 0] * 2]), stroke))
    parts += [
        svg.label("with", 40, 38, size=11, anchor="end"),
        svg.label("without", 44, 78, size=11, anchor="start"),
    ]
    parts += [svg.label("dark greys, picture", 50, 114, size=11)]
    parts += [svg.label("printed", 4, -4, size=11, anchor="start")]
    return svg.drawing(parts, (-12, -16, 124, 136))


def _printed(lab: Floats, *, intent: Intent, compensated: bool) -> Floats:
    """Colours of a picture, as the illustrative canvas prints them; relative to its white."""
    there = make_transform(Standard.LAB, _matte(), intent=intent, black_point_compensation=compensated)
    back = make_transform(_matte(), Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    lab_printed: Floats = back(there(lab))
    return lab_printed


def _profile() -> str:
    """A chart is printed and measured; a table of numbers comes of it."""
    parts = []
    for row in range(4):
        for column in range(4):
            paint, shade = (("print", row), ("lit", column), ("wood", row), ("sheet", 3))[(row + column) % 4]
            parts.append(svg.area(svg.rectangle(column * 11, row * 11, 9.5, 9.5), paint, shade=min(shade, 3)))
    parts.append(svg.line(svg.rectangle(-3, -3, 48.5, 48.5), "edge", closed=True))
    parts.append(svg.arrow(np.array([[50.0, 21.0], [72.0, 21.0]])))
    parts += [
        svg.area(svg.rectangle(77, -3, 42, 48.5), "sheet"),
        svg.line(svg.rectangle(77, -3, 42, 48.5), "edge", closed=True),
    ]
    parts += [
        svg.label(text, 98, 9 + 13 * row, size=9) for row, text in enumerate(("L* 52", "a* -8", "b* 31"))
    ]
    return svg.drawing(parts, (-6, -6, 128, 55))


def _proof() -> str:
    """The print that the picture is judged by, a small one first."""
    large, small = svg.rectangle(0, 0, 72, 52), svg.rectangle(84, 22, 34, 30)
    hills = np.array([[0, 52], [0, 36], [18, 22], [34, 36], [52, 14], [72, 34], [72, 52]], float)
    strip = np.array([[84, 52], [84, 47], [100, 34], [109, 41], [118, 30], [118, 52]], float)
    parts = [svg.area(large, "ground"), svg.area(hills, "print"), svg.line(large, "crease", closed=True)]
    parts += [
        svg.area(small, "ground"),
        svg.area(strip, "print", shade=1),
        svg.line(small, "bold", closed=True),
    ]
    return svg.drawing(parts, (-4, -4, 128, 60))


def _soft_proof() -> str:
    """The same picture on the screen, in the canvas's colours."""
    frame, glass = svg.rectangle(8, 0, 104, 66), svg.rectangle(13, 5, 94, 56)
    foot = np.array([[48, 80], [52, 66], [68, 66], [72, 80]], float)
    picture = svg.rectangle(30, 13, 60, 40)
    hills = np.array([[30, 53], [30, 41], [45, 29], [59, 41], [74, 22], [90, 39], [90, 53]], float)
    parts = [svg.area(frame, "soft"), svg.area(foot, "soft", shade=1), svg.area(glass, "ground")]
    parts += [svg.area(picture, "bare", shade=1), svg.area(hills, "print", shade=1)]
    parts += [svg.line(picture, "bold", closed=True)]
    return svg.drawing(parts, (0, -4, 120, 88))


def _axes() -> str:
    """a* and b*."""
    return svg.line(np.array([[-52.0, 0.0], [52.0, 0.0]]), "thin") + svg.line(
        np.array([[0.0, -52.0], [0.0, 58.0]]), "thin"
    )


def _frame() -> str:
    return svg.line(np.array([[0.0, 0.0], [0.0, 100.0], [100.0, 100.0]]), "thin")


def _disc(centre: Floats, radius: float) -> Floats:
    turn = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    disc: Floats = centre + radius * np.column_stack([np.cos(turn), np.sin(turn)])
    return disc
