"""Colours from one profile, or standard space, to another: the public door of the ICC engine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.elements import Affine, Stage, run
from pycore.colour.icc.endpoints import Endpoint, Standard, between, channels, enter, leave
from pycore.colour.icc.profile import Profile
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import lab_to_xyz, xyz_to_lab
from pycore.contract.job import Intent
from pycore.errors import FieldError
from pycore.speech import say

__all__ = [
    "Endpoint",
    "Standard",
    "Transform",
    "hold",
    "make_answer",
    "make_request",
    "make_return",
    "make_transform",
]

#: Rows worked on at a time: small enough for the processor's cache, whatever the picture's size.
_ROWS: Final = 32768


@dataclass(frozen=True, kw_only=True, slots=True)
class Transform:
    """A ready way from one space to another.

    Attributes
    ----------
    stages : tuple of Stage
    inputs, outputs : int
        Channels.
    """

    stages: tuple[Stage, ...]
    inputs: int
    outputs: int

    def __call__(self, values: FloatArray) -> FloatArray:
        """Transform colours.

        Parameters
        ----------
        values : (n, inputs) float64
            Device values 0 to 1; Lab or XYZ as they are.

        Returns
        -------
        (n, outputs) float64
            Device values clipped to 0 to 1; Lab or XYZ as they come.

        Raises
        ------
        FieldError
            The array has another shape, or holds what is not finite.
        """
        if values.ndim != 2 or values.shape[1] != self.inputs:
            raise FieldError(
                field="values",
                expected=say("rows of {inputs} numbers", inputs=self.inputs),
                got=say("an array of shape {shape}", shape=values.shape),
                remedy=say("give one colour a row"),
            )
        if not np.all(np.isfinite(values)):
            raise FieldError(
                field="values",
                expected=say("finite numbers"),
                got=say("infinities or what is no number"),
                remedy=say("check where the colours come from"),
            )
        result = np.empty((len(values), self.outputs))
        for start in range(0, len(values), _ROWS):
            result[start : start + _ROWS] = run(self.stages, values[start : start + _ROWS])
        return result

    def then(self, following: Transform) -> Transform:
        """Join a transform to the end of this one.

        Parameters
        ----------
        following : Transform
            Its inputs are this one's outputs.

        Returns
        -------
        Transform
            Both, one after the other.
        """
        return Transform(
            stages=(*self.stages, *following.stages), inputs=self.inputs, outputs=following.outputs
        )


def make_transform(
    source: Endpoint, target: Endpoint, *, intent: Intent, black_point_compensation: bool
) -> Transform:
    """Join two profiles, or a profile and a standard space.

    Parameters
    ----------
    source, target : Profile or Standard
    intent : Intent
        Chooses the tables of both profiles.
    black_point_compensation : bool
        Has no effect on the absolute intent.

    Returns
    -------
    Transform

    Raises
    ------
    ProfileError
        A profile lacks what this direction needs, or is damaged.

    References
    ----------
    ICC.1:2022, 6.3 and annex F; ISO 18619:2015 for the compensation.

    Examples
    --------
    >>> to_lab = make_transform(
    ...     Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    ... )
    >>> to_lab(np.array([[1.0, 1.0, 1.0], [1.0, 0.0, 0.0]])).round(2).tolist()
    [[100.0, 0.0, 0.0], [54.29, 80.81, 69.89]]
    """
    there = leave(source, intent)
    back = enter(target, intent)
    middle = between(source, target, intent=intent, black_point_compensation=black_point_compensation)
    # Tables may overshoot by rounding; no device takes more than full scale.
    end: tuple[Stage, ...] = (hold,) if isinstance(target, Profile) else ()
    return Transform(
        stages=(*there.stages, *_joint(there.pcs, middle, back.pcs), *back.stages, *end),
        inputs=channels(source),
        outputs=channels(target),
    )


def make_request(
    source: Endpoint, target: Endpoint, *, intent: Intent, black_point_compensation: bool
) -> Transform:
    """What a target is asked for: the way to it, as far as its connection space.

    Parameters
    ----------
    source, target : Profile or Standard
    intent : Intent
    black_point_compensation : bool

    Returns
    -------
    Transform
        To Lab relative to the target's media white, after the compensation or the change of white.

    Raises
    ------
    ProfileError
        As for `make_transform`.
    """
    there = leave(source, intent)
    middle = between(source, target, intent=intent, black_point_compensation=black_point_compensation)
    stages = (*there.stages, *_joint(there.pcs, middle, "Lab"))
    return Transform(stages=stages, inputs=channels(source), outputs=3)


def make_answer(target: Endpoint, *, intent: Intent) -> Transform:
    """The way on from what `make_request` gives to the target's values.

    Parameters
    ----------
    target : Profile or Standard
    intent : Intent
        As it was for the request.

    Returns
    -------
    Transform
        From Lab relative to the target's media white. The request and then this is what `make_transform`
        does.

    Raises
    ------
    ProfileError
        As for `make_transform`.
    """
    back = enter(target, intent)
    end: tuple[Stage, ...] = (hold,) if isinstance(target, Profile) else ()
    return Transform(
        stages=(*_joint("Lab", None, back.pcs), *back.stages, *end), inputs=3, outputs=channels(target)
    )


def make_return(
    source: Endpoint, target: Profile, *, intent: Intent, black_point_compensation: bool
) -> Transform:
    """The way back from what `make_request` gives to the source's values.

    Parameters
    ----------
    source : Profile or Standard
    target : Profile
    intent : Intent
    black_point_compensation : bool
        All as they were for the request.

    Returns
    -------
    Transform
        From Lab relative to the target's media white to the source's values.

    Raises
    ------
    ProfileError
        As for `make_transform`; also when the source has no way back from Lab.
    """
    back = enter(source, intent)
    middle = between(source, target, intent=intent, black_point_compensation=black_point_compensation)
    if middle is not None:
        inverse: FloatArray = np.linalg.inv(middle.matrix).astype(np.float64)
        middle = Affine(matrix=inverse, offset=-inverse @ middle.offset)
    end: tuple[Stage, ...] = (hold,) if isinstance(source, Profile) else ()
    return Transform(
        stages=(*_joint("Lab", middle, back.pcs), *back.stages, *end),
        inputs=3,
        outputs=channels(source),
    )


def _joint(first: str, middle: Affine | None, second: str) -> tuple[Stage, ...]:
    """Between two connection spaces, through XYZ where something happens there."""
    if middle is None:
        if first == second:
            return ()
        return (lab_to_xyz if first == "Lab" else xyz_to_lab,)
    before: tuple[Stage, ...] = (lab_to_xyz,) if first == "Lab" else ()
    after: tuple[Stage, ...] = (xyz_to_lab,) if second == "Lab" else ()
    return (*before, middle, *after)


def hold(values: FloatArray) -> FloatArray:
    """Hold device values to what a device takes.

    Parameters
    ----------
    values : (n, channels) float64

    Returns
    -------
    (n, channels) float64
        0 to 1.
    """
    return np.clip(values, 0.0, 1.0)
