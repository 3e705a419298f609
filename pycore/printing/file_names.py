"""What the files of a job are called."""

from __future__ import annotations

import re

from pycore.contract.job import Job


def file_stem(job: Job) -> str:
    """A file name, without its ending, made of the job's name and size.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    str

    Examples
    --------
    >>> file_stem(Job(name="Low tide / 2"))
    'Low-tide-2-300x200mm'
    """
    return stem_of(job.name, f"{job.face.width_mm:g}x{job.face.height_mm:g}mm")


def stem_of(name: str, kind: str) -> str:
    """A file name, without its ending, made of the first words of a name and of what kind of file it is.

    Parameters
    ----------
    name : str
        Any text; its first eight words are taken.
    kind : str
        What the name ends in.

    Returns
    -------
    str
        Letters, digits and hyphens, at most 80 characters.

    Examples
    --------
    >>> stem_of("Low tide / 2", "turntable")
    'Low-tide-2-turntable'
    """
    words = re.findall(r"[^\W_]+", name)[:8]
    return "-".join([*words, kind])[-80:]


def panel_name(stem: str, number: int, *, count: int) -> str:
    """A file name, without its ending, for one panel of a group.

    Parameters
    ----------
    stem : str
        Of all of them.
    number : int
        The panel's, from 1.
    count : int
        Panels in all; a single one has the stem alone.

    Returns
    -------
    str

    Examples
    --------
    >>> panel_name("tide", 2, count=3), panel_name("tide", 1, count=1)
    ('tide-2of3', 'tide')
    """
    return f"{stem}-{number}of{count}" if count > 1 else stem


def panel_stem(job: Job, number: int) -> str:
    """A file name, without its ending, for one panel of a group; of a single panel `file_stem`.

    Parameters
    ----------
    job : Job
        A checked job.
    number : int
        The panel's, from 1.

    Returns
    -------
    str

    Examples
    --------
    >>> from pycore.contract.job import Group
    >>> panel_stem(Job(name="Low tide", group=Group(panels=3)), 2)
    'Low-tide-300x200mm-2of3'
    """
    return panel_name(file_stem(job), number, count=job.group.panels)
