"""`tuckfold answer`: pick what the client chose on the client page, and keep their words in the job file."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from pycore.cli.job_options import add_job_options, blaming, file_bytes, job_and_notes
from pycore.cli.note_lines import note_lines, plain_notes
from pycore.client.answer import TakenAnswer
from pycore.contract.check import job_tree
from pycore.contract.job import LONGEST_ANSWER
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.printing.place import check_place, file_at
from pycore.tasks.client_answer import take_answer


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    command.add_argument("answer", metavar="ANSWER", help="the text that the client sent, as a file")
    add_job_options(command)
    command.add_argument(
        "--out", metavar="FILE", required=True, help="the job file to save; it may be that of --job"
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
    with blaming("ANSWER", "answer text"):
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
            expected=f"at most {LONGEST_ANSWER} characters",
            got=f"a file of {len(data):,} bytes",
            remedy="give the client's answer alone",
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="ANSWER", expected="text in UTF-8", got="other bytes", remedy="save it as plain text"
        ) from wrong


def _prose(taken: TakenAnswer, out: Path, notes: list[Note]) -> str:
    changed = f"Changed: {', '.join(taken.changed)}." if taken.changed else "The job has that already."
    lines = [f"The client says: {taken.chosen}", changed, f"Saved {out.name} with the client's words."]
    return "\n".join([*lines, *note_lines(notes)])
