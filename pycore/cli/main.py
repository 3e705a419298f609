"""`tuckfold`: the entry point, its exit statuses, and one line for every error.

0: done. 3: of many jobs some were not done, and the summary says which, and why. 2: the user gave something
wrong; one line on standard error says what, and what to do. 1: anything else.
"""

from __future__ import annotations

import argparse
import contextlib
import difflib
import importlib
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final, NoReturn

from pycore import __version__
from pycore.cli.options.errors import Once, option_error
from pycore.cli.quick_start import import_pydantic
from pycore.cli.said import Said
from pycore.errors import FieldError, TuckfoldError, reason_of, shown
from pycore.speech import LANGUAGES, language, language_asked, say, speak_in

#: Each command with what it does; its module of the same name is imported only when it is run.
COMMANDS: Final = {
    "layout": say("whether the canvas fits the sheet, its sizes, and what becomes of the picture"),
    "compare": say(
        "two to four variants: cropped away, canvas to cut, fits or not, outside the gamut, weights"
    ),
    "plan": say("many jobs on sheets and rolls: places, cuts in order, waste, cost"),
    "bars": say("bars, braces and fittings to order, what the whole piece weighs, what it hangs by"),
    "edges": say("which side fill suits each side, and why"),
    "fold": say("the stages of folding the corners, layers, thickness, what is seen"),
    "print": say("save the print file: TIFF, PNG, JPEG or PDF at exact size"),
    "strip": say("a proof strip to print and measure before the piece, and what a measured one says"),
    "profile": say("what a profile is: white, black, gamut volume, tables"),
    "clip": say("how much of a picture lies outside the canvas's gamut: face, each side, groups of colours"),
    "intents": say("which rendering intent harms a picture least, and the figures of all"),
    "proof": say("the flat canvas as it prints, or its gamut map, as a picture"),
    "transform": say("colours from standard input through two profiles, one colour a line"),
    "model": say("a 3D model (glTF 2.0 binary, metres) of the folded canvas, with the fold as an animation"),
    "bundle": say("a job with its picture, profile and wall photograph as one file (.zip)"),
    "batch": say(
        "many jobs at once: print files, client pages, tickets, one plan of sheets, one shopping list"
    ),
    "ticket": say("the sheet of paper that goes with the piece: print, colours, fold, stretch, hang (PDF)"),
    "wall": say("the piece on a photographed wall, at true scale, with its sides and shadow"),
    "client": say("the page for the client: one HTML file with a 3D view that opens without a network"),
    "answer": say("what the client answered on the client page, picked and kept in the job file"),
    "page": say("serve the page to this machine's own browsers"),
}


#: What the program says where nothing is asked of it.
EXAMPLE: Final = say(
    "From a photograph to a folded canvas on stretcher bars and a print file. For "
    "example, with quay.jpg:\n"
    "\n"
    "  tuckfold layout quay.jpg --set face.width_mm=240 --set face.height_mm=160\n"
    "      whether a canvas of 240 x 160 mm fits the sheet, and how much of the "
    "picture it shows\n"
    "  tuckfold edges quay.jpg --set face.width_mm=240 --set face.height_mm=160\n"
    "      which side fill suits each side\n"
    "  tuckfold print quay.jpg --out quay.tif --set face.width_mm=240 --set "
    "face.height_mm=160\n"
    "      save the print file\n"
    "  tuckfold fold --set face.width_mm=240 --set face.height_mm=160\n"
    "      the stages of folding it\n"
    "\n"
    "tuckfold --help lists the commands; tuckfold print --help lists the options of "
    "one."
)


class _Parser(argparse.ArgumentParser):
    """A parser whose errors are those of the core: one line, and an object where `--json` asks for it."""

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self.register("action", None, Once)

    def error(self, message: str) -> NoReturn:
        raise option_error(message, prog=self.prog)


