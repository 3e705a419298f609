"""Where a picture leaves a canvas's gamut: shares for each part of it, and the clipped colours in groups."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.gamut.device_gamut import ClipKind, Clipping, DeviceGamut, clipping
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.proof import clip_request, proof_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.hue_groups import GREY_CHROMA, hue_groups, hue_name
from pycore.colour.mapping.picture_colours import PictureColours, label_pixels
from pycore.colour.spaces.arrays import BoolArray, ByteArray, FloatArray
from pycore.colour.spaces.lab import chroma_hue
from pycore.contract.job import Intent
from pycore.speech import say

#: A group's place leaves out this share of its pixels at each edge, so that specks do not stretch it.
_STRAYS: Final = 0.05


@dataclass(frozen=True, kw_only=True, slots=True)
class RegionClip:
    """One part of the picture. All shares are of its own pixels, 0 to 1."""

    name: str
    share: float
    chroma: float
    shadow: float
    highlight: float
    mean_de: float
    """CIEDE2000, over what clips; 0 where nothing does."""
    worst_de: float


@dataclass(frozen=True, kw_only=True, slots=True)
class ClipGroup:
    """Clipped colours of about one hue."""

    number: int
    """From 1 on, the largest first; the label of its pixels."""
    name: str
    share: float
    """Of the whole picture."""
    filed: str
    """Its mean colour as filed, #rrggbb in sRGB."""
    printed: str
    """The same as printed by the job's intent, shown on the screen's white."""
    mean_de: float
    worst_de: float
    place: tuple[float, float, float, float]
    """x, y, width and height of the box that holds most of it, in fractions from the top-left corner."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ClipReport:
    """What of a picture lies outside the gamut.

    Attributes
    ----------
    threshold_de : float
        What differs by no more than this does not count.
    outside_share : float
        Of all regions' pixels, 0 to 1.
    regions : tuple of RegionClip
    groups : tuple of ClipGroup
        At most eight.
    labels : (n,) uint8
        The group of each bin of the picture's colours, 0 where it does not clip.
    """

    threshold_de: float
    outside_share: float
    regions: tuple[RegionClip, ...]
    groups: tuple[ClipGroup, ...]
    labels: ByteArray


def clip_report(
    pixels: ByteArray,
    colours: PictureColours,
    source: Endpoint,
    gamut: DeviceGamut,
    *,
    intent: Intent,
    black_point_compensation: bool,
    threshold_de: float,
) -> ClipReport:
    """Say what clips, how, where and how badly.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        The picture, or a small copy of it, for the places of the groups.
    colours : PictureColours
        Its colours.
    source : Profile or Standard
        The picture's RGB space.
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool
    threshold_de : float
        CIEDE2000.

    Returns
    -------
    ClipReport

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    request = clip_request(source, gamut, intent=intent, black_point_compensation=black_point_compensation)
    wanted_lab = request(colours.rgb_encoded)
    lost = clipping(gamut, wanted_lab)
    clipped = lost.difference > threshold_de
    regions = tuple(
        _region(name, counts.astype(np.float64), lost, clipped)
        for name, counts in zip(colours.regions, colours.counts, strict=True)
    )
    labels = hue_groups(wanted_lab, np.where(clipped, colours.weights, 0.0))
    places = _places(label_pixels(pixels, colours, labels), int(labels.max(initial=0)))
    proof = proof_transform(
        source,
        gamut,
        Standard.SRGB,
        intent=intent,
        black_point_compensation=black_point_compensation,
        viewing=Viewing.BLACK,
    )
    filed = make_transform(source, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True)
    groups = []
    for number, place in enumerate(places, start=1):
        members = labels == number
        weights = colours.weights[members]
        mean_rgb = np.average(colours.rgb_encoded[members], axis=0, weights=weights)[None]
        groups.append(
            ClipGroup(
                number=number,
                name=_group_name(np.average(wanted_lab[members], axis=0, weights=weights)),
                share=float(weights.sum()),
                filed=_hex(filed(mean_rgb)[0]),
                printed=_hex(proof(mean_rgb)[0]),
                mean_de=float(np.average(lost.difference[members], weights=weights)),
                worst_de=float(lost.difference[members].max()),
                place=place,
            )
        )
    return ClipReport(
        threshold_de=threshold_de,
        outside_share=float(colours.weights[clipped].sum()),
        regions=regions,
        groups=tuple(groups),
        labels=labels,
    )


def _region(name: str, counts: FloatArray, lost: Clipping, clipped: BoolArray) -> RegionClip:
    total = counts.sum()
    kinds = {kind: float(counts[clipped & (lost.kind == kind)].sum() / total) for kind in ClipKind}
    here = clipped & (counts > 0)
    return RegionClip(
        name=name,
        share=float(counts[clipped].sum() / total),
        chroma=kinds[ClipKind.CHROMA],
        shadow=kinds[ClipKind.SHADOW],
        highlight=kinds[ClipKind.HIGHLIGHT],
        mean_de=float(np.average(lost.difference[here], weights=counts[here])) if here.any() else 0.0,
        worst_de=float(lost.difference[here].max(initial=0.0)),
    )


def _places(labels: ByteArray, groups: int) -> list[tuple[float, float, float, float]]:
    places = []
    for number in range(1, groups + 1):
        mask = labels == number
        left, right = _extent(mask.sum(axis=0))
        top, bottom = _extent(mask.sum(axis=1))
        places.append((left, top, right - left, bottom - top))
    return places


def _extent(counts: FloatArray) -> tuple[float, float]:
    """Where all but the strays of a row of counts lie, as fractions of its length."""
    total = np.cumsum(counts)
    if total[-1] == 0:
        # A small copy of the picture may have lost a colour that the whole has.
        return 0.0, 1.0
    first = int(np.searchsorted(total, _STRAYS * total[-1], side="right"))
    last = int(np.searchsorted(total, (1.0 - _STRAYS) * total[-1], side="left"))
    return first / len(counts), (last + 1) / len(counts)


def _group_name(lab_d50: FloatArray) -> str:
    chroma, hue = chroma_hue(lab_d50)
    if float(chroma) < GREY_CHROMA:
        return say("dark greys") if lab_d50[0] < 50.0 else say("light greys")
    name = hue_name(float(np.degrees(hue)))
    if lab_d50[0] < 35.0:
        return say("dark {hue}", hue=name)
    return say("light {hue}", hue=name) if lab_d50[0] > 75.0 else name


def _hex(srgb_encoded: FloatArray) -> str:
    return "#" + "".join(f"{round(float(one) * 255):02x}" for one in srgb_encoded)
