"""A canvas, known by its profile, made ready for questions about what it can hold."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from pycore.colour.gamut.inside import InsideTest
from pycore.colour.gamut.mesh import GamutMesh, gamut_mesh
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import Profile
from pycore.colour.icc.transform import Transform, make_transform
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent


class ClipKind(IntEnum):
    """In what way a colour is lost."""

    NONE = 0
    CHROMA = 1
    SHADOW = 2
    HIGHLIGHT = 3


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class DeviceGamut:
    """A profile with its gamut, all relative to the media white.

    Attributes
    ----------
    profile : Profile
    mesh : GamutMesh
    inside : InsideTest
    to_device : Transform
        Lab to device values by the colorimetric table.
    to_lab : Transform
        Device values to Lab by the colorimetric table.
    black : float
        L* of the darkest grey that is reached: what asking for black gives.
    """

    profile: Profile
    mesh: GamutMesh
    inside: InsideTest
    to_device: Transform
    to_lab: Transform
    black: float

    def reproduce(self, lab_d50: FloatArray) -> FloatArray:
        """The colorimetric reproduction of colours.

        Parameters
        ----------
        lab_d50 : (n, 3) float64

        Returns
        -------
        (n, 3) float64
            Lab as printed, in the same terms.
        """
        return self.to_lab(self.to_device(lab_d50))


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Clipping:
    """What becomes of colours on a canvas.

    Attributes
    ----------
    printed_lab : (n, 3) float64
        Their colorimetric reproduction.
    difference : (n,) float64
        CIEDE2000 to it; 0 for what lies inside the gamut.
    kind : (n,) uint8
        A `ClipKind` where the difference is above 0.
    """

    printed_lab: FloatArray
    difference: FloatArray
    kind: ByteArray


def make_device_gamut(profile: Profile) -> DeviceGamut:
    """Make a canvas profile ready.

    Parameters
    ----------
    profile : Profile
        Of an RGB or CMYK printer, or of a display.

    Returns
    -------
    DeviceGamut

    Raises
    ------
    ProfileError
        The profile has only one direction, is grey, or is damaged.
    """
    to_device = make_transform(Standard.LAB, profile, intent=Intent.RELATIVE, black_point_compensation=False)
    to_lab = make_transform(profile, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    mesh = gamut_mesh(profile, intent=Intent.RELATIVE)
    return DeviceGamut(
        profile=profile,
        mesh=mesh,
        inside=InsideTest(mesh),
        to_device=to_device,
        to_lab=to_lab,
        black=float(to_lab(to_device(np.zeros((1, 3))))[0, 0]),
    )


def clipping(gamut: DeviceGamut, wanted_lab: FloatArray) -> Clipping:
    """Find which colours a canvas cannot hold, and how far it misses them.

    A colour inside the boundary does not clip, however its table rounds it. Outside, shadows are what is
    darker than the canvas's black, highlights what comes out darker by more than it loses in chroma; the rest
    is chroma.

    Parameters
    ----------
    gamut : DeviceGamut
    wanted_lab : (n, 3) float64
        What the canvas is asked for, relative to its media white.

    Returns
    -------
    Clipping
    """
    printed = gamut.reproduce(wanted_lab)
    difference = np.where(gamut.inside(wanted_lab), 0.0, delta_e_2000(wanted_lab, printed))
    darker = wanted_lab[:, 0] - printed[:, 0]
    duller = np.hypot(wanted_lab[:, 1], wanted_lab[:, 2]) - np.hypot(printed[:, 1], printed[:, 2])
    kind = np.full(len(wanted_lab), ClipKind.CHROMA, dtype=np.uint8)
    kind[(darker > 0.0) & (darker > duller)] = ClipKind.HIGHLIGHT
    kind[wanted_lab[:, 0] < gamut.black] = ClipKind.SHADOW
    kind[difference == 0.0] = ClipKind.NONE
    return Clipping(printed_lab=printed, difference=difference, kind=kind)
