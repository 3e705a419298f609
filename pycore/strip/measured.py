"""A measured strip against what the profile promised for it."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.cgats.table import cgats_fault
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.record import Triple
from pycore.speech import say
from pycore.strip.report import MeasuredPatch, StripCheck
from pycore.strip.values import StripValues

#: A print that is off by more than this on average is rather another strip than a bad one. Common practice.
_DOUBTFUL_DE: Final = 15.0


def check_strip(expected: StripValues, measured: StripValues) -> StripCheck:
    """Compare a measured strip with what the profile promised.

    Parameters
    ----------
    expected : StripValues
        As they were written beside the strip.
    measured : StripValues
        Of the same patches, in any order; or numbered 1, 2, 3 in the strip's order.

    Returns
    -------
    StripCheck

    Raises
    ------
    FieldError
        They are of another strip, or a patch is missing or unknown.

    References
    ----------
    ISO/CIE 11664-6:2022 (CIEDE2000).
    """
    if not expected.ids:
        raise cgats_fault(
            "expected", say("The strip's own values have no patches."), say("save the strip again")
        )
    if expected.strip_id and measured.strip_id and expected.strip_id != measured.strip_id:
        raise cgats_fault(
            "measured",
            say(
                "The measured values are of the strip {strip_id}, not of {strip_id2}.",
                strip_id=measured.strip_id[:20],
                strip_id2=expected.strip_id[:20],
            ),
            say("open the values that belong to this strip"),
        )
    lab = measured.lab_d50[_order(expected.ids, measured.ids)]
    difference = delta_e_2000(expected.lab_d50, lab)
    greys = [
        place
        for place, name in enumerate(expected.names)
        if name == "bare canvas" or name.startswith("grey ")
    ]
    patches = [
        MeasuredPatch(
            id=expected.ids[place],
            name=expected.names[place],
            expected_lab=_triple(expected.lab_d50[place]),
            measured_lab=_triple(lab[place]),
            de=float(difference[place]),
        )
        for place in np.argsort(-difference, kind="stable")
    ]
    return StripCheck(
        strip_id=expected.strip_id,
        patches=patches,
        mean_de=float(difference.mean()),
        worst_de=float(difference.max()),
        greys_mean_de=float(difference[greys].mean()) if greys else 0.0,
        doubtful=bool(difference.mean() > _DOUBTFUL_DE),
    )


def _order(expected: list[str], measured: list[str]) -> list[int]:
    """Where each expected patch stands among the measured ones."""
    if len(measured) != len(expected):
        raise cgats_fault(
            "measured",
            say(
                "The measured values have {measured_count} patches, and the strip has {expected_count}.",
                measured_count=len(measured),
                expected_count=len(expected),
            ),
            say("measure every patch of this strip once"),
        )
    if measured == [str(place + 1) for place in range(len(expected))]:
        return list(range(len(expected)))
    places = {patch_id: place for place, patch_id in enumerate(measured)}
    missing = [patch_id for patch_id in expected if patch_id not in places]
    if missing:
        raise cgats_fault(
            "measured",
            say(
                "The measured values have no patch {missing0}; they are of another strip.",
                missing0=missing[0][:20],
            ),
            say("open the values that belong to this strip"),
        )
    return [places[patch_id] for patch_id in expected]


def _triple(lab: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> Triple:
    first, second, third = (float(one) for one in lab)
    return first, second, third
