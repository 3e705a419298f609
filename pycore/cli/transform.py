"""`tuckfold transform`: numbers through two profiles, for checking against other engines."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.cli.job_options import file_bytes
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.contract.job import Intent
from pycore.errors import FieldError, shown

_STANDARD = {one.value: one for one in (Standard.LAB, Standard.XYZ, Standard.SRGB)}


def add_to(commands: Any) -> None:
    """Add the command to the parser."""
    command: argparse.ArgumentParser = commands.add_parser(
        "transform",
        help="colours from standard input through two profiles, one colour a line",
        description="Device values are 0 to 1; lab is CIELAB for D50; xyz has Y = 1 for white.",
    )
    command.add_argument(
        "--from", metavar="FILE", required=True, dest="source", help="a profile, lab, xyz or srgb"
    )
    command.add_argument(
        "--to", metavar="FILE", required=True, dest="target", help="a profile, lab, xyz or srgb"
    )
    command.add_argument("--intent", required=True, choices=[one.value for one in Intent])
    command.add_argument("--bpc", action="store_true", help="with black point compensation (ISO 18619)")
    command.add_argument("--json", action="store_true", help="print one JSON object")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> str:
    """Run the command and return what to print."""
    transform = make_transform(
        _endpoint(options.source, field="--from"),
        _endpoint(options.target, field="--to"),
        intent=Intent(options.intent),
        black_point_compensation=options.bpc,
    )
    values = read_colours(sys.stdin, channels=transform.inputs)
    found = transform(values) if len(values) else np.empty((0, transform.outputs))
    if options.json:
        return json.dumps({"values": found.tolist()})
    return "\n".join(" ".join(f"{one:.8f}" for one in row) for row in found)


def read_colours(lines: Iterable[str], *, channels: int) -> NDArray[np.float64]:
    """Colours from text.

    Parameters
    ----------
    lines : iterable of str
        Numbers apart by blanks or commas, one colour a line; empty lines do not count.
    channels : int
        Numbers of a colour.

    Returns
    -------
    (n, channels) float64

    Raises
    ------
    FieldError
        A line has too few or too many numbers, or something else.

    Examples
    --------
    >>> read_colours(["0.5 0 1", ""], channels=3).tolist()
    [[0.5, 0.0, 1.0]]
    """
    rows = []
    for number, line in enumerate(lines, start=1):
        parts = line.replace(",", " ").split()
        if not parts:
            continue
        try:
            row = [float(part) for part in parts]
        except ValueError:
            row = []
        if len(row) != channels or not np.isfinite(row).all():
            raise FieldError(
                field=f"line {number}",
                expected=f"{channels} numbers",
                got=shown(line.strip()),
                remedy="write one colour a line",
            )
        rows.append(row)
    return np.array(rows, dtype=np.float64).reshape(-1, channels)


def _endpoint(name: str, *, field: str) -> Endpoint:
    if name.lower() in _STANDARD:
        return _STANDARD[name.lower()]
    return parse_profile(file_bytes(name, field=field))
