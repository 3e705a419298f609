"""What the page draws of a gamut: the canvas's solid in Lab, and the picture's colours in and about it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.picture_colours import PictureColours
from pycore.colour.spaces.arrays import FloatArray, IndexArray
from pycore.contract.job import Intent


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class GamutSolid:
    """A closed surface with its colours.

    Attributes
    ----------
    lab_d50 : (vertices, 3) float64
        Relative to the canvas's white.
    srgb_encoded : (vertices, 3) float64
        0 to 1.
    triangles : (triangles, 3) intp
    """

    lab_d50: FloatArray
    srgb_encoded: FloatArray
    triangles: IndexArray


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class PicturePoints:
    """Colours of a picture as points, the most frequent first.

    Attributes
    ----------
    lab_d50 : (n, 3) float64
        What the canvas is asked for, relative to its white.
    printed_lab : (n, 3) float64
        Its colorimetric reproduction.
    srgb_encoded : (n, 3) float64
        As filed, 0 to 1.
    share : (n,) float64
        Of the picture.
    difference : (n,) float64
        CIEDE2000 by which it clips; 0 inside.
    """

    lab_d50: FloatArray
    printed_lab: FloatArray
    srgb_encoded: FloatArray
    share: FloatArray
    difference: FloatArray


def gamut_solid(gamut: DeviceGamut) -> GamutSolid:
    """The canvas's gamut, ready to be drawn.

    Parameters
    ----------
    gamut : DeviceGamut

    Returns
    -------
    GamutSolid
    """
    to_srgb = make_transform(
        Standard.LAB, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    return GamutSolid(
        lab_d50=gamut.mesh.lab_d50,
        srgb_encoded=to_srgb(gamut.mesh.lab_d50),
        triangles=gamut.mesh.triangles,
    )


def picture_points(
    colours: PictureColours,
    source: Endpoint,
    gamut: DeviceGamut,
    *,
    intent: Intent,
    black_point_compensation: bool,
    most: int,
) -> PicturePoints:
    """The picture's colours in the same space as the solid.

    Parameters
    ----------
    colours : PictureColours
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
    most : int
        How many points at most; half of them are kept for what clips, so that rare clipped colours are seen.

    Returns
    -------
    PicturePoints

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    wanted_lab = request(colours.rgb_encoded)
    lost = clipping(gamut, wanted_lab)
    by_share = np.argsort(-colours.weights, kind="stable")
    clipped = by_share[lost.difference[by_share] > 0.0][: most // 2]
    inside = by_share[lost.difference[by_share] == 0.0][: most - len(clipped)]
    chosen = np.concatenate([inside, clipped])
    chosen = chosen[np.argsort(-colours.weights[chosen], kind="stable")]
    filed = make_transform(source, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True)
    return PicturePoints(
        lab_d50=wanted_lab[chosen],
        printed_lab=lost.printed_lab[chosen],
        srgb_encoded=filed(colours.rgb_encoded[chosen]),
        share=colours.weights[chosen],
        difference=lost.difference[chosen],
    )
