"""One ticket, made from figures that are given, so that nothing but the ticket is compared."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import numpy.typing as npt

from pycore.colour.mapping.clip_report import ClipGroup, ClipReport
from pycore.contract.check import check_job
from pycore.progress import run_to_end
from pycore.proofing.canvas_profile import CanvasProfile, illustrative_canvas
from pycore.ticket.make import MadeTicket, make_ticket
from pycore.ticket.report import Paper, TicketOptions

#: A day without meaning.
DATE: Final = "2031-04-30"


def clipped(*names: str) -> ClipReport:
    """A report with groups of these names."""
    groups = [
        ClipGroup(
            number=number,
            name=name,
            share=0.0625 / number,
            filed="#c02020",
            printed="#a04038",
            mean_de=3.25,
            worst_de=7.5,
            place=(0.0, 0.0, 1.0, 1.0),
        )
        for number, name in enumerate(names, start=1)
    ]
    return ClipReport(
        threshold_de=2.0,
        outside_share=sum(one.share for one in groups),
        regions=(),
        groups=tuple(groups),
        labels=np.zeros(1, np.uint8),
    )


def face() -> npt.NDArray[np.uint8]:
    """A small picture: a ramp."""
    rows, columns = np.mgrid[0:80, 0:120]
    return np.stack([columns * 2, rows * 3, np.full_like(rows, 96)], axis=-1).astype(np.uint8)


def ticket(
    tree: dict[str, Any],
    *,
    paper: Paper = Paper.A4,
    groups: tuple[str, ...] = ("red", "dark blue"),
    profile: CanvasProfile | None = None,
) -> MadeTicket:
    """The ticket of a job."""
    return run_to_end(
        make_ticket(
            check_job(tree),
            face=face(),
            clip=clipped(*groups),
            profile=profile or illustrative_canvas(),
            options=TicketOptions(paper=paper, date=DATE),
        )
    )
