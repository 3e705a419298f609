"""The messages about showing a canvas: variants side by side, edges, model, turntable, client page."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pycore.bridge.message import Buffer, Message
from pycore.client.report import ClientOptions, ClientReport
from pycore.compare.variants import FEWEST, MOST, CompareOptions, Variant
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.layout.largest_face import LargestFace, LengthUnit
from pycore.model.report import ModelOptions, ModelReport, TurntableOptions, TurntableReport
from pycore.ticket.report import TicketOptions, TicketReport


class CompareParams(CompareOptions, Message):
    """Two to four variants of one picture."""

    variants: Annotated[list[Variant], Field(min_length=FEWEST, max_length=MOST)]


class ProposeFaceParams(Message):
    """The face that suits the open picture and what is loaded; the job's own face does not matter."""

    job: Job
    unit: LengthUnit


class ProposeFaceReply(Message):
    """The largest round face of the picture's own shape."""

    face: LargestFace | None = None
    """Absent: what is loaded holds no face with these bars and turn-over."""


class EdgesParams(Message):
    """What the picture holds beside each front edge."""

    job: Job


class ModelParams(ModelOptions, Message):
    """A 3D model of the folded canvas, with the fold as an animation."""

    job: Job


class ModelReply(Message):
    """The written model, re-opened and measured."""

    report: ModelReport
    parts: list[Buffer]
    """The file's bytes in order, each (n,), uint8, file."""
    notes: list[Note]


class TurntableParams(TurntableOptions, Message):
    """Frames of the piece being turned; their pixels travel as the call's buffer, RGB, 8 bits, one by one."""


class TurntableReply(Message):
    """The written animation, re-opened and measured."""

    report: TurntableReport
    parts: list[Buffer]


class ClientParams(ClientOptions, Message):
    """The page for the client; the viewer's program travels as the call's buffer."""

    variants: Annotated[list[Variant], Field(min_length=1, max_length=MOST)]


class ClientReply(Message):
    """The written page, re-opened and checked."""

    report: ClientReport
    parts: list[Buffer]
    notes: list[Note]


class TicketParams(TicketOptions, Message):
    """The ticket that goes with the piece."""

    job: Job


class TicketReply(Message):
    """The written ticket, re-opened and measured."""

    report: TicketReport
    parts: list[Buffer]
    notes: list[Note]
