"""Write the small profiles that the tests of the colour core read: one of each kind, all invented.

    python tests/pycore/colour/make_profiles.py tests/pycore/colour/data

Origin: this script. Licence: that of the repository. Their sha256 stand in `data/littlecms_reference.json`.
"""

from __future__ import annotations

import argparse
import struct
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.encodings import encode_stage
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import (
    description_tag,
    table_tag,
    text_tag,
    xyz_tag,
)
from pycore.colour.spaces.adapt import bradford, rgb_matrix, xy_to_xyz
from pycore.colour.spaces.lab import D50_XYZ, lab_to_xyz, xyz_to_lab

Floats = NDArray[np.float64]
WHITE = np.array(D50_XYZ)
PAPER = WHITE * np.array([0.84, 0.85, 0.78])
MADE = date(2026, 1, 1)


def localised_tag(text: str) -> bytes:
    """A version 4 `mluc` tag with one text, in English.

    Parameters
    ----------
    text : str

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, 10.15.
    """
    encoded = text.encode("utf-16-be")
    return b"mluc\0\0\0\0" + struct.pack(">II4sII", 1, 12, b"enUS", len(encoded), 28) + encoded


def matrix_tag(matrix: Floats) -> bytes:
    """An `sf32` tag, as `chad` wants it.

    Parameters
    ----------
    matrix : (3, 3) float64

    Returns
    -------
    bytes
    """
    return b"sf32\0\0\0\0" + fixed_numbers(matrix.ravel())


def curve_tag(samples: Floats) -> bytes:
    """A sampled `curv` tag.

    Parameters
    ----------
    samples : (n,) float64
        At least two, 0 to 1.

    Returns
    -------
    bytes
    """
    return b"curv\0\0\0\0" + struct.pack(">I", len(samples)) + wide_numbers(samples)


def parametric_tag(parameters: Sequence[float]) -> bytes:
    """A `para` tag; the number of parameters tells the function.

    Parameters
    ----------
    parameters : sequence of float
        1, 3, 4, 5 or 7 of them: g, a, b, c, d, e, f.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, table 68.
    """
    kind = (1, 3, 4, 5, 7).index(len(parameters))
    return (
        b"para\0\0\0\0"
        + struct.pack(">HH", kind, 0)
        + fixed_numbers(np.asarray(parameters, dtype=np.float64))
    )


def fixed_numbers(values: Floats) -> bytes:
    """Big-endian s15Fixed16Numbers."""
    return np.rint(values * 65536.0).astype(">i4").tobytes()


def wide_numbers(values: Floats) -> bytes:
    """Big-endian uInt16Numbers of fractions of full scale."""
    return np.rint(np.clip(values, 0.0, 1.0) * 65535.0).astype(">u2").tobytes()


def grid(nodes: int, inputs: int) -> Floats:
    steps = np.linspace(0.0, 1.0, nodes)
    return np.stack([one.ravel() for one in np.meshgrid(*[steps] * inputs, indexing="ij")], axis=1)


def inks_to_lab(inks: Floats) -> Floats:
    """Cyan, magenta, yellow (and black) as filters over each other, relative to the paper."""
    passes = np.array([[0.12, 0.2, 0.7], [0.45, 0.18, 0.3], [0.85, 0.9, 0.08], [0.05, 0.05, 0.05]])
    light = np.ones((len(inks), 3))
    for ink in range(inks.shape[1]):
        light *= passes[ink] ** inks[:, ink : ink + 1]
    return xyz_to_lab(light * WHITE)


def lab_to_inks(lab_d50: Floats, inks: int) -> Floats:
    """Some smooth way back; it need not be exact for what is tested with it."""
    light = np.clip(lab_to_xyz(lab_d50) / WHITE, 0.004, 1.0)
    mixed = -np.log(light) @ np.array([[0.62, -0.1, -0.05], [-0.2, 0.7, -0.1], [-0.02, -0.1, 0.42]]).T
    colours = np.clip(mixed, 0.0, 1.0)
    return (
        colours if inks == 3 else np.concatenate([colours, colours.min(axis=1, keepdims=True) ** 3], axis=1)
    )


def common(name: str, version: int, white: Floats) -> dict[str, bytes]:
    describe = localised_tag if version == 4 else description_tag
    rights = localised_tag("No rights reserved.") if version == 4 else text_tag("No rights reserved.")
    return {"desc": describe(name), "cprt": rights, "wtpt": xyz_tag(white.tolist())}


