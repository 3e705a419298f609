"""`tuckfold transform`: numbers through two profiles, for checking against other engines."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from pycore.cli.options.named_files import file_bytes
from pycore.colour.icc.endpoints import Endpoint
from pycore.contract.job import Intent
from pycore.errors import FieldError, shown
from pycore.speech import say
from pycore.tasks.transform import STANDARD_NAMES, check_values, colour_transform, endpoint, transform_colours

DESCRIPTION = say("Device values are 0 to 1; lab is CIELAB for D50; xyz has Y = 1 for white.")


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument(
        "--from",
        metavar="FILE",
        required=True,
        dest="source",
        help=say("a profile's file, or lab, xyz or srgb"),
    )
    command.add_argument(
        "--to",
        metavar="FILE",
        required=True,
        dest="target",
        help=say("a profile's file, or lab, xyz or srgb"),
    )
    command.add_argument(
        "--intent",
        required=True,
        choices=[one.value for one in Intent],
        help=say("the rendering intent (ISO 15076-1)"),
    )
    command.add_argument("--bpc", action="store_true", help=say("with black point compensation (ISO 18619)"))
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
    source = _endpoint(options.source, field="--from")
    transform = colour_transform(
        source,
        _endpoint(options.target, field="--to"),
        intent=Intent(options.intent),
        black_point_compensation=options.bpc,
    )
    values = read_colours(sys.stdin, channels=transform.inputs)
    check_values(source, values)
    found = transform_colours(transform, values)
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
                field=say("line {number}", number=number),
                expected=say("{channels} numbers", channels=channels),
                got=shown(line.strip()),
                remedy=say("write one colour a line"),
            )
        rows.append(row)
    return np.array(rows, dtype=np.float64).reshape(-1, channels)


def _endpoint(name: str, *, field: str) -> Endpoint:
    standard = STANDARD_NAMES.get(name.lower())
    return endpoint(file_bytes(name, field=field)) if standard is None else standard
