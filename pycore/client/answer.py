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
    SIDE_WORDS,
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
from pycore.speech import LANGUAGES, language, mark, say, speaking

#: How an answer goes on after its first sentence; a line that begins otherwise belongs to the one before.
_TERMS: Final = (
    *("Piece", "For", "Panels", "Together", "Size", "Depth", "Weight", "Sides", "Corners"),
    mark("On the wall"),
    *(mark("Name"), mark("Date"), mark("Remarks")),
)
#: What must be the same in the job for the answer to be of it.
_OF_THE_JOB: Final = ("Piece", "For", "Panels", "Together", "Size")

#: These differ in an answer that chose among sizes.
_OF_A_SIZE: Final = ("Panels", "Together", "Size")

_SIZE = re.compile("(\\d+(?:[.,]\\d+)?) \N{MULTIPLICATION SIGN} (\\d+(?:[.,]\\d+)?) mm \\(")
_DEPTH = re.compile(r"(\d{1,3}(?:[.,]\d{1,3})?) mm \(")
_BROUGHT_WORDS: Final = {mark("nothing brought in"): 0.0, mark("all brought in"): 1.0}

_REMEDY: Final = say("open the job that the client page was made from, or ask the client for the text again")


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
            say(
                "The text has {text_count} characters; an answer has at most {longest_answer}.",
                text_count=len(text),
                longest_answer=LONGEST_ANSWER,
            ),
            say("give the client's answer alone"),
        )
    try:
        with speaking(_language_of(text)):
            lines, picked, is_bare = _read(job, text)
    except FieldError as wrong:
        # What is wrong is said in the language of who reads it, not in that of the answer.
        raise wrong.about(wrong.field) from wrong
    changed = _changed(job_tree(job), job_tree(picked))
    notes = [] if changed or not is_bare else _notes(lines[0])
    return TakenAnswer(job=picked, chosen=lines[0], changed=changed, notes=notes)


def _language_of(text: str) -> str:
    """The language of an answer; the one in use where its text is no answer."""
    for tag in LANGUAGES:
        with speaking(tag):
            if _lines(text):
                return tag
    return language()


def _read(job: Job, text: str) -> tuple[list[str], Job, bool]:
    """An answer's lines, the job that it picks, and whether it says a letter and nothing besides."""
    lines = _lines(text)
    if not lines:
        raise _fault(
            say("The text is no answer of a client page."), say("paste it from “I say yes” or “I choose” on")
        )
    chosen = lines[0]
    remarks = say("Remarks") + ":"
    until_remarks = itertools.takewhile(lambda line: not line.startswith(remarks), lines)
    if sum(_is_first(line) for line in until_remarks) > 1:
        raise _fault(
            say("The text holds every choice of the client page and does not say which one is taken."),
            say("keep the lines of one choice"),
        )
    facts = _facts(lines[1:])
    _check_job(job, facts, chosen)
    tree = job_tree(job)
    _pick(tree, job, facts, chosen)
    tree["answer"] = "\n".join(lines)
    is_bare = chosen != say(YES) and _choice().match(chosen) is not None and ":" not in chosen
    return lines, check_job(tree), is_bare


def _choice() -> re.Pattern[str]:
    """How a choice among several begins, in the language in use."""
    letter, label = "@letter@", "@label@"
    sentence = re.escape(say("I choose {letter}{label}.", letter=letter, label=label))
    return re.compile(sentence.replace(letter, "([A-D])").replace(label, "(?:: (.+?))?") + "$")


def _line() -> re.Pattern[str]:
    """A line that begins with what it is about, in the language in use."""
    terms = "|".join(re.escape(say(term)) for term in _TERMS)
    return re.compile(rf"({terms}):\s?(.*)$", re.DOTALL)


def _lines(text: str) -> list[str]:
    """The answer's lines as the page wrote them; what a mail has put before it is left out."""
    found: list[str] = []
    in_remarks = False
    a_line = _line()
    for raw in showable(text).replace("\N{NO-BREAK SPACE}", " ").split("\n"):
        line = re.sub(r"^(?:\s*>)+", "", raw).strip()
        if not found:
            if _is_first(line):
                found.append(line)
            continue
        if not line:
            if in_remarks and found[-1]:
                found.append("")
        elif in_remarks or a_line.match(line) or _is_first(line):
            found.append(line)
            in_remarks = in_remarks or line.startswith(say("Remarks") + ":")
        else:
            found[-1] = f"{found[-1]} {line}"
    while found and not found[-1]:
        found.pop()
    return found


def _is_first(line: str) -> bool:
    beginning = say("I choose {letter}{label}.", letter="@", label="").partition("@")[0]
    return line == say(YES) or line.startswith(beginning)


def _facts(lines: list[str]) -> dict[str, str]:
    facts: dict[str, str] = {}
    a_line = _line()
    for line in lines:
        match = a_line.match(line)
        if match is None or match[1] == say("Remarks"):
            break
        facts.setdefault(match[1], " ".join(match[2].split()))
    return facts


def _chose_size(chosen: str) -> bool:
    """Whether the choice is called by a size."""
    choice = _choice().match(chosen)
    return choice is not None and "\N{MULTIPLICATION SIGN}" in (choice[2] or "")


