"""`tuckfold edges`: what the picture holds beside each arris, and which side fill suits that."""

from __future__ import annotations

import argparse
import json

from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.note_lines import note_lines
from pycore.cli.picture_option import add_picture, picture_from
from pycore.edges.report import EdgesReport
from pycore.tasks.edges import judge_edges


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_job_options(command)
    add_picture(command)


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
    lines = ["side    fill      busy  doubled  broken   cut  better"]
    lines += [
        f"{one.side.value:<7} {one.fill.value:<8} {one.busy:5.2f} {one.doubled:8.2f} {one.broken:7.2f} "
        f"{one.cut:5.2f}  {'its own does well' if not one.reason else _better(one.better)}"
        for one in report.sides
    ]
    lines += note_lines(report.notes)
    return "\n".join(lines)


def _better(fill: str | None) -> str:
    return "none" if fill is None else str(fill)
