"""A job with its files as one bundle: written, and opened again before it is called done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pycore.bundle.content import Bundle, BundledFile, Role
from pycore.bundle.read import open_bundle
from pycore.bundle.report import BundledFileName, BundleReport
from pycore.bundle.write import bundle_bytes
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.contract.job import Job
from pycore.errors import FieldError, OutputError
from pycore.speech import say


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenBundle:
    """A bundle's bytes and what was found in them."""

    data: bytes
    report: BundleReport


def save_bundle(job: Job, files: Mapping[Role, BundledFile], *, file: str) -> WrittenBundle:
    """Write a bundle and open it again.

    Parameters
    ----------
    job : Job
        A checked job.
    files : mapping of Role to BundledFile
        The picture, the profile unless it is the illustrative one, and the wall photograph if there is one,
        of which a copy without metadata goes in, with what is marked on it.
    file : str
        Its name, for the report.

    Returns
    -------
    WrittenBundle

    Raises
    ------
    FieldError
        The job names a picture or a profile that is not among the files.
    PictureError
        The wall photograph is no picture.
    OutputError
        What was read again is not what was meant.

    Examples
    --------
    >>> save_bundle(Job(), {}, file="canvas.zip").report.files
    []
    """
    if Role.PICTURE not in files and job.picture.file:
        raise _absent("picture.file", job.picture.file)
    if Role.PROFILE not in files and job.colour.profile != ILLUSTRATIVE_NAME:
        raise _absent("colour.profile", job.colour.profile)
    if Role.WALL in files:
        files = {**files, Role.WALL: _without_metadata(files[Role.WALL])}
    data = bundle_bytes(job, files)
    found = open_bundle(data)
    if {role: one.sha256 for role, one in found.files.items()} != {
        role: one.sha256 for role, one in files.items()
    }:
        raise OutputError(
            field="bundle",
            expected=say("the files that were put in"),
            got=say("others"),
            remedy=say("save it again"),
            said=say("The bundle does not hold what was put in."),
        )
    names = [BundledFileName(role=role, name=one.name) for role, one in found.files.items()]
    return WrittenBundle(data=data, report=BundleReport(file=file, bytes=len(data), files=names))


def _without_metadata(wall: BundledFile) -> BundledFile:
    """A photograph of somebody's wall says neither where nor when it was taken."""
    from pycore.wall.keep import keep_photograph

    kept = keep_photograph(wall.data, file=wall.name)
    return BundledFile(name=kept.photo.file, data=kept.data)


def read_bundle(data: bytes) -> Bundle:
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
    BundleError, FieldError
        It cannot be opened, or the job in it is wrong.
    """
    return open_bundle(data)


def _absent(field: str, name: str) -> FieldError:
    return FieldError(
        field=field,
        expected=say("open, so that the bundle holds it"),
        got=say("{name!r} by name alone", name=name),
        remedy=say("open that file"),
    )
