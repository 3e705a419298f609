"""From Lab back to the invented printer's RGB, and what its perceptual and saturation tables aim at.

The aims are invented: every maker of profiles has its own.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from pycore.colour.gamut.chroma_limit import ChromaLimits, chroma_limits
from pycore.colour.gamut.inside import InsideTest
from pycore.colour.gamut.mesh import GamutMesh, cube_surface
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.transform import make_transform
from pycore.contract.job import Intent

Floats = NDArray[np.float64]
ToLab = Callable[[Floats], Floats]

#: Outside the gamut a colour goes where lightness, chroma and hue, so weighted, change least. Invented: hue
#: counts most, chroma least.
WEIGHTS = np.array([1.0, 0.75, 1.6])

#: Points per edge of the search for a start.
_START_NODES = 33

_ROUNDS = 40


def invert(target_lab: Floats, to_lab: ToLab) -> Floats:
    """Find the RGB in the unit cube whose Lab comes nearest.

    Levenberg-Marquardt on all colours at once; channels that press against a face of the cube are frozen.

    Parameters
    ----------
    target_lab : (n, 3) float64
    to_lab : callable
        (m, 3) RGB, 0 to 1, to (m, 3) Lab.

    Returns
    -------
    (n, 3) float64
        RGB, 0 to 1.
    """
    steps = np.linspace(0.0, 1.0, _START_NODES)
    starts = np.stack([one.ravel() for one in np.meshgrid(steps, steps, steps, indexing="ij")], axis=1)
    rgb: Floats = starts[cKDTree(to_lab(starts)).query(target_lab)[1]]
    frame = _frame(target_lab)

    def residual(at: Floats) -> Floats:
        weighted: Floats = np.einsum("nij,nj->ni", frame, to_lab(at) - target_lab)
        return weighted

    damping: Floats = np.full(len(rgb), 1.0)
    now = residual(rgb)
    for _ in range(_ROUNDS):
        jacobian: Floats = np.empty((len(rgb), 3, 3))
        for channel in range(3):
            step = np.where(rgb[:, channel] > 0.5, -1e-3, 1e-3)
            moved = rgb.copy()
            moved[:, channel] += step
            jacobian[:, :, channel] = (residual(moved) - now) / step[:, None]
        gradient = np.einsum("nij,ni->nj", jacobian, now)
        frozen = ((rgb <= 0.0) & (gradient > 0.0)) | ((rgb >= 1.0) & (gradient < 0.0))
        jacobian = np.where(frozen[:, None, :], 0.0, jacobian)
        normal = np.swapaxes(jacobian, 1, 2) @ jacobian + damping[:, None, None] * np.eye(3)
        change = np.linalg.solve(normal, -np.where(frozen, 0.0, gradient)[:, :, None])[:, :, 0]
        tried = np.clip(rgb + change, 0.0, 1.0)
        then = residual(tried)
        better = np.sum(then**2, axis=1) < np.sum(now**2, axis=1)
        rgb[better], now[better] = tried[better], then[better]
        damping = np.clip(np.where(better, damping * 0.3, damping * 4.0), 1e-6, 1e6)
    return rgb


def _frame(lab_d50: Floats) -> Floats:
    """Rows that turn a difference of Lab into weighted lightness, chroma and hue: (n, 3, 3)."""
    hue = np.arctan2(lab_d50[:, 2], lab_d50[:, 1])
    frame = np.zeros((len(lab_d50), 3, 3))
    frame[:, 0, 0] = WEIGHTS[0]
    frame[:, 1, 1], frame[:, 1, 2] = WEIGHTS[1] * np.cos(hue), WEIGHTS[1] * np.sin(hue)
    frame[:, 2, 1], frame[:, 2, 2] = -WEIGHTS[2] * np.sin(hue), WEIGHTS[2] * np.cos(hue)
    return frame


def perceptual_target(lab_d50: Floats, to_lab: ToLab) -> Floats:
    """Find where the perceptual table puts colours: black lifted gently, chroma squeezed from 70 % on.

    Parameters
    ----------
    lab_d50 : (n, 3) float64
    to_lab : callable
        (m, 3) RGB, 0 to 1, to (m, 3) Lab.

    Returns
    -------
    (n, 3) float64
        Lab.
    """
    black = float(to_lab(np.zeros((1, 3)))[0, 0])
    lightness = np.clip(lab_d50[:, 0], 0.0, 100.0)
    lightness = lightness + black * (1.0 - lightness / 100.0) ** 2.2
    return _squeezed(lab_d50, lightness, to_lab, knee=0.7, gain=1.0, lean=0.6)


def saturation_target(lab_d50: Floats, to_lab: ToLab) -> Floats:
    """Find where the saturation table puts colours: more chroma, squeezed only near the limit.

    Parameters
    ----------
    lab_d50 : (n, 3) float64
    to_lab : callable
        (m, 3) RGB, 0 to 1, to (m, 3) Lab.

    Returns
    -------
    (n, 3) float64
        Lab.
    """
    black = float(to_lab(np.zeros((1, 3)))[0, 0])
    lightness = black + np.clip(lab_d50[:, 0], 0.0, 100.0) * (1.0 - black / 100.0)
    return _squeezed(lab_d50, lightness, to_lab, knee=0.9, gain=1.1, lean=0.9)


def _squeezed(
    lab_d50: Floats, lightness: Floats, to_lab: ToLab, *, knee: float, gain: float, lean: float
) -> Floats:
    """Draw colours towards a grey that lies between their own lightness and that of their hue's cusp."""
    chroma = gain * np.hypot(lab_d50[:, 1], lab_d50[:, 2])
    hue = np.arctan2(lab_d50[:, 2], lab_d50[:, 1])
    own = _limits(to_lab)
    # Greys have no way towards the cusp: they keep their lightness.
    anchor = lightness + lean * chroma / (chroma + 10.0) * (own.cusp(hue) - lightness)
    # In units of the distance from the grey: the limit of the print, and that of sRGB, which it must take in.
    limit = own.reach(anchor=anchor, lightness=lightness, chroma=chroma, hue_rad=hue)
    widest = _limits(_srgb_to_lab).reach(
        anchor=anchor, lightness=lightness, chroma=chroma / gain, hue_rad=hue
    )
    start, room, span = knee * limit, (1.0 - knee) * limit, np.maximum(widest, limit) - knee * limit
    over = np.maximum(1.0 - start, 0.0)
    # x / (1 + s x) leaves the knee without a bend; s is such that the widest colour ends on the limit.
    slope = np.where(span > room, 1.0 / np.maximum(room, 1e-9) - 1.0 / np.maximum(span, 1e-9), 0.0)
    scale = np.where(over > 0.0, start + np.minimum(over / (1.0 + slope * over), room), 1.0)
    there = anchor + scale * (lightness - anchor)
    return np.stack([there, scale * chroma * np.cos(hue), scale * chroma * np.sin(hue)], axis=1)


def _srgb_to_lab(rgb: Floats) -> Floats:
    return make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )(rgb)


def _limits(to_lab: ToLab) -> ChromaLimits:
    device, triangles = cube_surface(25)
    return chroma_limits(InsideTest(GamutMesh(lab_d50=to_lab(device), triangles=triangles, device=device)))
