"""What a comparison sends, each thing once: textures, folds and tables."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from pycore.bridge.answer import Arrays
from pycore.bridge.colour_calls import ColourWork
from pycore.bridge.colour_messages import LookReply
from pycore.bridge.fold_reply import fold_reply
from pycore.bridge.messages import FoldReply, Texture
from pycore.compare.sharing import Placement
from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.proofing.proof_input import Subject


@dataclass(eq=False)
class Made:
    """What has been made so far, each thing once; and what the tables are for."""

    tables: Mapping[str, Any]
    arrays: Arrays = field(default_factory=list)
    textures: list[Texture] = field(default_factory=list)
    folds: dict[Hashable, tuple[int, FoldReply]] = field(default_factory=dict)
    looks: dict[Hashable, tuple[int, LookReply]] = field(default_factory=dict)


def add_fold(job: Job, placement: Placement, texture: PixelGrid, made: Made) -> int:
    """The place of the fold whose texture coordinates are those of the variant's window in its texture."""
    grid = placement.grid
    size = (texture.width_px, texture.height_px)
    key = (
        (job.face, job.bars, job.wrap, job.canvas.thickness_mm, job.canvas.stretch_percent),
        (placement.left, placement.top, grid.columns, grid.rows, size),
    )
    if key not in made.folds:
        reply = fold_reply(job, grid=grid, buffers=made.arrays)
        own = made.arrays[reply.uv.place]
        corner, window = (placement.left, placement.top), (grid.width_px, grid.height_px)
        made.arrays[reply.uv.place] = ((own * window + corner) / size).astype(np.float32)
        made.folds[key] = (len(made.folds), reply)
    return made.folds[key][0]


def add_look(
    job: Job,
    on: tuple[Subject, PixelGrid],
    number: int,
    colour: ColourWork,
    made: Made,
    *,
    is_srgb: bool,
) -> int:
    """The place of the tables; what is brought in is fitted to the variant's own pixels."""
    settings = job.colour
    fitted = (settings.bring_in, settings.clip_threshold_de, number) if settings.bring_in > 0 else None
    key = (settings.profile, settings.intent, settings.black_point_compensation, fitted)
    if key not in made.looks:
        reply, arrays = colour.look(job, on, made.tables, is_srgb=is_srgb)
        made.looks[key] = (len(made.looks), _sent(reply, arrays, made.arrays))
    return made.looks[key][0]


def _sent(reply: LookReply, arrays: Arrays, beside: Arrays) -> LookReply:
    """A look whose arrays travel with those of the comparison."""
    first = len(beside)
    beside.extend(arrays)
    moved = {
        name: part.model_copy(update={"place": part.place + first})
        for name, part in (("printed", reply.printed), ("filed", reply.filed), ("scale", reply.scale))
        if part is not None
    }
    return reply.model_copy(update=moved)
