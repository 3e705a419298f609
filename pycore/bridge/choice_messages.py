"""The messages about what is chosen by eye: fills, finishes and intents as pictures of one's own canvas."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pycore.bridge.message import Buffer, Message
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Fill, Finish, Intent, Job
from pycore.conventions import Side
from pycore.fold.layers import Bulk


class ChoiceKind(StrEnum):
    """What is chosen."""

    FILLS = "fills"
    FINISHES = "finishes"
    INTENTS = "intents"


class ChoicesParams(Message):
    """Every option of a choice on a job's own canvas."""

    job: Job
    kind: ChoiceKind
    fills: list[Fill]
    """Which fills to show, where fills are chosen; else none."""
    side: Side | None = None
    """The side whose own fill is chosen."""
    viewing: Viewing = Viewing.BLACK
    """What of the canvas the screen shows, where intents are chosen."""


class Refused(Message):
    """Why this canvas cannot have an option."""

    field: str
    message: str
    remedy: str


class FillOption(Message):
    """A side fill; shares of the picture, 0 to 1."""

    fill: Fill
    picture: Buffer | None = None
    """(rows, columns, 4), uint8, srgb_encoded: a corner of the folded canvas. Absent where it is refused."""
    cut_away_share: float
    carried_share: float
    """Gone from the face on to the sides."""
    refused: Refused | None = None


class FinishOption(Message):
    """A corner finish."""

    finish: Finish
    folded: Buffer | None = None
    """(rows, columns, 4), uint8, srgb_encoded: the corner done, from the front."""
    folding: Buffer | None = None
    """The same on the way, from behind."""
    bulk: list[Bulk]
    refused: Refused | None = None


class IntentOption(Message):
    """A rendering intent with the job's black point compensation; shares 0 to 1, differences CIEDE2000."""

    intent: Intent
    picture: Buffer
    """(rows, columns, 4), uint8, srgb_encoded: the part of the face that printing changes most."""
    flattened_share: float
    mean_de: float
    p95_de: float


#: Enough for a part of the column on a screen with many pixels.
DetailPx = Annotated[int, Field(ge=16, le=1024)]


class DetailParams(Message):
    """A part of the print file at its own pixels, without and with sharpening."""

    job: Job
    width_px: DetailPx
    height_px: DetailPx


class DetailReply(Message):
    """The part of the face that has most edges, one pixel for each of the print file's."""

    plain: Buffer
    """(rows, columns, 4), uint8, srgb_encoded."""
    sharpened: Buffer
    """The same with the job's sharpening."""


class ChoicesReply(Message):
    """The options of the kind that was asked for; the other lists are empty."""

    fills: list[FillOption]
    finishes: list[FinishOption]
    intents: list[IntentOption]
