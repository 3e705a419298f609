"""`tuckfold fold`: every facet of the canvas, flat, in space, and what of it is seen."""

from __future__ import annotations

import argparse
import json
from typing import Any

from pycore.cli.note_lines import note_lines
from pycore.cli.options.job import add_job_options, blaming, job_from
from pycore.contract.notes import Note
from pycore.fold.facet_words import facet_words
from pycore.speech import say
from pycore.tasks.fold import describe_fold


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_job_options(command)
    command.add_argument(
        "--at", metavar="0..1", type=float, default=1.0, help=say("0 flat to 1 folded (without it: folded)")
    )


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
    with blaming("--at", "at"):
        report = describe_fold(job_from(options), at=options.at)
    return json.dumps(report) if options.json else _prose(report)


def _prose(report: dict[str, Any]) -> str:
    lines = [say("Fold in these stages:")]
    lines += [f"  {number}. {stage['label']}" for number, stage in enumerate(report["stages"], start=1)]
    lines += [
        say("Thickness at each {place}: {bulk:.2f} mm", place=say(place), bulk=bulk)
        for place, bulk in report["bulk_mm"].items()
    ]
    lines += note_lines(Note.model_validate(one) for one in report["notes"])
    lines.append(say("{report_count} facets, layer 1 next to the bars:", report_count=len(report["facets"])))
    for facet in report["facets"]:
        seen = say("seen in part or whole") if facet["visible_mm"] else say("hidden")
        lines.append(
            say(
                "  {facet}: layer {facet2}, {seen}",
                facet=facet_words(facet["name"]),
                facet2=facet["layer"],
                seen=seen,
            )
        )
    return "\n".join(lines)
