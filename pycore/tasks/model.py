"""The 3D model of a job: made, opened again and measured."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.model.make import make_model
from pycore.model.report import ModelOptions, ModelReport
from pycore.model.reread import check_model
from pycore.progress import Progress
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenModel:
    """A glTF binary file, what was measured on it, and notes."""

    data: bytes
    report: ModelReport
    notes: list[Note]


def write_model(
    job: Job, picture: OpenPicture, profiles: ProfileStore, *, options: ModelOptions, file: str
) -> Generator[Progress, None, WrittenModel]:
    """Make a model, open it again and measure it.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    options : ModelOptions
    file : str
        Its name, for the report.

    Yields
    ------
    Progress

    Returns
    -------
    WrittenModel

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be folded, filled or proofed.
    OutputError
        What was written is not what was meant.
    """
    made = yield from make_model(
        job, picture.preview, profiles, colours=options.colours, texture_px=options.texture_px
    )
    yield Progress(done=0.97, label=say("Checking the model"))
    report = check_model(made.data, file=file, size_mm=made.size_mm, texture_px=made.texture_px)
    return WrittenModel(data=made.data, report=report, notes=made.notes)
