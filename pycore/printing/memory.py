"""Whether a print file can be made in the memory that there is, and what would fit where it cannot.

A browser gives a program 4 GB of memory and arrays of at most 2 GB each (32-bit addresses). On a computer's
own Python the memory of the machine is the bound. What a file takes is estimated before it is begun.
"""

from __future__ import annotations

import math
import os
import sys
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from pycore.contract.job import LEAST_PPI, Job
from pycore.errors import OutputError
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.source import SourcePicture
from pycore.printing.encoders import canvas_channels
from pycore.printing.report import FileKind
from pycore.printing.too_fine import too_fine
from pycore.render.canvas_strips import is_made_whole
from pycore.speech import join_said, say

#: Of a browser's 4 GB the libraries, the preview and gaps between arrays take the rest.
_BROWSER_BYTES: Final = 3 * 2**30
#: The longest array with 32-bit addresses.
_LONGEST_BYTES: Final = 2**31 - 1
#: Pillow holds RGB in four bytes a pixel.
_PICTURE_BYTES: Final = 4


@dataclass(frozen=True, kw_only=True, slots=True)
class Memory:
    """The memory that a program may use.

    Attributes
    ----------
    total_bytes : int or None
        All of it; None where it is not known.
    array_bytes : int or None
        The longest array; None where only the whole bounds it.
    is_browser : bool
        Whether the command line has more.
    """

    total_bytes: int | None
    array_bytes: int | None
    is_browser: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Need:
    """The memory that a print file takes while it is made, in bytes.

    Attributes
    ----------
    total_bytes : int
        Picture, canvas or its strips, and what the encoder holds.
    array_bytes : int
        The canvas as one array, which every format counts.
    """

    total_bytes: int
    array_bytes: int


def this_memory() -> Memory:
    """The memory of the program that this runs in.

    Returns
    -------
    Memory
    """
    if sys.maxsize < 2**32:
        return Memory(total_bytes=_BROWSER_BYTES, array_bytes=_LONGEST_BYTES, is_browser=True)
    try:
        total = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    except (AttributeError, ValueError, OSError):
        return Memory(total_bytes=None, array_bytes=None, is_browser=False)
    return Memory(total_bytes=total, array_bytes=None, is_browser=False)


def memory_need(source: SourcePicture, job: Job, grid: PixelGrid, *, kind: FileKind, mode: str) -> Need:
    """Estimate what a print file takes.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job, of a group that of one panel.
    grid : PixelGrid
        The canvas's lines at the wanted resolution.
    kind : FileKind
    mode : str
        Of the file: L, RGB or CMYK.

    Returns
    -------
    Need
    """
    deep = job.print.bits == 16
    row = grid.width_px * canvas_channels(kind, mode) * (2 if deep else 1)
    canvas = row * grid.height_px
    picture = source.width_px * source.height_px
    total = picture * _PICTURE_BYTES
    if deep and source.deep is not None:
        total += picture * source.channels * 2
    # The two ends of the canvas are made with the rows that they reflect; the rest goes strip by strip.
    ends = 2 * (grid.rows[2] + grid.height_px - grid.rows[3])
    total += canvas if is_made_whole(job) else row * min(ends, grid.height_px)
    if kind is FileKind.JPEG:
        total += canvas
    return Need(total_bytes=total, array_bytes=canvas)


def check_memory(source: SourcePicture, job: Job, *, kind: FileKind, mode: str, memory: Memory) -> None:
    """Check that a print file can be made.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job, of a group that of one panel.
    kind : FileKind
    mode : str
        Of the file: L, RGB or CMYK.
    memory : Memory

    Raises
    ------
    OutputError
        It takes more than there is; the message says which resolution fits and what else helps.
    """

    def fits(ppi: float) -> bool:
        return _lacks(need(ppi), memory) is None

    def need(ppi: float) -> Need:
        return memory_need(source, job, pixel_grid(job, ppi=ppi), kind=kind, mode=mode)

    lacks = _lacks(need(job.print.ppi), memory)
    if lacks is None:
        return
    takes, has = lacks
    grid = pixel_grid(job, ppi=job.print.ppi)
    ppi = _highest(fits, below=job.print.ppi)
    ways = [] if ppi is None else [say("lower the resolution to {ppi} pixels per inch", ppi=ppi)]
    ways.append(say("split the picture into more panels"))
    if memory.is_browser:
        ways.append(say("save the job and use the command line, which has the computer's whole memory"))
    where = say("this page") if memory.is_browser else say("this computer")
    raise too_fine(
        OutputError,
        size_px=(grid.width_px, grid.height_px),
        expected=say("lower, so that the file fits in memory while it is made"),
        remedy=say("{ways}, or {ways2}", ways=join_said(ways[:-1], ", "), ways2=ways[-1])
        if len(ways) > 1
        else ways[0],
        said=(
            say(
                "A print file of {width_px} x {height_px} pixels takes {gigabytes} of memory; "
                "{where} has {gigabytes2} for it.",
                width_px=grid.width_px,
                height_px=grid.height_px,
                gigabytes=_gigabytes(takes),
                where=where,
                gigabytes2=_gigabytes(has),
            )
        ),
    )


def is_memory_short(failure: BaseException) -> bool:
    """Whether a failure says that memory is short: numpy has a `ValueError` for what no address reaches.

    Parameters
    ----------
    failure : exception

    Returns
    -------
    bool

    Examples
    --------
    >>> is_memory_short(ValueError("array is too big; `arr.size * arr.dtype.itemsize` is larger ..."))
    True
    >>> is_memory_short(ValueError("not a profile"))
    False
    """
    if isinstance(failure, MemoryError):
        return True
    return isinstance(failure, ValueError) and str(failure).startswith(
        ("array is too big", "Maximum allowed dimension exceeded", "Maximum allowed size exceeded")
    )


def _lacks(need: Need, memory: Memory) -> tuple[int, int] | None:
    """What is taken and what there is, where that is less."""
    if memory.array_bytes is not None and need.array_bytes > memory.array_bytes:
        return need.array_bytes, memory.array_bytes
    if memory.total_bytes is not None and need.total_bytes > memory.total_bytes:
        return need.total_bytes, memory.total_bytes
    return None


def _highest(fits: Callable[[float], bool], *, below: float) -> int | None:
    """The highest whole resolution that fits, since the need rises with it."""
    low, high = LEAST_PPI, math.ceil(below)
    if not fits(low):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def _gigabytes(count: int) -> str:
    return say("{count:.1f} GB", count=count / 1000000000.0)