def parser(command: str | None = None) -> argparse.ArgumentParser:
    """The command line's grammar.

    Parameters
    ----------
    command : str, optional
        The one command whose options are needed; the others are only listed then.

    Returns
    -------
    argparse.ArgumentParser

    Examples
    --------
    >>> parser("layout").parse_args(["layout", "--json"]).command
    'layout'
    """
    top = _Parser(
        prog="tuckfold",
        description=say("From a photograph to a folded canvas on stretcher bars and a print file."),
    )
    top.add_argument(
        "--language",
        choices=LANGUAGES,
        help=say("the language of what is printed; without it that of LANGUAGE, LC_ALL, LC_MESSAGES or LANG"),
    )
    top.add_argument("--version", action="version", version=f"tuckfold {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, about in COMMANDS.items():
        options = commands.add_parser(name, help=say(about))
        if name == command:
            module = _module(name)
            options.description = f"{_sentence(say(about))} {say(getattr(module, 'DESCRIPTION', ''))}"
            module.add_options(options)
            options.set_defaults(run=module.run)
            # What is wrong beside the command's own options is explained there too.
            top.prog = options.prog
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
    given = sys.argv[1:] if arguments is None else list(arguments)
    try:
        given = _take_language(given)
    except TuckfoldError as wrong:
        print(say("tuckfold: {one_line}", one_line=_one_line(str(wrong))), file=sys.stderr)
        return 2
    if not given:
        return _print(say(EXAMPLE), status=0)
    try:
        options = _parsed(given)
        _spare_what_is_read(options)
        answer: str | Said = options.run(options)
    except TuckfoldError as wrong:
        print(say("tuckfold: {one_line}", one_line=_one_line(str(wrong))), file=sys.stderr)
        # As the parser takes it: shortened too, where it is clear.
        if any(len(word) > len("--j") and "--json".startswith(word) for word in given):
            _print_error(wrong)
        return 2
    except MemoryError:
        print(
            say("tuckfold: There is not enough memory for a file of this size. Lower print.ppi."),
            file=sys.stderr,
        )
        return 1
    except KeyboardInterrupt:
        return _stopped()
    except Exception as wrong:  # The last line of defence: a fault of ours is one line too, and status 1.
        print(
            say(
                "tuckfold: Fault in the program: {name}: {wrong}",
                name=type(wrong).__name__,
                wrong=shown(str(wrong)),
            ),
            file=sys.stderr,
        )
        return 1
    said = Said(text=answer) if isinstance(answer, str) else answer
    # Nothing is no line.
    return _print(said.text, status=said.status, end="\n" if said.text else "")


def _parsed(given: list[str]) -> argparse.Namespace:
    """The options; it ends the program where the help or the version is asked for, or one is wrong."""
    if not given[0].startswith("-") and given[0] not in COMMANDS:
        near = difflib.get_close_matches(given[0], COMMANDS, n=1)
        raise FieldError(
            field=say("the command"),
            expected=say("one of {names}", names=", ".join(COMMANDS)),
            got=shown(given[0]),
            remedy=say("write {near}, or see tuckfold --help", near=near[0])
            if near
            else say("see tuckfold --help"),
        )
    printed = io.StringIO()
    try:
        # Some versions of argparse hide that the help could not be printed, others fail at it.
        with contextlib.redirect_stdout(printed):
            return parser(given[0]).parse_args(given)
    except SystemExit as end:
        status = end.code if isinstance(end.code, int) else 1
        raise SystemExit(_print(printed.getvalue(), end="", status=status)) from None


def _spare_what_is_read(options: argparse.Namespace) -> None:
    """Refuse an output that is one of the inputs, where the command has one."""
    if getattr(options, "out", None):
        # Half of the commands save nothing.
        from pycore.cli.spared import spare_what_is_read

        spare_what_is_read(options, [Path(options.out)])


def _print_error(wrong: TuckfoldError) -> None:
    """The error as one JSON object, for who reads the output."""
    # Few commands fail, and pydantic takes long to import.
    from pycore.contract.error_record import ErrorRecord

    print(f'{{"error": {ErrorRecord.of(wrong).model_dump_json()}}}')


def prepare() -> None:
    """Do what the program needs once, before its command."""
    _write_what_no_code_has()
    import_pydantic()


def _write_what_no_code_has() -> None:
    """Let an output whose encoding lacks a letter have its number instead: a name may have any letter.

    Windows encodes what goes to a file or another program so. The numbers are those of JSON's strings.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _stopped() -> int:
    """Say that Ctrl-C was heard; the status."""
    print(say("tuckfold: Stopped."), file=sys.stderr)
    return 1


def _print(text: str, *, status: int, end: str = "\n") -> int:
    """Print on standard output; the status, or 1 where the text does not get there whole."""
    try:
        print(text, end=end, flush=True)
    except BrokenPipeError:
        _drop_output()
        return 1
    except OSError as wrong:
        _drop_output()
        print(
            say(
                "tuckfold: What was found out could not be printed: {strerror}. Print it to a "
                "place with room.",
                strerror=reason_of(wrong),
            ),
            file=sys.stderr,
        )
        return 1
    return status


def _drop_output() -> None:
    """What is left in the buffer goes nowhere; Python would fail at it once more when it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)


def _take_language(given: list[str]) -> list[str]:
    """Speak the language that is asked for, anywhere on the line, and hand on the rest of it."""
    asked, rest = language_asked(os.environ), list(given)
    for place, word in enumerate(given):
        option, equals, value = word.partition("=")
        if option != "--language":
            continue
        asked = value if equals else next(iter(given[place + 1 :]), "")
        rest = given[:place] + given[place + (1 if equals else 2) :]
        if asked not in LANGUAGES:
            raise FieldError(
                field="--language",
                expected=say("one of {languages}", languages=", ".join(LANGUAGES)),
                got=shown(asked),
                remedy=say("write for example --language de"),
            )
        break
    if asked != language():
        speak_in(asked)
    return rest


def _module(command: str) -> Any:
    """The command's module; `print` is no name for one that a reader would not mistake."""
    name = "print_file" if command == "print" else command
    return importlib.import_module(f"pycore.cli.{name}")


def _one_line(text: str) -> str:
    return " ".join(text.split())
