"""`tuckfold model`: the folded canvas as a 3D model, with the fold as an animation."""

from __future__ import annotations

import argparse
import json
import os
from pathlib import Path
from typing import Any

from pycore.bridge.showing_messages import ModelColours, ModelReport
from pycore.cli.job_options import add_job_options, file_bytes, job_from
from pycore.cli.proofing import desk_for, last
from pycore.contract.notes import Note
from pycore.errors import FieldError, OutputError
from pycore.model.make import Model, make_model
from pycore.model.reread import check_model
from pycore.picture.read import read_picture
from pycore.printing.preview import PreviewSource

#: As in `ModelParams`.
_LEAST_PX, _MOST_PX, _USUAL_PX = 10_000, 40_000_000, 4_000_000


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "model",
        help="a 3D model (glTF 2.0 binary, metres) of the folded canvas, with the fold as an animation",
    )
    add_job_options(command)
    command.add_argument("picture", metavar="PICTURE", help="the picture: JPEG, PNG, TIFF or WebP")
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
    source = read_picture(file_bytes(options.picture, field="PICTURE"), file=Path(options.picture).name)
    made = last(
        make_model(
            job,
            PreviewSource(source),
            desk_for(job, options.profile),
            colours=ModelColours(options.colours),
            texture_px=options.texture_px,
        )
    )
    report = _written(made, out)
    if options.json:
        plain = [note.model_dump(mode="json") for note in made.notes]
        return json.dumps(report.model_dump(mode="json") | {"notes": plain})
    return _prose(report, made.notes)


def _written(made: Model, out: Path) -> ModelReport:
    """Write under another name beside it, read that again, and only then give it its own."""
    beside = out.with_name(f".{out.name}.part")
    try:
        beside.write_bytes(made.data)
        try:
            report = check_model(
                beside.read_bytes(), file=out.name, size_mm=made.size_mm, texture_px=made.texture_px
            )
            os.replace(beside, out)
        finally:
            beside.unlink(missing_ok=True)
    except (OSError, ValueError) as wrong:
        raise OutputError(
            field="--out", expected="a place that can be written", got=str(wrong), remedy="choose another"
        ) from wrong
    return report


def _prose(report: ModelReport, notes: list[Note]) -> str:
    wide, high, deep = report.size_mm
    lines = [
        f"{report.file}: {report.bytes:,} bytes, {report.triangles} triangles, {report.vertices} vertices",
        f"folded   {wide:.2f} x {high:.2f} x {deep:.2f} mm over everything",
        f"texture  {report.texture_px[0]} x {report.texture_px[1]} pixels",
        f"fold     {report.animation_s:g} s",
    ]
    lines += [f"{note.severity.value}: {note.message} {note.remedy}" for note in notes]
    return "\n".join(lines)
