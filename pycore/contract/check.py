"""Turning what a user gave (a file, a page, edits) into a checked job, or one clear error."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

from pydantic import ValidationError

from pycore.contract.edits import edit_tree
from pycore.contract.faults import field_error, option_error
from pycore.contract.job import Finish, Job
from pycore.contract.json_object import Tree, parse_object
from pycore.contract.migrations import migrated, opening_notes
from pycore.contract.notes import Note
from pycore.contract.record import Record
from pycore.errors import FieldError, shown
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


def edited_job(tree: Tree, edits: Sequence[str], *, take: Callable[[Job], Job] | None = None) -> Job:
    """The job that a tree, what is taken of presets, and edits make together.

    Parameters
    ----------
    tree : dict
        A parsed job; not changed. Where it says nothing of the sheet, the usual one is meant.
    edits : sequence of str
        See `pycore.contract.edits.edit_tree`.
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
    # An edit of its width alone must not make a sheet without a height of it, which would be a roll.
    tree = {"sheet": job_tree(Job())["sheet"], **tree}
    job = check_job(edit_tree(tree, edits))
    return job if take is None else check_job(edit_tree(job_tree(take(job)), edits))


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
