"""Bundles as messages."""

from __future__ import annotations

from collections.abc import Sequence

from pycore.bridge.answer import Answer, Arrays, parts_of
from pycore.bridge.bundle_messages import BundledFileReply, GivenFile, OpenBundleReply, SaveBundleReply
from pycore.bundle.content import Bundle, BundledFile, Role
from pycore.tasks.bundle import WrittenBundle


def given_files(listed: Sequence[GivenFile], buffer: bytes) -> dict[Role, BundledFile]:
    """The files that lie one behind the other in a call's buffer.

    Parameters
    ----------
    listed : sequence of GivenFile
    buffer : bytes

    Returns
    -------
    dict of Role to BundledFile

    Raises
    ------
    ValueError
        The buffer is not as long as the files together: a fault of the page, not of the user.

    Examples
    --------
    >>> given_files([GivenFile(role="picture", file="a.jpg", bytes=2)], b"ab")[Role.PICTURE].data
    b'ab'
    """
    if sum(one.bytes for one in listed) != len(buffer):
        raise ValueError("the files are not as long as the buffer")
    files, at = {}, 0
    for one in listed:
        files[one.role] = BundledFile(name=one.file, data=buffer[at : at + one.bytes])
        at += one.bytes
    return files


def save_bundle_answer(written: WrittenBundle) -> Answer:
    """A written bundle with its bytes.

    Parameters
    ----------
    written : WrittenBundle

    Returns
    -------
    Answer
    """
    arrays: Arrays = []
    return Answer(SaveBundleReply(report=written.report, parts=parts_of(written.data, arrays)), arrays)


def open_bundle_answer(bundle: Bundle) -> Answer:
    """A bundle's job with the bytes of its files.

    Parameters
    ----------
    bundle : Bundle

    Returns
    -------
    Answer
    """
    arrays: Arrays = []
    files = [
        BundledFileReply(role=role, file=one.name, parts=parts_of(one.data, arrays))
        for role, one in bundle.files.items()
    ]
    return Answer(OpenBundleReply(job=bundle.job, files=files, notes=bundle.notes), arrays)
