"""Reading a bundle: its list, the job in it, and the files, each known by its hash."""

from __future__ import annotations

import hashlib
import json
from typing import Annotated, Any, Final

from pydantic import ConfigDict, Field, ValidationError

from pycore.bundle.archive import read_members, refused
from pycore.bundle.content import Bundle, BundledFile, Role
from pycore.bundle.write import BUNDLE_VERSION, FORMAT, LIST_NAME
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.contract.json_object import parse_object
from pycore.contract.migrations import opening_notes
from pycore.contract.record import Record
from pycore.errors import FieldError, shown
from pycore.speech import say

#: Bytes of the list: a job's texts are bounded.
_MOST_LIST: Final = 1024 * 1024
#: Bytes of the marks on a wall: thousands of strokes of the brush.
_MOST_MARKS: Final = 4 * 1024 * 1024


class _Listed(Record):
    """One file in the list."""

    model_config = ConfigDict(extra="forbid", strict=True)

    path: Annotated[str, Field(min_length=1, max_length=300)]
    bytes: Annotated[int, Field(ge=0)]
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]


def open_bundle(data: bytes) -> Bundle:
    """Open a bundle.

    Parameters
    ----------
    data : bytes
        The whole file.

    Returns
    -------
    Bundle

    Raises
    ------
    BundleError
        It is no bundle, is damaged, is of a later version, or holds what its list does not say.
    FieldError
        The job in it is wrong.

    Examples
    --------
    >>> from pycore.bundle.write import bundle_bytes
    >>> open_bundle(bundle_bytes(Job(name="Low tide"), {})).job.name
    'Low tide'
    """
    members = read_members(data)
    listed = _list_of(members)
    tree = listed.get("job")
    if not isinstance(tree, dict):
        raise refused(say("The list of the bundle has no job."))
    job, notes = check_job(tree), opening_notes(tree)
    files = {role: _file(role, entry, members) for role, entry in _entries(listed).items()}
    _check_named(job, files)
    _check_marks(files)
    listed_paths = {LIST_NAME, *(_entries(listed)[role].path for role in files)}
    for name in members:
        if name not in listed_paths:
            raise refused(
                say("The bundle holds a file that its list does not name ({name}).", name=shown(name))
            )
    return Bundle(job=job, files=files, notes=notes, text=json.dumps(tree))


def _list_of(members: dict[str, bytes]) -> dict[str, Any]:
    text = members.get(LIST_NAME)
    if text is None:
        raise refused(
            say("The archive is no bundle: it holds no {list_name}.", list_name=LIST_NAME),
            remedy=say("choose another file"),
        )
    if len(text) > _MOST_LIST:
        raise refused(
            say(
                "The list of the bundle has {text_count:,} bytes; at most {most_list:,} are read.",
                text_count=len(text),
                most_list=_MOST_LIST,
            )
        )
    try:
        listed = parse_object(text.decode("utf-8"))
    except (FieldError, UnicodeDecodeError) as wrong:
        raise refused(
            say("The list of the bundle ({list_name}) is no JSON object in UTF-8.", list_name=LIST_NAME)
        ) from wrong
    if listed.get("format") != FORMAT:
        raise refused(
            say("The archive is no bundle: its {list_name} does not say so.", list_name=LIST_NAME),
            remedy=say("choose another file"),
        )
    version = listed.get("version")
    if type(version) is not int or version < 1:
        raise refused(say("The list of the bundle does not say its version."))
    if version > BUNDLE_VERSION:
        raise refused(
            say(
                "The bundle is of version {version}, which a later version of this program saved; "
                "versions up to {bundle_version} can be opened.",
                version=version,
                bundle_version=BUNDLE_VERSION,
            ),
            remedy=say("open it with that version, or update this one"),
        )
    return listed


def _entries(listed: dict[str, Any]) -> dict[Role, _Listed]:
    files = listed.get("files")
    if not isinstance(files, dict):
        raise refused(say("The list of the bundle does not say which files it holds."))
    entries = {}
    for role, entry in files.items():
        if role not in {one.value for one in Role}:
            raise refused(
                say(
                    "The list of the bundle names a file of a kind that is not known ({role}).",
                    role=shown(role),
                )
            )
        try:
            entries[Role(role)] = _Listed.model_validate(entry)
        except ValidationError as wrong:
            raise refused(
                say("The list of the bundle does not say path, bytes and hash of its {role}.", role=role)
            ) from wrong
    return entries


def _file(role: Role, entry: _Listed, members: dict[str, bytes]) -> BundledFile:
    data = members.get(entry.path)
    if data is None or entry.path == LIST_NAME:
        raise refused(say("The bundle lacks its {role} ({path}).", role=role.value, path=shown(entry.path)))
    if len(data) != entry.bytes or hashlib.sha256(data).hexdigest() != entry.sha256:
        raise refused(
            say(
                "The {role} in the bundle ({path}) is not the one that was saved: its hash is another.",
                role=role.value,
                path=shown(entry.path),
            )
        )
    return BundledFile(name=entry.path.rpartition("/")[2] or role.value, data=data)


def _check_named(job: Job, files: dict[Role, BundledFile]) -> None:
    picture, profile = files.get(Role.PICTURE), files.get(Role.PROFILE)
    if picture is not None and job.picture.sha256 != picture.sha256:
        raise refused(say("The job in the bundle names another picture than the one beside it."))
    if profile is not None and job.colour.profile != profile.name:
        raise refused(say("The job in the bundle names another profile than the one beside it."))


def _check_marks(files: dict[Role, BundledFile]) -> None:
    marks = files.get(Role.WALL_MARKS)
    if marks is None:
        return
    if Role.WALL not in files:
        raise refused(say("The bundle holds marks on a photograph of a wall, and no such photograph."))
    try:
        is_whole = len(marks.data) <= _MOST_MARKS and bool(parse_object(marks.data.decode("utf-8")))
    except (FieldError, UnicodeDecodeError):
        is_whole = False
    if not is_whole:
        raise refused(
            say("The marks on the photograph of the wall in the bundle are no JSON object in UTF-8.")
        )
