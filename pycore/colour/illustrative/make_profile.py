"""Make the illustrative matte canvas profile: an invented printer, inks and canvas, in an ICC profile.

There is no such canvas. Every number below that says "invented" was made up so that the result looks like a
pigment print on matte canvas; none was measured. What is remembered of real ones says "from memory". Run it
from the root of the repository, with the extra `profile-maker` installed:

    python -m pycore.colour.illustrative.make_profile pycore/colour/illustrative/illustrative-matte.icc
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import colour
import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.encodings import encode_stage
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import description_tag, table_tag, text_tag, xyz_tag
from pycore.colour.illustrative.matte_inversion import invert, perceptual_target, saturation_target
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab

Floats = NDArray[np.float64]

WAVELENGTHS_NM = np.arange(400.0, 701.0, 10.0)

#: The Yule-Nielsen factor: how far light spreads under the dots. Invented; from memory 1.5 to 3 is usual.
YULE_NIELSEN = 2.0

#: Light that a matte surface throws back before it reaches ink or coating. Invented; it sets the deepest
#: black, which from memory lies at L* 18 to 22 on such canvas.
SURFACE = 0.0245

#: How much of a second ink counts where it lies on a first one. Invented.
TRAPPING = 0.88

#: Nodes of the tables: device to Lab, Lab to device (colorimetric), and the smoother perceptual and
#: saturation ones, which need fewer.
DEVICE_NODES = 21
LAB_NODES = 33
SMOOTH_NODES = 17

#: Where along the nodes of lightness the deepest black falls, on one of them in both sizes of table; and the
#: entries of the curve that puts it there.
BLACK_PLACE = 6 / 32
CURVE_ENTRIES = 1024

#: A node of the gamut tag is marked where its reproduction is further off than this. Invented threshold.
OUTSIDE_DE = 2.0

_SAID = "Illustrative matte canvas (invented, not measured)"
_RIGHTS = "Made by the Tuckfold developers from invented numbers. No rights reserved."


def canvas_reflectance() -> Floats:
    """The bare canvas: a warm matte white of L* about 95 (from memory); the shape is invented."""
    return 0.885 - 0.055 * np.exp(-(((WAVELENGTHS_NM - 400.0) / 55.0) ** 2))


def ink_densities() -> Floats:
    """Solid cyan, magenta, yellow and black over the canvas: (4, wavelengths). All numbers invented."""

    def bump(centre: float, width: float) -> Floats:
        return np.exp(-(((WAVELENGTHS_NM - centre) / width) ** 2))

    cyan = 1.32 * bump(640.0, 78.0) + 0.16 * bump(430.0, 60.0)
    magenta = 1.34 * bump(545.0, 46.0) + 0.30 * bump(430.0, 60.0)
    yellow = 1.15 / (1.0 + np.exp((WAVELENGTHS_NM - 492.0) / 9.0))
    black = 1.50 + 0.05 * bump(450.0, 80.0)
    return np.stack([cyan, magenta, yellow, black])


@cache
def neugebauer_primaries() -> Floats:
    """Reflectance of the 16 combinations of solid inks: (16, wavelengths); bit i is ink i."""
    canvas, densities = canvas_reflectance(), ink_densities()
    result = []
    for combination in range(16):
        present = sorted((densities[ink] for ink in range(4) if combination >> ink & 1), key=np.sum)
        total = np.zeros(len(WAVELENGTHS_NM))
        for layer, density in enumerate(reversed(present)):
            total += density * TRAPPING**layer
        result.append(SURFACE + (canvas - SURFACE) * 10.0**-total)
    return np.stack(result)


@cache
def viewing_weights() -> Floats:
    """What turns reflectance into XYZ: D50, 2 degree observer, perfect diffuser Y = 1; (wavelengths, 3)."""
    shape = colour.SpectralShape(400, 700, 10)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape).values
    light = colour.SDS_ILLUMINANTS["D50"].copy().align(shape).values
    weights: Floats = observer * light[:, None] / np.sum(observer[:, 1] * light)
    # Ten-nanometre steps miss D50 in the fourth digit; the connection space wants its white exactly.
    exact: Floats = weights * np.array(D50_XYZ) / weights.sum(axis=0)
    return exact


def ink_to_xyz(coverage: Floats) -> Floats:
    """Compute the print's colour by the Yule-Nielsen-Neugebauer model.

    Parameters
    ----------
    coverage : (n, 4) float64
        Of cyan, magenta, yellow and black, 0 to 1.

    Returns
    -------
    (n, 3) float64
        XYZ under D50, a perfect diffuser at Y = 1.
    """
    shares = np.ones((len(coverage), 16))
    for combination in range(16):
        for ink in range(4):  # Demichel: dots overlap as if they fell at random.
            part = coverage[:, ink]
            shares[:, combination] *= part if combination >> ink & 1 else 1.0 - part
    root = neugebauer_primaries() ** (1.0 / YULE_NIELSEN)
    return (shares @ root) ** YULE_NIELSEN @ viewing_weights()


def inks_of(wanted: Floats) -> Floats:
    """Separate three inks into four, as the driver does. Black comes in as their product.

    Parameters
    ----------
    wanted : (n, 3) float64
        Cyan, magenta, yellow, 0 to 1.

    Returns
    -------
    (n, 4) float64
        Cyan, magenta, yellow, black, 0 to 1.
    """
    return np.concatenate([wanted, np.prod(wanted, axis=1, keepdims=True)], axis=1)


def calibrated_curves(levels: int) -> Floats:
    """Find what each colour gets for a grey of equal RGB, so that greys are even and neutral.

    Level 0 is bare canvas, the last the deepest black; L* falls along a straight line between them.

    Parameters
    ----------
    levels : int
        At least 2.

    Returns
    -------
    (levels, 3) float64
        Cyan, magenta, yellow, 0 to 1, rising.
    """
    white = ink_to_xyz(np.zeros((1, 4)))

    def lab_of(wanted: Floats) -> Floats:
        return xyz_to_lab(ink_to_xyz(inks_of(wanted)) / white * np.array(D50_XYZ))

    ends = lab_of(np.array([[0.0] * 3, [1.0] * 3]))
    share = np.linspace(0.0, 1.0, levels)[:, None]
    target = ends[0] + (ends[1] - ends[0]) * np.concatenate([share, share**4, share**4], axis=1)
    wanted = np.repeat(share**1.5, 3, axis=1)
    for _ in range(60):
        lab_d50 = lab_of(wanted)
        jacobian = np.stack([(lab_of(wanted + step) - lab_d50) / 1e-5 for step in 1e-5 * np.eye(3)], axis=2)
        damped = np.swapaxes(jacobian, 1, 2) @ jacobian + 1e-3 * np.eye(3)
        change = np.linalg.solve(damped, np.swapaxes(jacobian, 1, 2) @ (target - lab_d50)[:, :, None])
        wanted = np.clip(wanted + 0.7 * change[:, :, 0], 0.0, 1.0)
    wanted[0], wanted[-1] = 0.0, 1.0
    return np.maximum.accumulate(wanted, axis=0)


def driver(curves: Floats) -> Callable[[Floats], Floats]:
    """Make the function from RGB, as a printing program sends it, to XYZ of the print under D50.

    Parameters
    ----------
    curves : (levels, 3) float64
        From `calibrated_curves`.

    Returns
    -------
    callable
        (n, 3) float64, 0 to 1, to (n, 3) float64.
    """
    levels = np.linspace(0.0, 1.0, len(curves))

    def print_xyz(rgb: Floats) -> Floats:
        wanted = np.stack([np.interp(1.0 - rgb[:, ink], levels, curves[:, ink]) for ink in range(3)], axis=1)
        return ink_to_xyz(inks_of(wanted))

    return print_xyz


def grid(nodes: int) -> Floats:
    """List the nodes of the unit cube, the last coordinate fastest, as ICC tables want them.

    Parameters
    ----------
    nodes : int
        Along each edge, at least 2.

    Returns
    -------
    (nodes ** 3, 3) float64
        0 to 1.
    """
    steps = np.linspace(0.0, 1.0, nodes)
    return np.stack([one.ravel() for one in np.meshgrid(steps, steps, steps, indexing="ij")], axis=1)


def lightness_curve(black: float) -> Floats:
    """Make the L* curve before the tables from Lab: white and the deepest black fall on nodes.

    Between nodes a table is straight; there it may not run past the end of the gamut and back.

    Parameters
    ----------
    black : float
        L* of the deepest black.

    Returns
    -------
    (entries,) float64
        0 to 1.
    """
    lightness = np.linspace(0.0, 1.0, CURVE_ENTRIES) / np.diag(encode_stage("Lab legacy").matrix)[0]
    places: Floats = np.interp(lightness, [0.0, black, 100.0], [0.0, BLACK_PLACE, 1.0])
    return places


def lab_nodes(count: int, black: float) -> Floats:
    """List Lab at the nodes of a table from Lab, in the encoding of `mft2`.

    Parameters
    ----------
    count : int
        Nodes along each axis, at least 2.
    black : float
        L* of the deepest black.

    Returns
    -------
    (count ** 3, 3) float64
    """
    encode = encode_stage("Lab legacy")
    at = grid(count)
    nodes = (at - encode.offset) / np.diag(encode.matrix)
    nodes[:, 0] = np.interp(at[:, 0], [0.0, BLACK_PLACE, 1.0], [0.0, black, 100.0])
    return nodes


def make() -> bytes:
    """The profile's bytes."""
    print_xyz = driver(calibrated_curves(65))
    white = print_xyz(np.ones((1, 3)))[0]
    encode = encode_stage("Lab legacy")
    forward = encode(xyz_to_lab(print_xyz(grid(DEVICE_NODES)) / white * np.array(D50_XYZ)))
    forward = np.rint(np.clip(forward, 0.0, 1.0) * 65535.0).reshape((DEVICE_NODES,) * 3 + (3,)) / 65535.0

    def to_lab(rgb: Floats) -> Floats:
        held = interpolate(forward, rgb, method=Interpolation.TETRAHEDRAL)
        return (held - encode.offset) / np.diag(encode.matrix)

    black = float(to_lab(np.zeros((1, 3)))[0, 0])
    fine, smooth = lab_nodes(LAB_NODES, black), lab_nodes(SMOOTH_NODES, black)
    straight = np.tile(np.linspace(0.0, 1.0, 2), (3, 1))
    bent = np.tile(np.linspace(0.0, 1.0, CURVE_ENTRIES), (3, 1))
    bent[0] = lightness_curve(black)
    device_table = table_tag(curves_in=straight, table=forward, curves_out=straight)

    def back_table(values: Floats) -> bytes:
        table = values.reshape((round(len(values) ** (1 / 3)),) * 3 + (values.shape[1],))
        return table_tag(curves_in=bent, table=table, curves_out=straight[: values.shape[1]])

    outside = delta_e_2000(smooth, to_lab(invert(smooth, to_lab))) > OUTSIDE_DE
    return write_profile(
        version=(2, 4),
        profile_class=ProfileClass.OUTPUT,
        device="RGB",
        pcs="Lab",
        made=date(2026, 1, 1),
        tags={
            "desc": description_tag(_SAID),
            "cprt": text_tag(_RIGHTS),
            "wtpt": xyz_tag(white.tolist()),
            "A2B0": device_table,
            "A2B1": device_table,
            "A2B2": device_table,
            "B2A0": back_table(invert(perceptual_target(smooth, to_lab), to_lab)),
            "B2A1": back_table(invert(fine, to_lab)),
            "B2A2": back_table(invert(saturation_target(smooth, to_lab), to_lab)),
            "gamt": back_table(outside.astype(np.float64)[:, None]),
        },
    )


def main() -> None:
    """Write the profile where the command line says."""
    parser = argparse.ArgumentParser(description="Write the illustrative matte canvas profile.")
    parser.add_argument("out", type=Path)
    arguments = parser.parse_args()
    arguments.out.write_bytes(make())


if __name__ == "__main__":
    main()
