"""`tuckfold edges`: what the picture holds beside each arris, and which side fill suits that."""

from __future__ import annotations

import argparse
import json
from typing import Any

from pycore.bridge.edges_call import edges_reply
from pycore.bridge.showing_messages import EdgesReply
from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.note_lines import note_lines
from pycore.cli.picture_option import add_picture, picture_from
from pycore.render.preview import PreviewSource


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "edges",
        help="how busy each side's strip is, what a mirror would double or break, what carry would cut",
    )
    add_job_options(command)
    add_picture(command)
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> str:
    """Run the command and return what to print."""
    job = job_from(options)
    preview = PreviewSource(picture_from(options))
    reply = edges_reply(job, preview)
    if options.json:
        return json.dumps(reply.model_dump(mode="json", exclude_none=True))
    return _prose(reply)


def _prose(reply: EdgesReply) -> str:
    lines = ["side    fill      busy  doubled  broken   cut  better"]
    lines += [
        f"{one.side.value:<7} {one.fill.value:<8} {one.busy:5.2f} {one.doubled:8.2f} {one.broken:7.2f} "
        f"{one.cut:5.2f}  {'its own does well' if not one.reason else _better(one.better)}"
        for one in reply.sides
    ]
    lines += note_lines(reply.notes)
    return "\n".join(lines)


def _better(fill: str | None) -> str:
    return "none" if fill is None else str(fill)
