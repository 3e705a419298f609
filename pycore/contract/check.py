"""Turning what a user gave (a file, a page, `field=value`) into a checked job, or one clear error."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, TypeVar, cast

from pydantic import ValidationError

from pycore.contract.faults import field_error, option_error
from pycore.contract.job import Finish, Job
from pycore.contract.json_object import Tree, check_depth, parse_object
from pycore.contract.migrations import migrated, newer_name, opening_notes
from pycore.contract.notes import Note
from pycore.contract.record import Record
from pycore.errors import FieldError, shown
from pycore.field_names import nearest_field
from pycore.speech import say

Options = TypeVar("Options", bound=Record)


def check_job(tree: Mapping[str, Any]) -> Job:
    """Check a parsed job against the contract.

    Parameters
    ----------
    tree : mapping
        A job as parsed JSON. `None` stands for an absent optional value.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        For the first thing that is wrong, with its dotted field name.

    Examples
    --------
    >>> check_job({"face": {"width_mm": 210, "height_mm": 297}}).face.width_mm
    210.0
    """
    if not isinstance(tree, Mapping):
        raise FieldError(
            field="job",
            expected=say("a JSON object"),
            got=shown(tree),
            remedy=say("write the job as {{ … }}"),
        )
    tree = migrated(tree)
    try:
        # Through JSON's own rules: "12" is no number and 1 is no truth value, but 12 is a length.
        job = Job.model_validate_json(_to_json(tree), strict=True)
    except ValidationError as wrong:
        raise field_error(wrong.errors(include_url=False)[0]) from wrong
    _check_together(job)
    return job


def read_job(text: str) -> Job:
    """Check the text of a job file.

    Parameters
    ----------
    text : str
        JSON.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The text is not JSON, or not a job.

    Examples
    --------
    >>> read_job('{"bars": {"depth_mm": 20}}').bars.depth_mm
    20.0
    """
    return check_job(parse_job(text))


def open_job(text: str) -> tuple[Job, list[Note]]:
    """Check the text of a job file, and tell what of an earlier version's is worth a look.

    Parameters
    ----------
    text : str
        JSON.

    Returns
    -------
    tuple of Job and list of Note

    Raises
    ------
    FieldError
        The text is not JSON, or not a job.

    Examples
    --------
    >>> job, notes = open_job('{"version": 1}')
    >>> job.bars.depth_mm, notes[0].code
    (38.0, 'job-older')
    """
    tree = parse_object(text)
    return check_job(tree), opening_notes(tree)


def parse_job(text: str) -> Tree:
    """Parse the text of a job file, bring it to the present version, and check no field yet.

    Parameters
    ----------
    text : str
        JSON.

    Returns
    -------
    dict

    Raises
    ------
    FieldError
        The text is not a JSON object, names a key twice, or is a job of a later version.

    Examples
    --------
    >>> parse_job('{"name": "Low tide"}')
    {'name': 'Low tide'}
    """
    return migrated(parse_object(text))


def checked_options(kind: type[Options], values: Mapping[str, Any], *, prefix: str) -> Options:
    """Check what was chosen besides the job.

    Parameters
    ----------
    kind : type of Record
        The options' own model.
    values : mapping
        By the names of its fields.
    prefix : str
        What stands before a field's name where the user writes it, for example two hyphens.

    Returns
    -------
    Record
        Of that kind.

    Raises
    ------
    FieldError
        For the first thing that is wrong, named as the user writes it.
    """
    try:
        return kind.model_validate(values)
    except ValidationError as wrong:
        raise option_error(wrong.errors(include_url=False)[0], kind, prefix=prefix) from wrong


def job_tree(job: Job) -> Tree:
    """A job as plain JSON data, absent values left out.

    Parameters
    ----------
    job : Job

    Returns
    -------
    dict
        What `check_job` takes.

    Examples
    --------
    >>> job_tree(Job())["sheet"]["height_mm"]
    483.0
    """
    return job.model_dump(mode="json", exclude_none=True)


def edit_tree(tree: Tree, edits: Iterable[str]) -> Tree:
    """Apply edits of the form `dotted.name=value` to a parsed job.

    The value of a text field is taken as it stands. Any other is read as JSON where it parses as such,
    otherwise as text; `null`, or nothing after the equals sign of a value that may be absent, leaves the
    value out.

    Parameters
    ----------
    tree : dict
        A parsed job; not changed.
    edits : iterable of str
        For example `face.width_mm=210`.

    Returns
    -------
    dict
        A new tree.

    Raises
    ------
    FieldError
        An edit has no equals sign, or its name leads through a value that has no fields.

    Examples
    --------
    >>> edit_tree({}, ["face.width_mm=210"])
    {'face': {'width_mm': 210}}
    """
    result = cast(Tree, json.loads(json.dumps(tree)))
    for edit in edits:
        name, equals, text = edit.partition("=")
        name = name.strip()
        if not equals or not name:
            raise FieldError(
                field="--set",
                expected=say("field=value"),
                got=shown(edit),
                remedy=say("write for example face.width_mm=210"),
            )
        _check_names(name, text)
        _put(result, name, _value(name, text))
    return result


def edited_job(tree: Tree, edits: Sequence[str], *, take: Callable[[Job], Job] | None = None) -> Job:
    """The job that a tree, what is taken of presets, and edits make together.

    Parameters
    ----------
    tree : dict
        A parsed job; not changed.
    edits : sequence of str
        See `edit_tree`.
    take : callable or None
        Changes the checked job. It comes to the job as it is meant, and an edit has the last word.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The job or an edit is wrong, or what is taken does not suit it.

    Examples
    --------
    >>> edited_job({}, ["face.width_mm=210"]).face.width_mm
    210.0
    """
    job = check_job(edit_tree(tree, edits))
    return job if take is None else check_job(edit_tree(job_tree(take(job)), edits))


def _check_names(name: str, text: str) -> None:
    """Refuse what version 1 called otherwise: only its files are read, not its words."""
    if name == "sides.seed":
        raise FieldError(
            field=name,
            expected=say("a field of the job"),
            got=f"{name}={text}",
            remedy=say("leave it out"),
            said=say(
                "The job has no field sides.seed: continued sides follow the picture's lines and "
                "need no number. Leave it out."
            ),
        )
    newer = newer_name(name, text.strip().strip('"'))
    if newer:
        raise FieldError(
            field=name,
            expected=newer,
            got=f"{name}={text}",
            remedy=say("write {newer}", newer=newer if "=" in newer else f"{newer}={text}"),
            said=say(
                "{name}{words} is a name of version 1; it is called {newer}.",
                name=name,
                words=f"={text}" if "=" in newer else "",
                newer=newer,
            ),
        )


def _no_fields(field: str, name: str) -> str:
    near = nearest_field(name)
    question = say("; did you mean {near}?", near=near) if near else "."
    return say(
        "The job has no field {name}: {field} has no fields of its own{question}",
        name=name,
        field=field,
        question=question,
    )


_TEXT_FIELDS = {"name", "client", "notes", "answer", "picture.file", "picture.sha256", "colour.profile"}


def _value(name: str, text: str) -> Any:
    if name in _TEXT_FIELDS:
        return text
    if not text.strip():
        return None
    try:
        check_depth(text)
        return json.loads(text)
    except ValueError:
        return text.strip()


def _put(tree: Tree, name: str, value: Any) -> None:
    *path, last = name.split(".")
    at: Any = tree
    reached = []
    for step in path:
        reached.append(step)
        if at.get(step) is None:
            at[step] = {}
        at = at[step]
        if not isinstance(at, dict):
            raise FieldError(
                field=name,
                expected=say("a field of the job"),
                got=say("{step}, which has no fields", step=step),
                remedy=say("give one of its own fields"),
                said=_no_fields(".".join(reached), name),
            )
    at[last] = value


def _to_json(tree: Mapping[str, Any]) -> str:
    try:
        return json.dumps(tree)
    except (TypeError, ValueError, RecursionError) as wrong:
        raise FieldError(
            field="job",
            expected=say("plain JSON data"),
            got=str(wrong),
            remedy=say("use numbers, text and lists only"),
        ) from wrong


def _check_together(job: Job) -> None:
    """The bounds that tie two fields together (design: `0 to turnover`, `3 to depth / 2`, crop inside 1)."""
    if job.wrap.ink_over_mm > job.wrap.turnover_mm:
        raise FieldError(
            field="wrap.ink_over_mm",
            expected=say("0 to the turn-over of {turnover_mm:g} mm", turnover_mm=job.wrap.turnover_mm),
            got=say("{ink_over_mm:g} mm", ink_over_mm=job.wrap.ink_over_mm),
            remedy=say("make the bleed smaller or the turn-over wider"),
        )
    if job.wrap.finish is Finish.TRIMMED and job.wrap.tab_mm > job.bars.depth_mm / 2:
        raise FieldError(
            field="wrap.tab_mm",
            expected=say("3 to half the bar depth, {depth_mm:g} mm", depth_mm=job.bars.depth_mm / 2),
            got=say("{tab_mm:g} mm", tab_mm=job.wrap.tab_mm),
            remedy=say("make the tab smaller"),
        )
    width_mm, shorter_mm = job.bars.width_mm, min(job.face.width_mm, job.face.height_mm)
    if width_mm is not None and 2 * width_mm >= shorter_mm:
        raise FieldError(
            field="bars.width_mm",
            expected=say(
                "less than half the shorter side of the face, {shorter_mm:g} mm", shorter_mm=shorter_mm / 2
            ),
            got=say("{width_mm:g} mm", width_mm=width_mm),
            remedy=say("take narrower bars or a larger face"),
        )
    crop = job.picture.crop
    if crop is not None:
        # 1e-9: the page computes x + width in floating point and must be able to touch the edge.
        for axis, start, size in (("x", crop.x, crop.width), ("y", crop.y, crop.height)):
            if start + size > 1 + 1e-9:
                raise FieldError(
                    field=f"picture.crop.{axis}",
                    expected=say("within the picture"),
                    got=say(
                        "{start:g}, and with a size of {size:g} it ends at {start2:g}, beyond 1",
                        start=start,
                        size=size,
                        start2=start + size,
                    ),
                    remedy=say("move the crop or make it smaller"),
                )
