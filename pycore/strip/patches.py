"""Which colours a proof strip shows: bare canvas, greys, and of each of the worst colour groups two."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut, clipping
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.clip_report import ClipReport
from pycore.colour.mapping.hue_groups import GREY_CHROMA, hue_groups, hue_name
from pycore.colour.spaces.arrays import ByteArray, FloatArray, IndexArray
from pycore.colour.spaces.lab import chroma_hue
from pycore.contract.job import Colour
from pycore.picture.source import SourcePicture
from pycore.proofing.proof_input import ProofInput
from pycore.render.plain_colour import plain_values
from pycore.speech import say

#: Patches in a row of the strip.
COLUMNS: Final = 5

#: Greys of sRGB from white to black, in steps that the eye takes as about even. Common practice.
_GREYS: Final = (255, 224, 192, 160, 128, 96, 64, 32, 0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Patch:
    """One colour of the strip.

    Attributes
    ----------
    name : str
        What it shows, for example "red, worst", in the language in use.
    values : tuple of int or None
        8-bit values of the picture that is rendered; None for canvas without ink.
    """

    name: str
    values: tuple[int, ...] | None


def patch_ids(count: int) -> list[str]:
    """The names that patches have on the strip: a letter for the row, a number for the column.

    Parameters
    ----------
    count : int
        At most 26 rows of patches.

    Returns
    -------
    list of str

    Examples
    --------
    >>> patch_ids(6)
    ['A1', 'A2', 'A3', 'A4', 'A5', 'B1']
    """
    return [f"{chr(ord('A') + place // COLUMNS)}{place % COLUMNS + 1}" for place in range(count)]


def strip_patches(
    source: SourcePicture,
    proof_input: ProofInput,
    report: ClipReport,
    gamut: DeviceGamut,
    colour: Colour,
) -> list[Patch]:
    """Choose the patches of a strip.

    Of each group of colours that lie outside the gamut there are its mean and its worst; of a picture that
    lies inside, the mean of each of its own groups.

    Parameters
    ----------
    source : SourcePicture
        What is rendered.
    proof_input : ProofInput
        The picture on its canvas as it is filed.
    report : ClipReport
        What of it clips.
    gamut : DeviceGamut
    colour : Colour
        Of the job.

    Returns
    -------
    list of Patch

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    to_values = plain_values(source)
    greys = [
        Patch(name=say("grey {value}", value=value), values=to_values(f"#{value:02x}{value:02x}{value:02x}"))
        for value in _GREYS
    ]
    own = source.image.mode == "RGB"
    coloured = []
    for name, rgb in _groups(proof_input, report, gamut, colour):
        codes = [int(one) for one in np.floor(rgb * 255.0 + 0.5)]
        # What is proofed has the picture's own values where that is RGB, and sRGB's where it is not.
        values = tuple(codes) if own else to_values("#{:02x}{:02x}{:02x}".format(*codes))
        coloured.append(Patch(name=name, values=values))
    return [Patch(name=say("bare canvas"), values=None), *greys, *coloured]


def _groups(
    proof_input: ProofInput, report: ClipReport, gamut: DeviceGamut, colour: Colour
) -> list[tuple[str, FloatArray]]:
    """Names and encoded values, the group that is missed most first."""
    request = clip_request(
        proof_input.space,
        gamut,
        intent=colour.intent,
        black_point_compensation=colour.black_point_compensation,
    )
    rgb, weights = proof_input.colours.rgb_encoded, proof_input.colours.weights
    wanted_lab = request(rgb)
    found: list[tuple[str, FloatArray]] = []
    if report.groups:
        difference = clipping(gamut, wanted_lab).difference
        for group in sorted(report.groups, key=lambda one: (-one.worst_de, one.number)):
            members = np.flatnonzero(report.labels == group.number)
            worst = members[np.argmax(difference[members])]
            found.append((say("{group}, mean", group=group.name), _mean(rgb, weights, members)))
            found.append((say("{group}, worst", group=group.name), rgb[worst]))
        return found
    labels: ByteArray = hue_groups(wanted_lab, weights)
    for number in range(1, int(labels.max(initial=0)) + 1):
        members = np.flatnonzero(labels == number)
        mean_lab = _mean(wanted_lab, weights, members)
        chroma, hue = chroma_hue(mean_lab)
        name = say("greys") if float(chroma) < GREY_CHROMA else hue_name(float(np.degrees(hue)))
        found.append((say("{group}, mean", group=name), _mean(rgb, weights, members)))
    return found


def _mean(values: FloatArray, weights: FloatArray, members: IndexArray) -> FloatArray:
    mean: FloatArray = np.average(values[members], axis=0, weights=weights[members])
    return mean