def _check_job(job: Job, facts: Mapping[str, str], chosen: str) -> None:
    free = _OF_A_SIZE if _chose_size(chosen) else ()
    own = {term: " ".join(showable(said).split()) for term, said in job_facts(job)}
    for term in (say(one) for one in _OF_THE_JOB if one not in free):
        said, ours = facts.get(term, ""), own.get(term, "")
        if said != ours:
            theirs = f"“{shown(said)[1:-1]}”" if said else say("nothing")
            mine = f"“{shown(ours)[1:-1]}”" if ours else say("nothing")
            raise _fault(
                say(
                    "The answer belongs to another job: its line “{term}” says {theirs}, this job's {mine}.",
                    term=term,
                    theirs=theirs,
                    mine=mine,
                ),
                _REMEDY,
            )


def _pick(tree: dict[str, Any], job: Job, facts: Mapping[str, str], chosen: str) -> None:
    """Change the job's fields to what the answer names, where they differ."""
    own = dict(job_facts(job))
    choice = _choice().match(chosen)
    if chosen != say(YES) and choice is None:
        raise _fault(
            say("The answer's first line {chosen} names no choice A to D.", chosen=shown(chosen)), _REMEDY
        )
    _pick_size(tree, job, facts)
    depth, sides, corners = (facts.get(say(term), "") for term in ("Depth", "Sides", "Corners"))
    if depth != own[say("Depth")]:
        found = _DEPTH.match(depth)
        if found is None:
            raise _fault(
                say("The answer's line “Depth” says {depth}, which is no depth.", depth=shown(depth)), _REMEDY
            )
        tree["bars"]["depth_mm"] = float(found[1].replace(",", "."))
    if sides != sides_words(job):
        _pick_fills(tree["sides"], sides)
    if corners != corners_words(job.wrap):
        fold = next((one for one, words in CORNER_WORDS.items() if say(words) == corners), None)
        if fold is None:
            raise _fault(
                say(
                    "The answer's line “Corners” says {corners}, which no corner is called.",
                    corners=shown(corners),
                ),
                _REMEDY,
            )
        tree["wrap"]["finish"], tree["wrap"]["over"] = fold[0].value, fold[1].value
    label = choice[2] if choice is not None and choice[2] else ""
    share = _brought(label)
    if share is not None:
        tree["colour"]["bring_in"] = share


def _pick_size(tree: dict[str, Any], job: Job, facts: Mapping[str, str]) -> None:
    """Change the face to the size that the answer names; of a group each panel's, all else of it as it is."""
    term = say("Size") if job.group.panels == 1 else say("Panels")
    size = facts.get(term, "")
    if size == _words_of(job, term):
        return
    found = _SIZE.search(size)
    if found is None:
        raise _fault(
            say("The answer's line “{term}” says {size}, which is no size.", term=term, size=shown(size)),
            _REMEDY,
        )
    width, height = (float(one.replace(",", ".")) for one in found.groups())
    tree["face"]["width_mm"], tree["face"]["height_mm"] = width, height
    if job.group.panels > 1:
        _check_job(check_job(tree), facts, say(YES))


def _words_of(job: Job, term: str) -> str:
    """A fact of the job as an answer's line holds it."""
    return " ".join(showable(dict(job_facts(job))[term]).split())


def _brought(label: str) -> float | None:
    """The share of the colours that a label says is brought in; None where it says none."""
    for words, share in _BROUGHT_WORDS.items():
        if label == say(words):
            return share
    template = re.escape(say("{percent} % brought in", percent="@"))
    found = re.fullmatch(template.replace("@", r"(\d{1,3}(?:[.,]\d+)?)"), label)
    return None if found is None else float(found[1].replace(",", ".")) / 100


def _pick_fills(sides: dict[str, Any], said: str) -> None:
    fills = {say(words): fill.value for fill, words in FILL_WORDS.items()}
    names = {say(words): side for side, words in SIDE_WORDS.items()}
    between = re.compile(rf"; (?=(?:{'|'.join(map(re.escape, names))}): )")
    if said in fills:
        for side in Side:
            _set_own(sides, side, None)
        sides["fill"] = fills[said]
        return
    # The words of one fill have a semicolon of their own.
    for part in between.split(said):
        name, _, words = part.partition(": ")
        if name in names and words in fills:
            _set_own(sides, names[name], fills[words])
            continue
        raise _fault(
            say("The answer's line “Sides” says {said}, which no side shows.", said=shown(said)), _REMEDY
        )


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


def _notes(chosen: str) -> list[Note]:
    return [
        Note(
            code="answer-letter-alone",
            severity=Severity.WATCH,
            place=Place.FACE,
            message=say(
                "The answer says “{chosen}” and names nothing in which it differs from this job.",
                chosen=chosen,
            ),
            remedy=say("Look up which variant had that letter; clients are not told the names of profiles."),
            field="answer",
        )
    ]


def _fault(said: str, remedy: str) -> FieldError:
    return FieldError(
        field="answer text",
        expected=say("the answer of this job's client page"),
        got=say("another text"),
        remedy=remedy,
        said=said,
    )
