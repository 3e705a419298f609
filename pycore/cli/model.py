"""`tuckfold model`: the folded canvas as a 3D model, with the fold as an animation."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from pycore.bridge.showing_messages import ModelColours, ModelReport
from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.proofing import desk_for
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.model.make import make_model
from pycore.model.reread import check_model
from pycore.printing.place import check_place, file_at
from pycore.progress import last
from pycore.render.preview import PreviewSource

#: As in `ModelParams`.
_LEAST_PX, _MOST_PX, _USUAL_PX = 10_000, 40_000_000, 4_000_000


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "model",
        help="a 3D model (glTF 2.0 binary, metres) of the folded canvas, with the fold as an animation",
    )
    add_job_options(command)
    add_picture(command)
    command.add_argument("--out", metavar="FILE", required=True, help="the model; its name ends in .glb")
    command.add_argument(
        "--colours",
        choices=[one.value for one in ModelColours],
        default=ModelColours.PRINTED.value,
        help="filed: the file's; printed: the canvas's, as the proof shows them",
    )
    command.add_argument(
        "--texture-px",
        metavar="N",
        type=int,
        default=_USUAL_PX,
        help=f"about how many pixels the texture has; {_USUAL_PX} where nothing else is named",
    )
    command.add_argument(
        "--profile", metavar="FILE", help="the canvas's ICC profile; without it the job's colour.profile"
    )
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> str:
    """Run the command and return what to print."""
    job, out = job_from(options), Path(options.out)
    if out.suffix.lower() != ".glb":
        raise FieldError(
            field="--out", expected="a name that ends in .glb", got=repr(out.name), remedy="rename it"
        )
    if not _LEAST_PX <= options.texture_px <= _MOST_PX:
        raise FieldError(
            field="--texture-px",
            expected=f"{_LEAST_PX} to {_MOST_PX}",
            got=f"{options.texture_px}",
            remedy="choose a number in that range",
        )
    check_place(out, field="--out")
    source = picture_from(options)
    made = last(
        make_model(
            job,
            PreviewSource(source),
            desk_for(job, options.profile),
            colours=ModelColours(options.colours),
            texture_px=options.texture_px,
        )
    )
    with file_at(out, field="--out") as file:
        file.write(made.data)
        file.seek(0)
        report = check_model(file.read(), file=out.name, size_mm=made.size_mm, texture_px=made.texture_px)
    if options.json:
        plain = plain_notes(made.notes)
        return json.dumps(report.model_dump(mode="json") | {"notes": plain})
    return _prose(report, made.notes)


def _prose(report: ModelReport, notes: list[Note]) -> str:
    wide, high, deep = report.size_mm
    lines = [
        f"{report.file}: {report.bytes:,} bytes, {report.triangles} triangles, {report.vertices} vertices",
        f"folded   {wide:.2f} x {high:.2f} x {deep:.2f} mm over everything",
        f"texture  {report.texture_px[0]} x {report.texture_px[1]} pixels",
        f"fold     {report.animation_s:g} s",
    ]
    lines += note_lines(notes)
    return "\n".join(lines)
