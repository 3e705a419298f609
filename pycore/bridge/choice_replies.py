"""Choices by eye as messages, their pictures beside them."""

from __future__ import annotations

from collections.abc import Sequence

from pycore.bridge.answer import Answer, Arrays, attach
from pycore.bridge.choice_messages import (
    ChoicesReply,
    DetailReply,
    FillOption,
    FinishOption,
    IntentOption,
    Refused,
)
from pycore.bridge.message import Buffer
from pycore.errors import TuckfoldError
from pycore.picture.tones import U8
from pycore.tasks.choices import FillChoice, FinishChoice, IntentChoice
from pycore.tasks.print_detail import ShownDetail


def fills_answer(found: Sequence[FillChoice]) -> Answer:
    """Hand over the side fills.

    Parameters
    ----------
    found : sequence of FillChoice

    Returns
    -------
    Answer
        A `ChoicesReply`, and beside it the pictures.
    """
    arrays: Arrays = []
    options = [
        FillOption(
            fill=one.fill,
            picture=_picture(one.picture, arrays),
            cut_away_share=one.cut_away_share,
            carried_share=one.carried_share,
            refused=_refused(one.refused),
        )
        for one in found
    ]
    return Answer(ChoicesReply(fills=options, finishes=[], intents=[]), arrays)


def finishes_answer(found: Sequence[FinishChoice]) -> Answer:
    """Hand over the corner finishes.

    Parameters
    ----------
    found : sequence of FinishChoice

    Returns
    -------
    Answer
        A `ChoicesReply`, and beside it the pictures.
    """
    arrays: Arrays = []
    options = [
        FinishOption(
            finish=one.finish,
            folded=_picture(one.folded, arrays),
            folding=_picture(one.folding, arrays),
            bulk=one.bulk,
            refused=_refused(one.refused),
        )
        for one in found
    ]
    return Answer(ChoicesReply(fills=[], finishes=options, intents=[]), arrays)


def intents_answer(found: Sequence[IntentChoice]) -> Answer:
    """Hand over the rendering intents.

    Parameters
    ----------
    found : sequence of IntentChoice

    Returns
    -------
    Answer
        A `ChoicesReply`, and beside it the pictures.
    """
    arrays: Arrays = []
    options = [
        IntentOption(
            intent=one.intent,
            picture=attach(one.picture, "srgb_encoded", arrays),
            flattened_share=one.figures.flattened_share,
            mean_de=one.figures.mean_de,
            p95_de=one.figures.p95_de,
        )
        for one in found
    ]
    return Answer(ChoicesReply(fills=[], finishes=[], intents=options), arrays)


def detail_answer(found: ShownDetail) -> Answer:
    """Hand over a part of the print file at its own pixels.

    Parameters
    ----------
    found : ShownDetail

    Returns
    -------
    Answer
        A `DetailReply`, and beside it the two pictures.
    """
    arrays: Arrays = []
    plain, sharpened = (attach(one, "srgb_encoded", arrays) for one in (found.plain, found.sharpened))
    return Answer(DetailReply(plain=plain, sharpened=sharpened), arrays)


def _picture(pixels: U8 | None, arrays: Arrays) -> Buffer | None:
    return None if pixels is None else attach(pixels, "srgb_encoded", arrays)


def _refused(error: TuckfoldError | None) -> Refused | None:
    if error is None:
        return None
    return Refused(field=error.field, message=error.message, remedy=error.remedy)
