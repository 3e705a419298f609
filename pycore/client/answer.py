"""The answer that a client page gave, read back: which variant it picks, and whether it is of this job."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from pycore.client.markup import showable
from pycore.client.words import (
    CORNER_WORDS,
    FILL_WORDS,
    YES,
    corners_words,
    job_facts,
    sides_words,
)
from pycore.contract.check import check_job, job_tree
from pycore.contract.job import LONGEST_ANSWER, Job
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.errors import FieldError, shown

#: How an answer goes on after its first sentence; a line that begins otherwise belongs to the one before.
_TERMS: Final = (
    *("Piece", "For", "Panels", "Together", "Size", "Depth", "Weight", "Sides", "Corners"),
    "On the wall",
    *("Name", "Date", "Remarks"),
)
#: What must be the same in the job for the answer to be of it.
_OF_THE_JOB: Final = ("Piece", "For", "Panels", "Together", "Size")

_CHOICE = re.compile(r"I choose ([A-D])(?:: (.+?))?\.$")
_LINE = re.compile(rf"({'|'.join(_TERMS)}):\s?(.*)$", re.DOTALL)
_DEPTH = re.compile(r"(\d{1,3}(?:\.\d{1,3})?) mm \(")
_BETWEEN_SIDES = re.compile(r"; (?=(?:top|right|bottom|left): )")
_BROUGHT = re.compile(r"(\d{1,3}(?:\.\d+)?) % brought in")
_BROUGHT_WORDS: Final = {"nothing brought in": 0.0, "all brought in": 1.0}

_REMEDY: Final = "open the job that the client page was made from, or ask the client for the text again"


@dataclass(frozen=True, kw_only=True, slots=True)
class TakenAnswer:
    """A job with what the client picked.

    Attributes
    ----------
    job : Job
        With the client's words in `answer`.
    chosen : str
        The answer's first sentence.
    changed : list of str
        Dotted fields that the answer changed, `answer` aside.
    notes : list of Note
    """

    job: Job
    chosen: str
    changed: list[str]
    notes: list[Note]


def taken_answer(job: Job, text: str) -> TakenAnswer:
    """Pick the variant that an answer names, and keep the client's words with the job.

    Parameters
    ----------
    job : Job
        A checked job: the one that the client page was made from.
    text : str
        As the page gave it. Mail may have wrapped its lines, quoted or indented it.

    Returns
    -------
    TakenAnswer

    Raises
    ------
    FieldError
        The text is no answer, too long, or belongs to another job.
    """
    if len(text) > LONGEST_ANSWER:
        raise _fault(
            f"The text has {len(text)} characters; an answer has at most {LONGEST_ANSWER}.",
            "give the client's answer alone",
        )
    lines = _lines(text)
    if not lines:
        raise _fault("The text is no answer of a client page.", "paste it from “I say yes” or “I choose” on")
    chosen = lines[0]
    until_remarks = itertools.takewhile(lambda line: not line.startswith("Remarks:"), lines)
    if sum(_is_first(line) for line in until_remarks) > 1:
        raise _fault(
            "The text holds every choice of the client page and does not say which one is taken.",
            "keep the lines of one choice",
        )
    facts = _facts(lines[1:])
    _check_job(job, facts)
    tree = job_tree(job)
    _pick(tree, job, facts, chosen)
    tree["answer"] = "\n".join(lines)
    picked = check_job(tree)
    changed = _changed(job_tree(job), job_tree(picked))
    return TakenAnswer(job=picked, chosen=chosen, changed=changed, notes=_notes(chosen, changed))


def _lines(text: str) -> list[str]:
    """The answer's lines as the page wrote them; what a mail has put before it is left out."""
    found: list[str] = []
    in_remarks = False
    for raw in showable(text).replace("\N{NO-BREAK SPACE}", " ").split("\n"):
        line = re.sub(r"^(?:\s*>)+", "", raw).strip()
        if not found:
            if _is_first(line):
                found.append(line)
            continue
        if not line:
            if in_remarks and found[-1]:
                found.append("")
        elif in_remarks or _LINE.match(line) or _is_first(line):
            found.append(line)
            in_remarks = in_remarks or line.startswith("Remarks:")
        else:
            found[-1] = f"{found[-1]} {line}"
    while found and not found[-1]:
        found.pop()
    return found


def _is_first(line: str) -> bool:
    return line == YES or line.startswith("I choose ")


