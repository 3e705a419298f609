"""`tuckfold edges`: what the picture holds beside each front edge, and which side fill suits that."""

from __future__ import annotations

import argparse
import json
from typing import Final

from pycore.cli.columns import columns
from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.edges.notes import move_words
from pycore.edges.report import CropMove, EdgesReport, SideReport
from pycore.speech import figure, say
from pycore.tasks.edges import judge_edges

#: Above the table of figures.
_HEADS: Final = (
    say("side"),
    say("fill##of a side"),
    say("busy##figure"),
    say("cut"),
    say("doubled##figure"),
    say("broken##figure"),
    say("chevrons##figure"),
    say("repeated##figure"),
    say("smeared##figure"),
    say("bent##figure"),
    say("severed##figure"),
    say("streaked##figure"),
    say("better##fill"),
)


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)


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
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job = job_from(options)
    report = judge_edges(job, picture_from(options))
    if options.json:
        return json.dumps(report.model_dump(mode="json", exclude_none=True))
    return _prose(report)


def _prose(report: EdgesReport) -> str:
    better = [one for one in report.sides if one.better is not None]
    lines = [
        say("Take another fill on these sides:") if better else say("Every side's fill does well enough.")
    ]
    if not better and any(one.reason for one in report.sides):
        lines = [say("No other fill does clearly better.")]
    lines += [
        say(
            "  --set sides.{side}.fill={better}   ({reason})",
            side=one.side.value,
            better=one.better,
            reason=one.reason,
        )
        for one in better
    ]
    for one in report.sides:
        if one.move is not None:
            lines.append(
                say(
                    "{move_words}, and the {side} edge cuts nothing:",
                    move_words=move_words(one.move),
                    side=one.side.value,
                )
            )
            lines.append(_set_crop(one.move))
    lines += [
        "",
        say(
            "Figures 0 to 1; high is bad: cut for run-on, doubled, broken, chevrons and repeated for mirror,"
        ),
        say("smeared, bent and severed for continued, streaked for drawn-out. A busy strip hides faults."),
    ]
    heads = [say(head) for head in _HEADS]
    rows = [[say(one.side.value), one.fill.value, *_figures(one), one.better or "-"] for one in report.sides]
    lines += columns(heads, rows, left=(0, 1, len(heads) - 1))
    lines += ["", *note_lines(report.notes)] if report.notes else []
    return "\n".join(lines)


def _figures(one: SideReport) -> list[str]:
    """A side's figures in the order of the heads."""
    laid = (one.chevrons, one.repeated, one.smeared, one.bent, one.severed, one.streaked)
    return [figure(value, ".2f") for value in (one.busy, one.cut, one.doubled, one.broken, *laid)]


def _set_crop(move: CropMove) -> str:
    """The option that takes the move, as a shell reads it."""
    return say("  --set 'picture.crop={dumps}'", dumps=json.dumps(move.crop.model_dump()))
