"""`tuckfold`: the entry point, its exit statuses, and one line for every error.

0: done. 2: the user gave something wrong; one line on standard error names field, expected, got, remedy.
1: anything else.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from typing import NoReturn

from pycore import __version__
from pycore.cli import client, compare, edges, fold, layout, model, printing, proofing, transform
from pycore.errors import TuckfoldError, shown


class _OneLineParser(argparse.ArgumentParser):
    """A parser whose errors are one line, like every other."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"tuckfold: {message}; see {self.prog} --help\n")


def parser() -> argparse.ArgumentParser:
    """The command line's grammar.

    Returns
    -------
    argparse.ArgumentParser

    Examples
    --------
    >>> parser().parse_args(["layout", "--json"]).command
    'layout'
    """
    top = _OneLineParser(
        prog="tuckfold",
        description="From a photograph to a folded canvas on stretcher bars and a print file.",
    )
    top.add_argument("--version", action="version", version=f"tuckfold {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for command in (layout, compare, edges, fold, printing, proofing, transform, model, client):
        command.add_to(commands)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    arguments : sequence of str, optional
        Without the program's name; the process's own by default.

    Returns
    -------
    int
        The exit status.

    Examples
    --------
    >>> main(["layout", "--json"])  # doctest: +ELLIPSIS
    {"canvas_mm": ...}
    0
    """
    options = parser().parse_args(arguments)
    try:
        text: str = options.run(options)
    except TuckfoldError as wrong:
        print(f"tuckfold: {_one_line(str(wrong))}", file=sys.stderr)
        return 2
    except MemoryError:
        print("tuckfold: not enough memory for a file of this size; lower print.ppi", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("tuckfold: stopped", file=sys.stderr)
        return 1
    except Exception as wrong:  # The last line of defence: a fault of ours is one line too, and status 1.
        print(f"tuckfold: fault in the program: {type(wrong).__name__}: {shown(str(wrong))}", file=sys.stderr)
        return 1
    try:
        print(text, flush=True)
    except BrokenPipeError:
        return 1
    return 0


def run() -> NoReturn:
    """The console script."""
    sys.exit(main())


def _one_line(text: str) -> str:
    return " ".join(text.split())


if __name__ == "__main__":
    run()
