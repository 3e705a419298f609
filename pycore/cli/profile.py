"""`tuckfold profile`: what a profile is."""

from __future__ import annotations

import argparse
import dataclasses
import json

from pycore.cli.job_options import file_bytes
from pycore.tasks.colour import describe_profile


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("profile", metavar="FILE", help="an ICC profile")
    command.add_argument("--json", action="store_true", help="print one JSON object")


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
    report = describe_profile(file_bytes(options.profile, field="FILE"))
    figures = dataclasses.asdict(report)
    if options.json:
        return json.dumps(figures)
    lab = "L* {0:.1f}, a* {1:.1f}, b* {2:.1f}".format
    lines = [
        f"{report.description}",
        f"{report.kind} profile, ICC {report.version}, {report.device} over {report.pcs}",
        f"white   {lab(*report.white_lab)}",
        f"black   {lab(*report.black_lab)}",
        f"gamut   {report.gamut_volume:,.0f} cubic Lab units",
    ]
    for way, tables in (("from the device", report.forward), ("to the device", report.backward)):
        lines.append(f"{way}: " + ", ".join(f"{intent} {table}" for intent, table in tables.items()))
    return "\n".join(lines)
