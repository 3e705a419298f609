"""`tuckfold profile`: what a profile is."""

from __future__ import annotations

import argparse
import dataclasses
import json

from pycore.cli.options.named_files import file_bytes
from pycore.colour.gamut.profile_report import ProfileReport
from pycore.speech import say
from pycore.tasks.colour import describe_profile


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("profile", metavar="FILE", help=say("an ICC profile"))
    command.add_argument("--json", action="store_true", help=say("print one JSON object"))


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
    return _prose(report)


def _prose(report: ProfileReport) -> str:
    ways = (
        say("in both directions")
        if report.backward
        else say("from the device only, so it cannot be printed with")
    )
    return "\n".join(
        [
            report.description,
            say(
                "It is {kind} profile for {device}, ICC version {version}.",
                kind=report.kind,
                device=report.device,
                version=report.version,
            ),
            say("It converts {ways}.", ways=ways),
            say("white   {lab}", lab=_lab(*report.white_lab)),
            say("black   {lab}", lab=_lab(*report.black_lab)),
            say("gamut   {gamut_volume:,.0f} cubic Lab units", gamut_volume=report.gamut_volume),
            say("connection space {pcs}", pcs=report.pcs),
            *_tables(say("from the device"), report.forward),
            *_tables(say("to the device"), report.backward),
        ]
    )


def _lab(lightness: float, a: float, b: float) -> str:
    return say("L* {lightness:.1f}, a* {a:.1f}, b* {b:.1f}", lightness=lightness, a=a, b=b)


def _tables(way: str, tables: dict[str, str]) -> list[str]:
    if not tables:
        return []
    return [
        f"{way}: "
        + ", ".join(
            say("{intent} by {table}", intent=intent, table=table) for intent, table in tables.items()
        )
    ]
