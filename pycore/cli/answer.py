"""`tuckfold answer`: pick what the client chose on the client page, and keep their words in the job file."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pycore.cli.note_lines import note_lines, plain_notes
from pycore.cli.options.job import add_job_options, blaming, job_and_notes
from pycore.cli.options.named_files import file_bytes
from pycore.client.answer import TakenAnswer
from pycore.contract.check import job_tree
from pycore.contract.job import LONGEST_ANSWER
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.printing.place import check_place, file_at
from pycore.speech import say
from pycore.tasks.client_answer import take_answer


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("answer", metavar="ANSWER", help=say("the text that the client sent, as a file"))
    add_job_options(command)
    command.add_argument(
        "--out", metavar="FILE", required=True, help=say("the job file to save; it may be that of --job")
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
    job, opening = job_and_notes(options)
    out = Path(options.out)
    check_place(out, field="--out")
    with blaming("ANSWER", say("answer text")):
        taken = take_answer(job, _text(options.answer))
    text = json.dumps(job_tree(taken.job), indent=2, ensure_ascii=False) + "\n"
    with file_at(out, field="--out") as file:
        file.write(text.encode())
    notes = [*opening, *taken.notes]
    if options.json:
        figures = {"chosen": taken.chosen, "changed": taken.changed, "answer": taken.job.answer}
        return json.dumps(figures | {"notes": plain_notes(notes)})
    return _prose(taken, out, notes)


def _text(name: str) -> str:
    data = file_bytes(name, field="ANSWER")
    # UTF-8 has at most four bytes a character: so nothing large is decoded.
    if len(data) > 4 * LONGEST_ANSWER:
        raise FieldError(
            field="ANSWER",
            expected=say("at most {longest_answer} characters", longest_answer=LONGEST_ANSWER),
            got=say("a file of {data_count:,} bytes", data_count=len(data)),
            remedy=say("give the client's answer alone"),
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="ANSWER",
            expected=say("text in UTF-8"),
            got=say("other bytes"),
            remedy=say("save it as plain text"),
        ) from wrong


def _prose(taken: TakenAnswer, out: Path, notes: list[Note]) -> str:
    changed = (
        say("Changed: {changed}.", changed=", ".join(taken.changed))
        if taken.changed
        else say("The job has that already.")
    )
    lines = [
        say("The client says: {chosen}", chosen=taken.chosen),
        changed,
        say("Saved {out} with the client's words.", out=out.name),
    ]
    return "\n".join([*lines, *note_lines(notes)])
