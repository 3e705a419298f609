"""The jobs of a batch, from what was named: job files, bundles, folders, tables."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from pycore.batch.piece import FileSource, Piece, safe_name
from pycore.batch.table import Row, read_table
from pycore.bundle.archive import is_archive
from pycore.bundle.content import Bundle, Role
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.contract.check import check_job, edited_job, job_tree, parse_job
from pycore.contract.error_record import ErrorRecord
from pycore.contract.job import Job
from pycore.errors import FieldError, TuckfoldError, reason_of, shown
from pycore.speech import say
from pycore.tasks.bundle import read_bundle

#: What of a folder is a job.
_ENDINGS: Final = (".json", ".zip")
#: Tables of them.
_TABLES: Final = (".csv", ".tsv")


def read_pieces(
    named: Sequence[Path],
    *,
    base: Path | None = None,
    edits: Sequence[str] = (),
    take: Callable[[Job], Job] | None = None,
) -> list[Piece]:
    """Read all jobs of a batch.

    Parameters
    ----------
    named : sequence of Path
        Job files, bundles, folders of both, and tables (`.csv`).
    base : Path or None
        A job file or bundle that each row of a table begins from.
    edits : sequence of str
        `field=value`, for every job.
    take : callable or None
        Changes every job: what is taken of presets. A row's own cells come after it.

    Returns
    -------
    list of Piece
        One that cannot be read has an error. So have all of one name.

    Raises
    ------
    FieldError
        A table is none, a folder holds no job, or the base cannot be read.
    """
    pieces: list[Piece] = []
    for path in named:
        if path.is_dir():
            pieces += [_piece(one, edits, take) for one in _inside(path)]
        elif path.suffix.lower() in _TABLES:
            pieces += _rows(path, base, edits, take)
        else:
            pieces.append(_piece(path, edits, take))
    return _told_apart(pieces)


def _inside(folder: Path) -> list[Path]:
    try:
        found = sorted(one for one in folder.iterdir() if one.suffix.lower() in _ENDINGS and one.is_file())
    except OSError as wrong:
        raise _unread(folder, wrong) from wrong
    if not found:
        raise FieldError(
            field="JOBS",
            expected=say("a folder with job files or bundles"),
            got=say("{folder!r} without any", folder=folder.name),
            remedy=say("name another folder"),
            said=say(
                "The folder {folder!r} holds no job file (.json) and no bundle (.zip).", folder=folder.name
            ),
        )
    return found


def _piece(path: Path, edits: Sequence[str], take: Callable[[Job], Job] | None) -> Piece:
    """A job file or a bundle."""
    piece = Piece(name=safe_name(path.stem), source=path.name)
    try:
        tree, bundle = _opened(path)
        job = edited_job(tree, edits, take=take)
        return _with_files(piece, job, folder=path.parent, at=path, bundle=bundle)
    except TuckfoldError as wrong:
        return _refused(piece, wrong)


def _opened(path: Path) -> tuple[dict[str, Any], Bundle | None]:
    """The parsed job of a file, and its bundle where it is one."""
    try:
        data = path.read_bytes()
    except OSError as wrong:
        raise _unread(path, wrong) from wrong
    if is_archive(data):
        bundle = read_bundle(data)
        return parse_job(bundle.text), bundle
    try:
        return parse_job(data.decode("utf-8-sig")), None
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="JOBS",
            expected=say("job files (JSON in UTF-8), bundles, folders or tables (.csv)"),
            got=shown(path.name),
            remedy=say("name another file"),
        ) from wrong


def _rows(
    path: Path,
    base: Path | None,
    edits: Sequence[str],
    take: Callable[[Job], Job] | None,
) -> list[Piece]:
    tree, bundle = ({}, None) if base is None else _opened(base)
    try:
        data = path.read_bytes()
    except OSError as wrong:
        raise _unread(path, wrong) from wrong
    begun = {**job_tree(Job()), **tree}
    if take is not None:
        begun = job_tree(take(check_job(begun)))
    rows = read_table(data, file=path.name, base=begun, edits=list(edits))
    return [_row_piece(path, row, base, bundle) for row in rows]


def _row_piece(path: Path, row: Row, base: Path | None, bundle: Bundle | None) -> Piece:
    own_name = row.cells.get("name", "")
    piece = Piece(
        name=safe_name(own_name or f"{path.stem} {row.number}"),
        source=say("{path}, row {number}", path=path.name, number=row.number),
    )
    if isinstance(row.job, TuckfoldError):
        return _refused(piece, row.job)
    # What the row names lies beside the table; the rest comes from the job that it begins from.
    beside = {Role.PICTURE: "picture.file" in row.cells, Role.PROFILE: "colour.profile" in row.cells}
    try:
        return _with_files(
            piece,
            row.job,
            folder=path.parent,
            at=base or path,
            bundle=bundle,
            elsewhere=None if base is None else base.parent,
            beside={role for role, is_named in beside.items() if is_named},
        )
    except TuckfoldError as wrong:
        return _refused(piece, wrong)


def _refused(piece: Piece, wrong: TuckfoldError) -> Piece:
    return replace(piece, error=str(wrong), refusal=ErrorRecord.of(wrong))


def _with_files(
    piece: Piece,
    job: Job,
    *,
    folder: Path,
    at: Path,
    bundle: Bundle | None,
    elsewhere: Path | None = None,
    beside: Iterable[Role] = (),
) -> Piece:
    """The piece with its picture and its profile, each in the bundle or beside the job."""

    def source(role: Role, field: str, name: str) -> FileSource:
        if bundle is not None and role in bundle.files and role not in beside:
            return FileSource(name=bundle.files[role].name, path=str(at.resolve()), field=field, role=role)
        place = folder if elsewhere is None or role in beside else elsewhere
        path = (place / name).resolve()
        if not path.is_file():
            raise FieldError(
                field=field,
                expected=say("a file beside the job"),
                got=say("{name!r}, which is not there", name=name),
                remedy=say("put it there, or correct its name in the job"),
            )
        return FileSource(name=path.name, path=str(path), field=field)

    try:
        picture, profile = _sources(
            job, source, in_bundle=bundle is not None and Role.PICTURE in bundle.files
        )
    except FieldError as wrong:
        # What is only planned needs no files.
        return replace(piece, job=job, lacks=str(wrong))
    return replace(piece, job=job, picture=picture, profile=profile)


def _sources(
    job: Job, source: Callable[[Role, str, str], FileSource], *, in_bundle: bool
) -> tuple[FileSource, FileSource | None]:
    if not job.picture.file and not in_bundle:
        raise FieldError(
            field="picture.file",
            expected=say("named in the job"),
            got=say("none"),
            remedy=say("write picture.file into the job, or save the job as a bundle"),
        )
    picture = source(Role.PICTURE, "picture.file", job.picture.file)
    profile = None
    if job.colour.profile != ILLUSTRATIVE_NAME:
        profile = source(Role.PROFILE, "colour.profile", job.colour.profile)
    return picture, profile


def _told_apart(pieces: list[Piece]) -> list[Piece]:
    """Pieces of one name would write one another's files: none of them is made."""
    count = Counter(one.name.casefold() for one in pieces)
    told = []
    for one in pieces:
        if count[one.name.casefold()] > 1 and not one.error:
            others = [other.source for other in pieces if other.name.casefold() == one.name.casefold()]
            same = say(
                "Several jobs are called {one!r} ({others}), so none of them is made. Give each a name of "
                "its own.",
                one=one.name,
                others=", ".join(others[:4]),
            )
            told.append(replace(one, job=None, error=same))
        else:
            told.append(one)
    return told


def _unread(path: Path, wrong: OSError) -> FieldError:
    return FieldError(
        field="JOBS",
        expected=say("job files, bundles, folders or tables that can be read"),
        got=f"{path.name!r} ({reason_of(wrong)})",
        remedy=say("check the name"),
    )


def job_text(job: Job) -> str:
    """A job as JSON text, equal for equal jobs.

    Parameters
    ----------
    job : Job

    Returns
    -------
    str

    Examples
    --------
    >>> job_text(Job()) == job_text(Job())
    True
    """
    return json.dumps(job_tree(job), sort_keys=True, ensure_ascii=False)
