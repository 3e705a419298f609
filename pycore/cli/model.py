"""`tuckfold model`: the folded canvas as a 3D model, with the fold as an animation."""

from __future__ import annotations

import argparse
import json

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.out import out_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.profile import add_profile_option, profiles_for
from pycore.cli.progress_line import run_shown
from pycore.contract.check import checked_options
from pycore.contract.notes import Note
from pycore.model.report import ModelColours, ModelOptions, ModelReport
from pycore.printing.place import check_place, file_at
from pycore.speech import say
from pycore.tasks.model import write_model

_USUAL = ModelOptions()


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)
    command.add_argument("--out", metavar="FILE", required=True, help=say("the model; its name ends in .glb"))
    command.add_argument(
        "--colours",
        choices=[one.value for one in ModelColours],
        default=_USUAL.colours.value,
        help=say(
            "filed: those of the file; printed: those of the canvas, as the proof shows them; "
            "printed where nothing else is named"
        ),
    )
    command.add_argument(
        "--texture-px",
        metavar="N",
        type=int,
        default=_USUAL.texture_px,
        help=say(
            "about how many pixels the texture has; {texture_px} where nothing else is named",
            texture_px=_USUAL.texture_px,
        ),
    )
    add_profile_option(command)


def run(options: argparse.Namespace) -> str:
    """Run the command.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    str
        What to print.

    Raises
    ------
    FieldError
        The name of the output file does not end in .glb, or an option is wrong.
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job = job_from(options)
    out = out_from(options, ".glb", expected=say("a name that ends in .glb"))
    chosen = checked_options(
        ModelOptions, {"colours": options.colours, "texture_px": options.texture_px}, prefix="--"
    )
    check_place(out, field="--out")
    made = run_shown(
        write_model(
            job, picture_from(options), profiles_for(job, options.profile), options=chosen, file=out.name
        )
    )
    with file_at(out, field="--out") as file:
        file.write(made.data)
    if options.json:
        plain = plain_notes(made.notes)
        return json.dumps(made.report.model_dump(mode="json") | {"notes": plain})
    return _prose(made.report, made.notes)


def _prose(report: ModelReport, notes: list[Note]) -> str:
    wide, high, deep = report.size_mm
    lines = [
        say("Saved {file}: {bytes:,} bytes", file=report.file, bytes=report.bytes),
        say(
            "mesh     {triangles} triangles, {vertices} vertices",
            triangles=report.triangles,
            vertices=report.vertices,
        ),
        say(
            "folded   {wide:.2f} x {high:.2f} x {deep:.2f} mm over everything",
            wide=wide,
            high=high,
            deep=deep,
        ),
        say(
            "texture  {texture_px0} x {texture_px1} pixels",
            texture_px0=report.texture_px[0],
            texture_px1=report.texture_px[1],
        ),
        say("fold     {animation_s:g} s", animation_s=report.animation_s),
    ]
    lines += note_lines(notes)
    return "\n".join(lines)