def _facts(lines: list[str]) -> dict[str, str]:
    facts: dict[str, str] = {}
    for line in lines:
        match = _LINE.match(line)
        if match is None or match[1] == "Remarks":
            break
        facts.setdefault(match[1], " ".join(match[2].split()))
    return facts


def _check_job(job: Job, facts: Mapping[str, str]) -> None:
    own = {term: " ".join(showable(said).split()) for term, said in job_facts(job)}
    for term in _OF_THE_JOB:
        said, ours = facts.get(term, ""), own.get(term, "")
        if said != ours:
            theirs = f"“{shown(said)[1:-1]}”" if said else "nothing"
            mine = f"“{shown(ours)[1:-1]}”" if ours else "nothing"
            raise _fault(
                f"The answer belongs to another job: its line “{term}” says {theirs}, this job's {mine}.",
                _REMEDY,
            )


def _pick(tree: dict[str, Any], job: Job, facts: Mapping[str, str], chosen: str) -> None:
    """Change the job's fields to what the answer names, where they differ."""
    own = dict(job_facts(job))
    choice = _CHOICE.match(chosen)
    if chosen != YES and choice is None:
        raise _fault(f"The answer's first line {shown(chosen)} names no choice A to D.", _REMEDY)
    depth, sides, corners = (facts.get(term, "") for term in ("Depth", "Sides", "Corners"))
    if depth != own["Depth"]:
        found = _DEPTH.match(depth)
        if found is None:
            raise _fault(f"The answer's line “Depth” says {shown(depth)}, which is no depth.", _REMEDY)
        tree["bars"]["depth_mm"] = float(found[1])
    if sides != sides_words(job):
        _pick_fills(tree["sides"], sides)
    if corners != corners_words(job.wrap):
        fold = next((one for one, words in CORNER_WORDS.items() if words == corners), None)
        if fold is None:
            raise _fault(
                f"The answer's line “Corners” says {shown(corners)}, which no corner is called.", _REMEDY
            )
        tree["wrap"]["finish"], tree["wrap"]["over"] = fold[0].value, fold[1].value
    label = choice[2] if choice is not None and choice[2] else ""
    brought = _BROUGHT.fullmatch(label)
    if brought is not None or label in _BROUGHT_WORDS:
        share = float(brought[1]) / 100 if brought is not None else _BROUGHT_WORDS[label]
        tree["colour"]["bring_in"] = share


def _pick_fills(sides: dict[str, Any], said: str) -> None:
    fills = {words: fill.value for fill, words in FILL_WORDS.items()}
    if said in fills:
        for side in Side:
            _set_own(sides, side, None)
        sides["fill"] = fills[said]
        return
    # The words of one fill have a semicolon of their own.
    for part in _BETWEEN_SIDES.split(said):
        name, _, words = part.partition(": ")
        if name in {one.value for one in Side} and words in fills:
            _set_own(sides, Side(name), fills[words])
            continue
        raise _fault(f"The answer's line “Sides” says {shown(said)}, which no side shows.", _REMEDY)


def _set_own(sides: dict[str, Any], side: Side, fill: str | None) -> None:
    own = sides.get(side.value, {})
    own.pop("fill", None)
    if fill is not None:
        own["fill"] = fill
    if own:
        sides[side.value] = own
    else:
        sides.pop(side.value, None)


def _changed(old: Mapping[str, Any], new: Mapping[str, Any], prefix: str = "") -> list[str]:
    found = []
    for name in {**old, **new}:
        one, other = old.get(name), new.get(name)
        if one == other or prefix + name == "answer":
            continue
        if isinstance(one, dict) and isinstance(other, dict):
            found += _changed(one, other, f"{prefix}{name}.")
        else:
            found.append(prefix + name)
    return found


def _notes(chosen: str, changed: list[str]) -> list[Note]:
    if chosen == YES or changed or _CHOICE.match(chosen) is None or ":" in chosen:
        return []
    return [
        Note(
            code="answer-letter-alone",
            severity=Severity.WATCH,
            place=Place.FACE,
            message=f"The answer says “{chosen}” and names nothing in which it differs from this job.",
            remedy="Look up which variant had that letter; clients are not told the names of profiles.",
            field="answer",
        )
    ]


def _fault(said: str, remedy: str) -> FieldError:
    return FieldError(
        field="answer text",
        expected="the answer of this job's client page",
        got="another text",
        remedy=remedy,
        said=said,
    )
