"""Single colours through two profiles, for checking the engine against others."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Transform, make_transform
from pycore.contract.job import Intent

#: Endpoints that need no file, by the names that a user gives them.
STANDARD_NAMES: Final = {one.value: one for one in (Standard.LAB, Standard.XYZ, Standard.SRGB)}


def endpoint(data: bytes) -> Endpoint:
    """Open one end of a transform from a profile's file.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    Profile

    Raises
    ------
    ProfileError
        It is damaged.
    """
    return parse_profile(data)


def colour_transform(
    source: Endpoint, target: Endpoint, *, intent: Intent, black_point_compensation: bool
) -> Transform:
    """Make the transform from one end to the other.

    Parameters
    ----------
    source, target : Profile or Standard
    intent : Intent
    black_point_compensation : bool
        By ISO 18619.

    Returns
    -------
    Transform
        Maps (n, inputs) float64 to (n, outputs) float64; device values are 0 to 1.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    return make_transform(source, target, intent=intent, black_point_compensation=black_point_compensation)


def transform_colours(transform: Transform, values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Take colours through a transform; none at all give none.

    Parameters
    ----------
    transform : Transform
    values : (n, inputs) float64

    Returns
    -------
    (n, outputs) float64
    """
    return transform(values) if len(values) else np.empty((0, transform.outputs))
