"""The ticket that goes with a piece: made, read again and measured."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np
from PIL import Image

from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Hung, Job
from pycore.contract.notes import Note, worst_first
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proofed import proofed_flat
from pycore.speech import say
from pycore.tasks.job_notes import stopping_notes
from pycore.tasks.open_picture import OpenPicture
from pycore.ticket.make import make_ticket
from pycore.ticket.report import TicketOptions, TicketReport
from pycore.ticket.reread import check_ticket

#: Pixels of the longer side of the small picture; 150 ppi on paper.
_PICTURE_PX: Final = 420


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenTicket:
    """A PDF, what was measured on it, and notes."""

    data: bytes
    report: TicketReport
    notes: list[Note]


def write_ticket(
    job: Job, picture: OpenPicture, profiles: ProfileStore, *, options: TicketOptions, file: str
) -> Generator[Progress, None, WrittenTicket]:
    """Make the ticket of a job, read it again and measure it.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    options : TicketOptions
    file : str
        Its name, for the report.

    Yields
    ------
    Progress

    Returns
    -------
    WrittenTicket

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The date is none, or the canvas cannot be folded, filled or proofed.
    OutputError
        What was written is not what was meant.
    """
    proof_input, grid = yield from part_of(picture.proof_input(job), begin=0, share=0.3)
    yield Progress(done=0.3, label=say("Looking at the colours"))
    clipped = profiles.clipped(proof_input, job.colour, grid)
    flat = proofed_flat(proof_input, grid, job.colour, profiles, viewing=Viewing.BLACK)
    profile = profiles.profile(job.colour.profile)
    making = make_ticket(
        job, face=_faces(flat[..., :3], grid, job), clip=clipped.report, profile=profile, options=options
    )
    made = yield from part_of(making, begin=0.4, share=0.6)
    report = check_ticket(made.data, file=file, paper=options.paper, pages=made.pages)
    notes = worst_first([*stopping_notes(job), *made.notes, *profile.notes])
    return WrittenTicket(data=made.data, report=report, notes=notes)


def _faces(flat: U8, grid: PixelGrid, job: Job) -> U8:
    """The faces alone, of a group as they hang, small."""
    rows, columns = slice(grid.rows[2], grid.rows[3]), slice(grid.columns[2], grid.columns[3])
    high = grid.height_px
    panels = [flat[top : top + high][rows, columns] for top in range(0, high * job.group.panels, high)]
    axis = 1 if job.group.hung is Hung.ACROSS else 0
    gap = round(job.group.gap_mm * grid.px_per_mm)
    between = list(panels[0].shape)
    between[axis] = gap
    parts = [panels[0]]
    for panel in panels[1:]:
        parts += [np.full(between, 255, np.uint8), panel]
    face = np.concatenate(parts, axis=axis)
    image = Image.fromarray(np.ascontiguousarray(face))
    image.thumbnail((_PICTURE_PX, _PICTURE_PX), Image.Resampling.BICUBIC, reducing_gap=None)
    return np.asarray(image)
