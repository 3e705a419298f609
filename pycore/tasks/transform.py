"""Single colours through two profiles, for checking the engine against others."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Transform, make_transform
from pycore.contract.job import Intent
from pycore.errors import FieldError, shown
from pycore.speech import say

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


def check_values(source: Endpoint, values: NDArray[np.float64]) -> None:
    """Refuse what no device can be given: nothing is held to its range in silence.

    Parameters
    ----------
    source : Profile or Standard
        Where the colours come from; those of CIELAB and XYZ have no such range.
    values : (n, inputs) float64

    Raises
    ------
    FieldError
        A device's value is below 0 or above 1.

    Examples
    --------
    >>> check_values(Standard.SRGB, np.array([[0.5, 0.0, 1.0]]))
    """
    if source in (Standard.LAB, Standard.XYZ):
        return
    wrong = np.flatnonzero(((values < 0) | (values > 1)).any(axis=1))
    if len(wrong):
        raise FieldError(
            field=say("colour {number}", number=int(wrong[0]) + 1),
            expected=say("numbers from 0 to 1"),
            got=shown(" ".join(f"{one:g}" for one in values[wrong[0]])),
            remedy=say("give each as a share of 1: 128 of 255 is 0.502"),
        )


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
