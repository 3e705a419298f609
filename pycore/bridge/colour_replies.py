"""Results about colour as messages, their arrays beside them. Imported with the first call about colour."""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from pycore.bridge.answer import Answer, Arrays, attach
from pycore.bridge.colour_messages import (
    ClipGroup,
    ClipPart,
    ClipReply,
    IntentRow,
    IntentsReply,
    LookReply,
    ProfileReply,
    SolidReply,
)
from pycore.bridge.messages import CompareReply, VariantReply
from pycore.bridge.replies import fold_reply, texture_reply
from pycore.colour.link.device_link import CLIP_FULL_DE
from pycore.colour.mapping.intent_advice import name_of
from pycore.proofing.clip_scale import SCALE_FULL_DE, clip_scale
from pycore.proofing.profile_store import Clipped
from pycore.proofing.screen_tables import ScreenTables
from pycore.tasks.colour import ColourSolid, ComparedIntents, OpenedProfile
from pycore.tasks.compare import ComparedVariant, Comparison


def profile_reply(opened: OpenedProfile) -> ProfileReply:
    """Describe an opened profile.

    Parameters
    ----------
    opened : OpenedProfile

    Returns
    -------
    ProfileReply
    """
    profile, report = opened.profile, opened.report
    return ProfileReply(
        file=profile.name,
        description=profile.description,
        illustration=profile.illustration,
        device=report.device,
        version=report.version,
        white_lab=report.white_lab,
        black_lab=report.black_lab,
        gamut_volume=report.gamut_volume,
        notes=profile.notes,
    )


def look_reply(tables: ScreenTables, arrays: Arrays) -> LookReply:
    """Put the screen's tables beside a reply and name them.

    Parameters
    ----------
    tables : ScreenTables
    arrays : list
        What travels beside the reply; the tables are added.

    Returns
    -------
    LookReply
    """
    link = tables.printed
    filed = None if tables.filed is None else attach(tables.filed, "half_floats", arrays)
    return LookReply(
        nodes=link.nodes,
        printed=attach(link.halves(), "half_floats", arrays),
        curve=attach(link.curve(), "fraction", arrays),
        filed=filed,
        clip_full_de=CLIP_FULL_DE,
        scale=attach(clip_scale(), "srgb_encoded", arrays),
        scale_full_de=SCALE_FULL_DE,
    )


def clip_answer(found: Clipped) -> Answer:
    """Report what clips, with the group of every pixel.

    Parameters
    ----------
    found : Clipped

    Returns
    -------
    Answer
        A `ClipReply`, and beside it the groups' labels.
    """
    arrays: Arrays = []
    reply = ClipReply(
        threshold_de=found.report.threshold_de,
        outside_share=found.report.outside_share,
        parts=[
            ClipPart(**dataclasses.asdict(now), share_before=before.share)
            for now, before in zip(found.report.regions, found.before.regions, strict=True)
        ],
        groups=[ClipGroup(**dataclasses.asdict(group)) for group in found.report.groups],
        labels=attach(found.labels, "index", arrays),
    )
    return Answer(reply, arrays)


def intents_reply(compared: ComparedIntents) -> IntentsReply:
    """List the intents with the recommendation.

    Parameters
    ----------
    compared : ComparedIntents

    Returns
    -------
    IntentsReply
    """
    rows = []
    for one in compared.figures:
        plain = dataclasses.asdict(one)
        del plain["harm"]
        rows.append(IntentRow(label=name_of(one), **plain))
    return IntentsReply(rows=rows, recommended=compared.recommended, reason=compared.advice.reason)


def solid_answer(found: ColourSolid) -> Answer:
    """Hand over the gamut's solid and the picture's colours in it.

    Parameters
    ----------
    found : ColourSolid

    Returns
    -------
    Answer
        A `SolidReply`, and beside it the arrays as float32, uint32 and uint8.
    """
    gamut, points = found.gamut, found.points
    arrays: Arrays = []
    reply = SolidReply(
        lab=attach(gamut.lab_d50.astype(np.float32), "lab_d50", arrays),
        colours=attach(_bytes(gamut.srgb_encoded), "srgb_encoded", arrays),
        triangles=attach(gamut.triangles.astype(np.uint32), "index", arrays),
        point_lab=attach(points.lab_d50.astype(np.float32), "lab_d50", arrays),
        point_printed_lab=attach(points.printed_lab.astype(np.float32), "lab_d50", arrays),
        point_colours=attach(_bytes(points.srgb_encoded), "srgb_encoded", arrays),
        point_share=attach(points.share.astype(np.float32), "fraction", arrays),
        point_difference=attach(points.difference.astype(np.float32), "fraction", arrays),
        volume=found.volume,
    )
    return Answer(reply, arrays)


def compare_answer(found: Comparison, *, is_srgb: bool) -> Answer:
    """Hand over a comparison, each shared part once.

    Parameters
    ----------
    found : Comparison
    is_srgb : bool
        Whether the textures' values are sRGB, so that the page shows them as they are.

    Returns
    -------
    Answer
        A `CompareReply`, and beside it the folds, textures and tables.
    """
    arrays: Arrays = []
    reply = CompareReply(
        folds=[fold_reply(one.fold, arrays, uv=one.uv) for one in found.folds],
        textures=[texture_reply(one.pixels, one.grid, arrays, is_srgb=is_srgb) for one in found.textures],
        looks=[look_reply(one, arrays) for one in found.tables],
        variants=[_variant_reply(one) for one in found.variants],
    )
    return Answer(reply, arrays)


def _variant_reply(one: ComparedVariant) -> VariantReply:
    return VariantReply(
        label=one.variant.label,
        job=one.variant.job,
        layout=one.layout,
        lost_share=one.lost_share,
        weight_g=one.weight_g,
        whole_g=one.whole_g,
        outside_share=one.outside_share,
        panels=one.panels,
        texture=one.texture,
        inked=one.inked,
        fold=one.fold,
        look=one.tables,
    )


def _bytes(srgb_encoded: NDArray[np.float64]) -> NDArray[np.uint8]:
    return np.rint(np.clip(srgb_encoded, 0.0, 1.0) * 255.0).astype(np.uint8)
