"""The flat canvas as it will look when printed, or its clip map, as a picture file."""

from __future__ import annotations

import io
from collections.abc import Generator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Final

import numpy as np

from pycore.colour.link.device_link import CLIP_FULL_DE
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Job
from pycore.printing.place import file_at
from pycore.printing.screen_picture import screen_kind, write_screen_picture
from pycore.progress import Progress
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.proofing.clip_scale import paint_clip_map
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import flat_proof_input
from pycore.proofing.proofed import proofed_flat
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture

#: Pixels of the picture that is written.
_PROOF_PX: Final = 4_000_000

_FIELD: Final = "--out"


class ProofView(StrEnum):
    """What a proof shows."""

    PRINTED = "printed"
    CLIP_MAP = "clip-map"


@dataclass(frozen=True, kw_only=True, slots=True)
class WrittenProof:
    """A written proof, opened again: its size in pixels and bytes, and the canvas that it is for."""

    profile: CanvasProfile
    file: str
    width_px: int
    height_px: int
    bytes: int


def check_proof_place(out: Path) -> None:
    """Find out before the work that a proof cannot be written there.

    Parameters
    ----------
    out : Path

    Raises
    ------
    FieldError
        Its name ends otherwise than in .png, .jpg or .jpeg.
    OutputError
        Its folder does not exist, or it may not be written.
    """
    screen_kind(out, field=_FIELD)


def write_proof(
    job: Job,
    picture: OpenPicture,
    profiles: ProfileStore,
    *,
    view: ProofView,
    viewing: Viewing,
    out: Path,
) -> Generator[Progress, None, WrittenProof]:
    """Proof a job's flat canvas, of a group all panels', and write it in sRGB; bare canvas is white.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    view : ProofView
    viewing : Viewing
        What of the canvas's white and black is simulated.
    out : Path
        Ends in .png, .jpg or .jpeg.

    Yields
    ------
    Progress

    Returns
    -------
    WrittenProof

    Raises
    ------
    FieldError, GeometryError, ProfileError
        Another ending, a canvas that cannot be filled, or a profile that is not open or lacks what is needed.
    OutputError
        The file cannot be written there.
    """
    kind = screen_kind(out, field=_FIELD)
    profile = profiles.profile(job.colour.profile)
    proof_input, grid = yield from flat_proof_input(job, picture.preview, most_px=_PROOF_PX)
    yield Progress(done=1, label=say("Proofing the colours"))
    proofed = proofed_flat(proof_input, grid, job.colour, profiles, viewing=viewing)
    if view is ProofView.CLIP_MAP:
        shown = paint_clip_map(proofed, clip_full_de=CLIP_FULL_DE, threshold_de=job.colour.clip_threshold_de)
    else:
        shown = np.ascontiguousarray(proofed[..., :3])
    with file_at(out, field=_FIELD) as file:
        width_px, height_px = write_screen_picture(shown, file, kind=kind)
        size = file.seek(0, io.SEEK_END)
    return WrittenProof(profile=profile, file=out.name, width_px=width_px, height_px=height_px, bytes=size)
