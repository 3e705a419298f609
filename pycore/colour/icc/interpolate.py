"""Interpolation in colour tables of one, three and four inputs."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from pycore.colour.spaces.arrays import FloatArray, IndexArray


class Interpolation(StrEnum):
    """How a value between the nodes of a table of three or four inputs is found."""

    TETRAHEDRAL = "tetrahedral"
    TRILINEAR = "trilinear"


def interpolate(table: FloatArray, values: FloatArray, *, method: Interpolation) -> FloatArray:
    """Look values up in a table.

    Four inputs are taken as a pair of tables of the last three, joined along the first by a straight line.

    Parameters
    ----------
    table : (nodes, …, nodes, outputs) float64
        One axis per input (1, 3 or 4), each of at least two nodes, equally spaced over 0 to 1.
    values : (n, inputs) float64
        Held to 0 to 1.
    method : Interpolation
        For three and four inputs; one input is always joined by straight lines.

    Returns
    -------
    (n, outputs) float64

    References
    ----------
    ICC.1:2022, 10.10 to 10.13 leave the method open. The tetrahedra are those of Sakamoto (1981), about the
    diagonal from the first node to the last.

    Examples
    --------
    >>> cube = np.stack(np.meshgrid([0.0, 1.0], [0.0, 1.0], [0.0, 1.0], indexing="ij"), axis=-1)
    >>> interpolate(cube, np.array([[0.25, 0.5, 0.75]]), method=Interpolation.TETRAHEDRAL).tolist()
    [[0.25, 0.5, 0.75]]
    """
    nodes = table.shape[:-1]
    inputs = len(nodes)
    flat = table.reshape(-1, table.shape[-1])
    strides = [int(np.prod(nodes[axis + 1 :])) for axis in range(inputs)]
    base = np.zeros(len(values), dtype=np.intp)
    parts: list[FloatArray] = []
    for axis in range(inputs):
        place = np.clip(values[:, axis], 0.0, 1.0) * (nodes[axis] - 1)
        left = np.minimum(place.astype(np.intp), nodes[axis] - 2)
        parts.append(place - left)
        base += left * strides[axis]
    if inputs == 1:
        return _between(flat[base], flat[base + 1], parts[0])
    cell = _tetrahedron if method is Interpolation.TETRAHEDRAL else _box
    if inputs == 3:
        return cell(flat, base, strides, parts)
    low = cell(flat, base, strides[1:], parts[1:])
    high = cell(flat, base + strides[0], strides[1:], parts[1:])
    return _between(low, high, parts[0])


def _between(low: FloatArray, high: FloatArray, part: FloatArray) -> FloatArray:
    result: FloatArray = low + (high - low) * part[:, None]
    return result


def _tetrahedron(
    flat: FloatArray, base: IndexArray, strides: list[int], parts: list[FloatArray]
) -> FloatArray:
    """From the cell's first node to its last, along its edges in falling order of the fractions."""
    x, y, z = parts
    step_x, step_y, step_z = strides
    most = np.maximum(np.maximum(x, y), z)
    least = np.minimum(np.minimum(x, y), z)
    middle = np.maximum(np.minimum(x, y), np.minimum(np.maximum(x, y), z))
    # On equal fractions the first axis counts as the larger, in both lines, so that no axis is taken twice.
    first = np.where((x >= y) & (x >= z), step_x, np.where(y >= z, step_y, step_z))
    last = np.where((z <= x) & (z <= y), step_z, np.where(y <= x, step_y, step_x))
    far = base + (step_x + step_y + step_z)
    result: FloatArray = flat[base] * (1.0 - most)[:, None]
    result += flat[base + first] * (most - middle)[:, None]
    result += flat[far - last] * (middle - least)[:, None]
    result += flat[far] * least[:, None]
    return result


def _box(flat: FloatArray, base: IndexArray, strides: list[int], parts: list[FloatArray]) -> FloatArray:
    x, y, z = parts
    step_x, step_y, step_z = strides

    def along_z(at: IndexArray) -> FloatArray:
        return _between(flat[at], flat[at + step_z], z)

    def along_y(at: IndexArray) -> FloatArray:
        return _between(along_z(at), along_z(at + step_y), y)

    return _between(along_y(base), along_y(base + step_x), x)
