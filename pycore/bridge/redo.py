"""What must be made again after a change of the job: a pure function of the old job and the new."""

from __future__ import annotations

from enum import StrEnum

from pycore.contract.job import Job


class Part(StrEnum):
    """A part of what the stage shows that is costly to make."""

    TEXTURE = "texture"
    FOLD = "fold"


def parts_to_redo(old: Job | None, new: Job) -> frozenset[Part]:
    """Which parts differ between two jobs.

    The layout is cheap and always made. The texture depends on the picture's window, the sizes and the
    fills, and on how the panels of a group share the picture; the fold on the sizes, the wrap, and the pixel
    grid its texture coordinates refer to, which the canvas's stretch moves.

    Parameters
    ----------
    old : Job or None
        What the stage shows; None where it shows nothing yet.
    new : Job
        What it shall show.

    Returns
    -------
    frozenset of Part

    Examples
    --------
    >>> parts_to_redo(Job(), Job(name="Low tide"))
    frozenset()
    >>> sorted(parts_to_redo(None, Job()))
    [<Part.FOLD: 'fold'>, <Part.TEXTURE: 'texture'>]
    """
    if old is None:
        return frozenset(Part)
    parts = set()
    if old.group.panels != new.group.panels:
        # More panels, fewer pixels for each: the fold's texture coordinates move with the grid.
        return frozenset(Part)
    if _size_key(old) != _size_key(new):
        return frozenset(Part)
    if (old.picture, old.sides, old.wrap, old.group) != (new.picture, new.sides, new.wrap, new.group):
        parts.add(Part.TEXTURE)
    if old.wrap != new.wrap:
        parts.add(Part.FOLD)
    return frozenset(parts)


def _size_key(job: Job) -> tuple[object, ...]:
    canvas = job.canvas
    return job.face, job.bars, canvas.thickness_mm, canvas.stretch_percent
