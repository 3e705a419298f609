"""Writing a bundle: a zip archive without packing and without a date: equal content gives equal bytes."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Mapping
from typing import Final

from pycore.bundle.content import BundledFile, Role, plain_file_name
from pycore.contract.check import job_tree
from pycore.contract.job import Job

#: Of the list in a bundle.
BUNDLE_VERSION: Final = 1

#: The list's own name in the archive, and what it says that it is.
LIST_NAME: Final = "bundle.json"
FORMAT: Final = "tuckfold-bundle"

#: The earliest date that an archive can say.
_DATE: Final = (1980, 1, 1, 0, 0, 0)


def bundle_bytes(job: Job, files: Mapping[Role, BundledFile]) -> bytes:
    """Write a job and its files as one archive.

    Parameters
    ----------
    job : Job
        A checked job. In the bundle it names the files that lie beside it.
    files : mapping of Role to BundledFile
        Those that there are; of the illustrative profile none is needed.

    Returns
    -------
    bytes
        The same for the same content, on every machine.

    Examples
    --------
    >>> bundle_bytes(Job(), {}) == bundle_bytes(Job(), {})
    True
    """
    named = {role: _renamed(files[role]) for role in Role if role in files}
    members = {
        role.value: {
            "path": f"{role.value}/{file.name}",
            "bytes": len(file.data),
            "sha256": file.sha256,
        }
        for role, file in named.items()
    }
    listed = {
        "format": FORMAT,
        "version": BUNDLE_VERSION,
        "job": job_tree(_naming(job, named)),
        "files": members,
    }
    text = json.dumps(listed, indent=2, ensure_ascii=False)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        archive.writestr(_member(LIST_NAME), f"{text}\n".encode())
        for role, file in named.items():
            archive.writestr(_member(f"{role.value}/{file.name}"), file.data)
    return out.getvalue()


def _renamed(file: BundledFile) -> BundledFile:
    return BundledFile(name=plain_file_name(file.name), data=file.data)


def _naming(job: Job, files: Mapping[Role, BundledFile]) -> Job:
    """The job as it names its files in the bundle."""
    picture, profile = files.get(Role.PICTURE), files.get(Role.PROFILE)
    changes: dict[str, object] = {}
    if picture is not None:
        named = {"file": picture.name, "sha256": picture.sha256}
        changes["picture"] = job.picture.model_copy(update=named)
    if profile is not None:
        changes["colour"] = job.colour.model_copy(update={"profile": profile.name})
    return job.model_copy(update=changes)


def _member(path: str) -> zipfile.ZipInfo:
    member = zipfile.ZipInfo(path, date_time=_DATE)
    # The system is part of the bytes, and differs from machine to machine: 3 stands for Unix.
    member.create_system = 3
    member.external_attr = 0o100644 << 16
    return member