def matrix_profile() -> bytes:
    """Version 4, display: wide primaries, `para` curves of types 3 and 4, `chad`."""
    d65 = (0.3127, 0.3290)
    matrix = rgb_matrix(primaries=((0.68, 0.32), (0.265, 0.69), (0.15, 0.06)), white=d65, pcs_white=WHITE)
    tags = common("Test matrix", 4, WHITE)
    tags["chad"] = matrix_tag(bradford(source_white=xy_to_xyz(d65), target_white=WHITE))
    for index, channel in enumerate("rgb"):
        tags[f"{channel}XYZ"] = xyz_tag(matrix[:, index].tolist())
    tags["rTRC"] = parametric_tag([2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045])
    tags["gTRC"] = parametric_tag([1.9])
    tags["bTRC"] = parametric_tag([2.2, 0.95, 0.05, 0.1, 0.06, 0.0, 0.00134])
    return write_profile(
        version=(4, 4), profile_class=ProfileClass.DISPLAY, device="RGB", pcs="XYZ", made=MADE, tags=tags
    )


def grey_profile() -> bytes:
    """Version 2, a printer of grey: a sampled curve."""
    tags = common("Test grey", 2, PAPER)
    tags["kTRC"] = curve_tag(0.03 + 0.97 * np.linspace(0.0, 1.0, 33) ** 1.8)
    return write_profile(
        version=(2, 4), profile_class=ProfileClass.OUTPUT, device="GRAY", pcs="XYZ", made=MADE, tags=tags
    )


def cmyk_profile() -> bytes:
    """Version 2, a printer of CMYK: `mft2` with Lab, curves on both sides."""
    encode = encode_stage("Lab legacy")
    bend = np.linspace(0.0, 1.0, 64)
    forward = table_tag(
        curves_in=np.stack([bend**power for power in (0.9, 1.1, 1.0, 1.2)]),
        table=np.clip(encode(inks_to_lab(grid(7, 4))), 0.0, 1.0).reshape(7, 7, 7, 7, 3),
        curves_out=np.tile(np.linspace(0.0, 1.0, 2), (3, 1)),
    )
    nodes = (grid(13, 3) - encode.offset) / np.diag(encode.matrix)
    tables = {}
    for number, lift in ((0, 12.0), (1, 0.0), (2, 6.0)):
        lifted = nodes + np.array([1.0, 0.0, 0.0]) * (lift * (1.0 - nodes[:, :1] / 100.0))
        tables[f"B2A{number}"] = table_tag(
            curves_in=np.stack([bend**0.8, bend, bend]),
            table=lab_to_inks(lifted, 4).reshape(13, 13, 13, 4),
            curves_out=np.tile(bend**1.1, (4, 1)),
        )
    tags = common("Test CMYK", 2, PAPER) | {f"A2B{number}": forward for number in range(3)} | tables
    return write_profile(
        version=(2, 1), profile_class=ProfileClass.OUTPUT, device="CMYK", pcs="Lab", made=MADE, tags=tags
    )


def curve_table_tag(
    kind: bytes,
    *,
    b: Sequence[bytes],
    matrix: Floats | None,
    m: Sequence[bytes],
    table: Floats,
    a: Sequence[bytes],
) -> bytes:
    """An `mAB ` or `mBA ` tag with a 16-bit table (ICC.1:2022, 10.12 and 10.13)."""
    inputs, outputs = table.ndim - 1, table.shape[-1]

    def padded(curves: Sequence[bytes]) -> bytes:
        return b"".join(one + bytes(-len(one) % 4) for one in curves)

    body, offsets = b"", []
    numbers = b"" if matrix is None else np.rint(matrix * 65536).astype(">i4").tobytes()
    clut = bytes(table.shape[:-1]) + bytes(16 - inputs) + bytes([2, 0, 0, 0])
    clut += np.rint(np.clip(table, 0.0, 1.0) * 65535).astype(">u2").tobytes()
    clut += bytes(-len(clut) % 4)
    for part in (padded(b), numbers, padded(m), clut, padded(a)):
        offsets.append(32 + len(body) if part else 0)
        body += part
    return kind + bytes(4) + bytes([inputs, outputs, 0, 0]) + struct.pack(">5I", *offsets) + body


