"""The answer to the call for a 3D model. Imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pycore.bridge.answer import Answer, Arrays, Steps, parts_of
from pycore.bridge.colour_calls import ColourWork
from pycore.bridge.file_stem import file_stem
from pycore.bridge.progress import Progress
from pycore.bridge.showing_messages import ModelParams, ModelReply
from pycore.contract.check import check_job
from pycore.model.make import make_model
from pycore.model.reread import check_model
from pycore.render.preview import PreviewSource


def model(params: Mapping[str, Any], preview: PreviewSource, colour: ColourWork) -> Steps:
    """Make a model, open it again, measure it, and hand it over.

    Parameters
    ----------
    params : mapping
        As `ModelParams`.
    preview : PreviewSource
        The open picture.
    colour : ColourWork
        Holds the canvas profiles.

    Returns
    -------
    generator
        Yields `Progress`, returns `Answer`.

    Raises
    ------
    TuckfoldError
        The canvas cannot be made, or what was written is not what was meant.
    """
    # The job by its own checks, whose messages name fields in the user's words.
    asked = ModelParams.model_validate({**params, "job": {}})
    job = check_job(params["job"])
    made = yield from make_model(
        job, preview, colour.desk, colours=asked.colours, texture_px=asked.texture_px
    )
    yield Progress(done=0.97, label="Opening it again")
    report = check_model(
        made.data, file=f"{file_stem(job)}.glb", size_mm=made.size_mm, texture_px=made.texture_px
    )
    arrays: Arrays = []
    parts = parts_of(made.data, arrays)
    return Answer(ModelReply(report=report, parts=parts, notes=made.notes), arrays)
