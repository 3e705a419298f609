"""A job's model, from the open picture to the bytes of its file."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

from pycore.bridge.messages import Progress
from pycore.bridge.showing_messages import ModelColours
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.grid import pixel_grid, preview_ppi
from pycore.layout.group import panel_centres_mm, panel_jobs
from pycore.model.bars_mesh import bars_mesh
from pycore.model.canvas_mesh import canvas_mesh, outer_size_mm
from pycore.model.scene import PanelPart, model_file
from pycore.model.texture import canvas_texture, texture_file
from pycore.printing.preview import PreviewSource
from pycore.printing.tones import U8
from pycore.proofing.desk import Desk

#: Share of the time that textures take; measured, for the progress only.
_TEXTURES = 0.95


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Model:
    """A model's file and what it is meant to be.

    Attributes
    ----------
    data : bytes
    size_mm : (width, height, depth)
        Of a folded canvas.
    texture_px : (width, height)
    notes : list of Note
    """

    data: bytes
    size_mm: tuple[float, float, float]
    texture_px: tuple[int, int]
    notes: list[Note]


def make_model(
    job: Job, preview: PreviewSource, desk: Desk, *, colours: ModelColours, texture_px: int
) -> Generator[Progress, None, Model]:
    """Make a model.

    Parameters
    ----------
    job : Job
        A checked job.
    preview : PreviewSource
        The open picture.
    desk : Desk
        Holds the canvas profiles.
    colours : ModelColours
    texture_px : int
        About how many pixels its textures have together, and no more.

    Yields
    ------
    Progress

    Returns
    -------
    Model

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be folded, filled or proofed.
    """
    source = preview.source
    jobs = panel_jobs(job, width_px=source.width_px, height_px=source.height_px)
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=max(1, texture_px // len(jobs))))
    yield Progress(done=0, label="Folding the canvas")
    # The fold first: it can refuse the job, and then no picture has been drawn for nothing.
    canvas = canvas_mesh(job, grid)
    panels = []
    for number, (one, centre) in enumerate(zip(jobs, panel_centres_mm(job), strict=True)):
        steps = canvas_texture(one, grid, preview, desk, colours=colours)
        pixels = yield from _within(steps, begin=_TEXTURES * number / len(jobs), share=_TEXTURES / len(jobs))
        panels.append(PanelPart(centre_mm=centre, texture=texture_file(pixels)))
    yield Progress(done=_TEXTURES, label="Writing the model")
    return Model(
        data=model_file(canvas, bars_mesh(job), panels, name=job.name),
        size_mm=outer_size_mm(fold_spec(job)),
        texture_px=(grid.width_px, grid.height_px),
        notes=[*preview.notes, *fold_notes(fold_spec(job))],
    )


def _within(
    steps: Generator[Progress, None, U8], *, begin: float, share: float
) -> Generator[Progress, None, U8]:
    """The progress of one texture as a part of all."""
    while True:
        try:
            progress = next(steps)
        except StopIteration as end:
            pixels: U8 = end.value
            return pixels
        yield Progress(done=begin + share * progress.done, label=progress.label)
