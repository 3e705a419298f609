"""A job's model, from the open picture to the bytes of its file."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

import numpy as np

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.grid import pixel_grid, preview_ppi
from pycore.layout.group import panel_centres_mm
from pycore.model.bars_mesh import bars_mesh
from pycore.model.canvas_mesh import canvas_mesh, outer_size_mm
from pycore.model.report import ModelColours
from pycore.model.scene import PanelPart, model_file
from pycore.model.texture import canvas_texture, texture_file
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource
from pycore.speech import say

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
    job: Job, preview: PreviewSource, profiles: ProfileStore, *, colours: ModelColours, texture_px: int
) -> Generator[Progress, None, Model]:
    """Make a model.

    Parameters
    ----------
    job : Job
        A checked job.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
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
    centres = panel_centres_mm(job)
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=max(1, texture_px // len(centres))))
    yield Progress(done=0, label=say("Folding the canvas"))
    # The fold first: it can refuse the job, and then no picture has been drawn for nothing.
    canvas = canvas_mesh(job, grid)
    steps = canvas_texture(job, grid, preview, profiles, colours=colours)
    pixels = yield from part_of(steps, begin=0.0, share=_TEXTURES)
    panels = [
        PanelPart(centre_mm=centre, texture=texture_file(part))
        for centre, part in zip(centres, np.split(pixels, len(centres)), strict=True)
    ]
    yield Progress(done=_TEXTURES, label=say("Saving the model"))
    return Model(
        data=model_file(canvas, bars_mesh(job), panels, name=job.name),
        size_mm=outer_size_mm(fold_spec(job)),
        texture_px=(grid.width_px, grid.height_px),
        notes=[*preview.notes, *fold_notes(fold_spec(job))],
    )
