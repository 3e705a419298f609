"""The boundary of what a device can show: the surface of its device cube in Lab, as a closed mesh."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import Profile, require_device
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.arrays import FloatArray, IndexArray
from pycore.contract.job import Intent
from pycore.errors import ProfileError
from pycore.speech import say

#: Points along each edge of the device cube: 6 faces of 24 by 24 squares. Odd, for the way through CMYK.
MESH_NODES: Final = 25


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class GamutMesh:
    """A closed surface in Lab.

    Attributes
    ----------
    lab_d50 : (vertices, 3) float64
    triangles : (triangles, 3) intp
        Vertices in order, counter-clockwise seen from outside with a* right, b* up, L* towards the viewer.
    device : (vertices, channels) float64
        The device values, 0 to 1, that give each vertex.
    """

    lab_d50: FloatArray
    triangles: IndexArray
    device: FloatArray

    @property
    def volume(self) -> float:
        """Cubic Lab units inside, by the divergence theorem."""
        return _signed_volume(self.lab_d50, self.triangles)


def gamut_mesh(profile: Profile, *, intent: Intent) -> GamutMesh:
    """The boundary from a profile's forward table.

    Parameters
    ----------
    profile : Profile
        Of an RGB or CMYK device.
    intent : Intent
        Relative gives the gamut with the media white at L* 100, absolute as it is under D50.

    Returns
    -------
    GamutMesh

    Raises
    ------
    ProfileError
        A grey device has no solid; or the profile cannot be evaluated.

    References
    ----------
    CIE 156:2004 for the word. CMYK has a cube's surface too: from white down the three light faces without
    black to the ring of full colours, along the ring to full black, and on to full ink.
    """
    device_space = require_device(profile)
    if device_space == "GRAY":
        raise ProfileError(
            field="profile colour space",
            expected=say("RGB or CMYK, which span a solid of colours"),
            got=say("grey"),
            remedy=say("choose the profile of the canvas on its printer"),
        )
    corners, triangles = cube_surface(MESH_NODES)
    device = corners if device_space == "RGB" else _inks(corners)
    transform = make_transform(profile, Standard.LAB, intent=intent, black_point_compensation=False)
    lab_d50 = transform(device)
    if _signed_volume(lab_d50, triangles) < 0.0:
        triangles = triangles[:, ::-1]
    return GamutMesh(lab_d50=lab_d50, triangles=np.ascontiguousarray(triangles), device=device)


def cube_surface(nodes: int) -> tuple[FloatArray, IndexArray]:
    """The surface of the unit cube.

    Parameters
    ----------
    nodes : int
        Points along each edge, at least 2.

    Returns
    -------
    tuple of (vertices, 3) float64 and (triangles, 3) intp
        No vertex twice; all triangles seen the same way round from outside.

    Examples
    --------
    >>> points, triangles = cube_surface(3)
    >>> len(points), len(triangles)
    (26, 48)
    """
    steps = np.arange(nodes)
    row, column = (one.ravel() for one in np.meshgrid(steps, steps, indexing="ij"))
    at = np.arange(nodes * nodes).reshape(nodes, nodes)
    a, b, c, d = (one.ravel() for one in (at[:-1, :-1], at[1:, :-1], at[1:, 1:], at[:-1, 1:]))
    square = np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)])
    points: list[IndexArray] = []
    triangles: list[IndexArray] = []
    for axis in range(3):
        for end in (0, nodes - 1):
            face = np.empty((nodes * nodes, 3), dtype=np.intp)
            face[:, axis] = end
            # Cyclic order makes every face's first direction cross its second point along +axis.
            face[:, (axis + 1) % 3], face[:, (axis + 2) % 3] = row, column
            triangles.append((square if end else square[:, ::-1]) + len(points) * nodes * nodes)
            points.append(face)
    unique, where = np.unique(np.concatenate(points), axis=0, return_inverse=True)
    return unique / (nodes - 1), where.reshape(-1)[np.concatenate(triangles)].astype(np.intp)


def _inks(corners: FloatArray) -> FloatArray:
    """The surface of a CMYK gamut over the surface of the RGB cube."""
    most = corners.max(axis=1, keepdims=True)
    ring = np.divide(corners, most, out=np.zeros_like(corners), where=most > 0.0)
    # From the ring to the black corner: first the black ink comes in, then the colours fill up under it.
    inks = 1.0 - ring * np.minimum(2.0 * most, 1.0)
    black = np.minimum(2.0 * (1.0 - most), 1.0)
    return np.concatenate([inks, black], axis=1)


def _signed_volume(points: FloatArray, triangles: IndexArray) -> float:
    # L* is the height above the (a*, b*) plane, which makes (a*, b*, L*) right-handed.
    a, b, c = (points[triangles[:, index]][:, [1, 2, 0]] for index in range(3))
    return float(np.sum(a * np.cross(b, c)) / 6.0)