def curves_profile(pcs: str) -> bytes:
    """Version 4, a printer of RGB: `mAB ` and `mBA ` with every element, and uneven nodes in the table."""
    encode, full = encode_stage(pcs), pcs == "Lab"
    steps = [np.linspace(0.0, 1.0, count) for count in (6, 7, 8)]
    device = np.stack([one.ravel() for one in np.meshgrid(*steps, indexing="ij")], axis=1)
    lab_d50 = inks_to_lab(1.0 - device)
    pcs_values = encode(lab_d50 if full else lab_to_xyz(lab_d50))
    straight, bent = parametric_tag([1.0]), curve_tag(np.linspace(0.0, 1.0, 17) ** 1.2)
    gamma = parametric_tag([1.3])
    matrix = np.array([0.97, 0.02, 0.0, 0.01, 0.95, 0.0, 0.0, 0.03, 0.96, 0.004, 0.0, 0.002])
    forward = curve_table_tag(
        b"mAB ",
        b=[straight, straight, straight],
        matrix=matrix,
        m=[straight, bent, straight],
        table=np.clip(pcs_values, 0.0, 1.0).reshape(6, 7, 8, 3),
        a=[gamma, bent, straight],
    )
    nodes = (grid(9, 3) - encode.offset) / np.diag(encode.matrix)
    nodes_lab = nodes if full else xyz_to_lab(nodes)
    back = curve_table_tag(
        b"mBA ",
        b=[straight, bent, straight],
        matrix=matrix,
        m=[straight, straight, gamma],
        table=(1.0 - lab_to_inks(nodes_lab, 3)).reshape(9, 9, 9, 3),
        a=[straight, gamma, bent],
    )
    tags = common(f"Test curves and tables, {pcs}", 4, PAPER)
    tags |= {f"A2B{number}": forward for number in range(3)} | {f"B2A{number}": back for number in range(3)}
    return write_profile(
        version=(4, 4), profile_class=ProfileClass.OUTPUT, device="RGB", pcs=pcs, made=MADE, tags=tags
    )


def xyz_table_profile(nodes: int) -> bytes:
    """Version 2, a scanner: linear light in a table of XYZ."""
    straight = np.tile([0.0, 1.0], (3, 1))
    light = grid(nodes, 3) @ (WHITE * np.array([[0.4, 0.2, 0.1], [0.35, 0.7, 0.1], [0.25, 0.1, 0.8]]))
    table = encode_stage("XYZ")(light).reshape(nodes, nodes, nodes, 3)
    tags = common("Test scanner", 2, WHITE)
    tags["A2B0"] = table_tag(curves_in=straight, table=table, curves_out=straight)
    return write_profile(
        version=(2, 4), profile_class=ProfileClass.INPUT, device="RGB", pcs="XYZ", made=MADE, tags=tags
    )


def lab_table_profile(counts: tuple[int, int, int]) -> bytes:
    """Version 4, a scanner: a table of Lab with so many nodes a channel, evenly along the root of light."""
    steps = [np.linspace(0.0, 1.0, count) for count in counts]
    roots = np.stack([one.ravel() for one in np.meshgrid(*steps, indexing="ij")], axis=1)
    light = roots**2 @ (WHITE * np.array([[0.4, 0.2, 0.1], [0.35, 0.7, 0.1], [0.25, 0.1, 0.8]]))
    straight = [parametric_tag([1.0])] * 3
    table = encode_stage("Lab")(xyz_to_lab(light)).reshape(*counts, 3)
    tags = common("Test scanner, Lab", 4, WHITE)
    tags["A2B0"] = curve_table_tag(b"mAB ", b=straight, matrix=None, m=(), table=table, a=straight)
    return write_profile(
        version=(4, 4), profile_class=ProfileClass.INPUT, device="RGB", pcs="Lab", made=MADE, tags=tags
    )


def lifted_profile() -> bytes:
    """Version 2, a printer of RGB known by its matrix: curves that begin at the light of its black."""
    d50 = (0.3457, 0.3585)
    matrix = rgb_matrix(primaries=((0.66, 0.33), (0.21, 0.71), (0.15, 0.06)), white=d50, pcs_white=WHITE)
    tags = common("Test black", 2, PAPER)
    for index, (channel, black) in enumerate(zip("rgb", (0.02, 0.015, 0.03), strict=True)):
        tags[f"{channel}XYZ"] = xyz_tag(matrix[:, index].tolist())
        tags[f"{channel}TRC"] = curve_tag(black + (1.0 - black) * np.linspace(0.0, 1.0, 256) ** 2.2)
    return write_profile(
        version=(2, 4), profile_class=ProfileClass.OUTPUT, device="RGB", pcs="XYZ", made=MADE, tags=tags
    )


def main() -> None:
    """Write them all."""
    parser = argparse.ArgumentParser(description="Write the profiles of the colour tests.")
    parser.add_argument("folder", type=Path)
    folder = parser.parse_args().folder
    for name, data in (
        ("matrix-v4", matrix_profile()),
        ("grey-v2", grey_profile()),
        ("cmyk-v2", cmyk_profile()),
        ("curves-lab-v4", curves_profile("Lab")),
        ("curves-xyz-v4", curves_profile("XYZ")),
    ):
        (folder / f"{name}.icc").write_bytes(data)


if __name__ == "__main__":
    main()
