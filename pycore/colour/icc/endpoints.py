"""Where colours come from and go to: profiles, and standard spaces that need none."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

import numpy as np

from pycore.colour.icc.black_point import compensation, source_black, target_black
from pycore.colour.icc.device import CHANNELS, Direction, from_connection, to_connection
from pycore.colour.icc.elements import Affine, Curves
from pycore.colour.icc.encodings import XYZ_FULL
from pycore.colour.icc.profile import Profile, require_device
from pycore.colour.icc.white import media_white
from pycore.colour.spaces.adapt import rgb_matrix
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ
from pycore.colour.spaces.srgb import D65_XY, SRGB_CURVE, SRGB_PRIMARIES, srgb_encode, srgb_encode_unbounded
from pycore.contract.job import Intent


class Standard(StrEnum):
    """Spaces that need no profile. Their white is D50 and their black is nothing at all.

    The unbounded ones hold nothing to 0 to 1: they are meant for tables that are interpolated first.
    """

    LAB = "lab"
    XYZ = "xyz"
    SRGB = "srgb"
    SRGB_UNBOUNDED = "srgb-unbounded"
    DISPLAY_P3 = "display-p3"
    DISPLAY_P3_UNBOUNDED = "display-p3-unbounded"


Endpoint = Profile | Standard

#: Published: SMPTE EG 432-1. The white is sRGB's.
P3_PRIMARIES: Final = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))

#: Blacks that are no further apart than this are the same: the deviations of the scaling's matrix and offset
#: from doing nothing, added up. It is a quarter of a step of L* in the deepest black. Common practice:
#: LittleCMS's.
_NO_SCALING: Final = 0.002

_UNBOUNDED: Final = (Standard.SRGB_UNBOUNDED, Standard.DISPLAY_P3_UNBOUNDED)


def channels(end: Endpoint) -> int:
    """Count the numbers of one colour at an end.

    Parameters
    ----------
    end : Profile or Standard

    Returns
    -------
    int
        1, 3 or 4.

    Raises
    ------
    ProfileError
        The profile is of a device with other channels.
    """
    return CHANNELS[require_device(end)] if isinstance(end, Profile) else 3


def leave(source: Endpoint, intent: Intent) -> Direction:
    """From an endpoint to the connection space.

    Parameters
    ----------
    source : Profile or Standard
    intent : Intent

    Returns
    -------
    Direction

    Raises
    ------
    ProfileError
        The profile lacks what is needed, or is damaged.
    """
    if isinstance(source, Profile):
        return to_connection(source, intent=intent)
    if source in (Standard.LAB, Standard.XYZ):
        return Direction(stages=(), pcs="Lab" if source is Standard.LAB else "XYZ", source=source.value)
    curves = Curves(curves=(SRGB_CURVE,) * 3)
    matrix = Affine(matrix=_standard_matrix(source), offset=np.zeros(3))
    return Direction(stages=(curves, matrix), pcs="XYZ", source=source.value)


def enter(target: Endpoint, intent: Intent) -> Direction:
    """From the connection space to an endpoint.

    Parameters
    ----------
    target : Profile or Standard
    intent : Intent

    Returns
    -------
    Direction

    Raises
    ------
    ProfileError
        The profile lacks what is needed, or is damaged.
    """
    if isinstance(target, Profile):
        return from_connection(target, intent=intent)
    if target in (Standard.LAB, Standard.XYZ):
        return Direction(stages=(), pcs="Lab" if target is Standard.LAB else "XYZ", source=target.value)
    inverse: FloatArray = np.linalg.inv(_standard_matrix(target)).astype(np.float64)
    # Display P3 has the curve and the white of sRGB, and other primaries.
    encode = srgb_encode_unbounded if target in _UNBOUNDED else srgb_encode
    stages = (Affine(matrix=inverse, offset=np.zeros(3)), encode)
    return Direction(stages=stages, pcs="XYZ", source=target.value)


def between(
    source: Endpoint, target: Endpoint, *, intent: Intent, black_point_compensation: bool
) -> Affine | None:
    """What happens to XYZ on the way from one endpoint to the other.

    Parameters
    ----------
    source, target : Profile or Standard
    intent : Intent
    black_point_compensation : bool
        Has no effect on the absolute intent.

    Returns
    -------
    Affine or None
        None where nothing happens.

    Raises
    ------
    ProfileError
        A profile lacks its white, or cannot be evaluated.

    References
    ----------
    ICC.1:2022, 6.3.2.2, equations (1) to (3); ISO 18619:2015.
    """
    if intent is Intent.ABSOLUTE:
        gains = _white(source) / _white(target)
        return None if np.all(gains == 1.0) else Affine(matrix=np.diag(gains), offset=np.zeros(3))
    if not black_point_compensation:
        return None
    first = source_black(source, intent=intent) if isinstance(source, Profile) else np.zeros(3)
    second = target_black(target, intent=intent) if isinstance(target, Profile) else np.zeros(3)
    scaling = compensation(source=first, target=second)
    moved = float(np.abs(scaling.matrix - np.eye(3)).sum() + np.abs(scaling.offset).sum() / XYZ_FULL)
    return None if moved < _NO_SCALING else scaling


def _white(end: Endpoint) -> FloatArray:
    return media_white(end) if isinstance(end, Profile) else np.array(D50_XYZ)


def _standard_matrix(space: Standard) -> FloatArray:
    srgb = space in (Standard.SRGB, Standard.SRGB_UNBOUNDED)
    primaries = SRGB_PRIMARIES if srgb else P3_PRIMARIES
    return rgb_matrix(primaries=primaries, white=D65_XY, pcs_white=np.array(D50_XYZ))
