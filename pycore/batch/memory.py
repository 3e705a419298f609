"""How much memory a piece takes, and how much there is: no more pieces are made at once than fit.

The estimate is an upper figure from measured runs (regression): Python and its libraries, the decoded picture
with its upright and reduced copies, and the canvas where a side needs all of it at once.
"""

from __future__ import annotations

import io
import os
import sys
import warnings
from contextlib import suppress
from pathlib import Path
from typing import Final

from PIL import Image

from pycore.contract.job import Convert, Job
from pycore.layout.grid import pixel_grid
from pycore.picture.guard import LARGEST_PX, no_pixel_limit
from pycore.render.canvas_strips import is_made_whole

_MIB: Final = 1024**2

#: Python, its libraries and small tables.
_BASE_BYTES: Final = 160 * _MIB
#: Bytes a pixel of the picture, with its copies, of 8 bits a channel.
_PICTURE_BYTES: Final = 9
#: Bytes a pixel of the canvas: in strips, and where all of it is made first.
_STRIPS_BYTES: Final = 1.5
_WHOLE_BYTES: Final = 4
#: Where a machine does not say how much it has.
_UNKNOWN_BYTES: Final = 2048 * _MIB
#: Of what is free, this share is used.
_USED_SHARE: Final = 0.8


def piece_bytes(job: Job, picture_px: int, *, is_deep: bool) -> int:
    """Memory that one piece takes, as an upper estimate.

    Parameters
    ----------
    job : Job
        A checked job.
    picture_px : int
        Pixels of the picture.
    is_deep : bool
        It has 16 bits a channel.

    Returns
    -------
    int

    Examples
    --------
    >>> piece_bytes(Job(), 24_000_000, is_deep=False) < piece_bytes(Job(), 96_000_000, is_deep=False)
    True
    """
    grid = pixel_grid(job, ppi=job.print.ppi)
    canvas_px = grid.width_px * grid.height_px
    depth = 2 if is_deep or job.print.bits == 16 or job.print.convert is Convert.CONVERT else 1
    canvas = canvas_px * (_WHOLE_BYTES if is_made_whole(job) else _STRIPS_BYTES) * depth
    return _BASE_BYTES + picture_px * _PICTURE_BYTES * (2 if is_deep else 1) + int(canvas)


def picture_size(data: bytes) -> tuple[int, bool]:
    """Pixels of a picture file by its header, and whether it may have 16 bits a channel.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    int, bool
        The most that is opened, where the header cannot be read here.
    """
    # What is wrong with it is told where it is opened.
    with suppress(Exception), warnings.catch_warnings(), no_pixel_limit():
        warnings.simplefilter("ignore")
        with Image.open(io.BytesIO(data)) as image:
            width, height = image.size
            return min(width * height, LARGEST_PX), image.format in {"TIFF", "PNG"}
    return min(LARGEST_PX, 64 * len(data)), True


def free_bytes() -> int:
    """Memory that this machine, or this process's share of it, has free.

    Returns
    -------
    int

    Examples
    --------
    >>> free_bytes() > 0
    True
    """
    found = [one for one in (_machine_free(), *_group_free()) if one is not None]
    return min(found) if found else _UNKNOWN_BYTES


def budget_bytes() -> int:
    """Memory that a batch may use on this machine.

    Returns
    -------
    int

    Examples
    --------
    >>> 0 < budget_bytes() < free_bytes() + 2**30
    True
    """
    return int(free_bytes() * _USED_SHARE)


def _machine_free() -> int | None:
    with suppress(OSError, ValueError, IndexError):
        for line in Path("/proc/meminfo").read_text(encoding="ascii").splitlines():
            if line.startswith("MemAvailable:"):
                return int(line.split()[1]) * 1024
    if sys.platform != "win32":
        with suppress(OSError, ValueError):
            # Systems that do not say what is free: half of what there is.
            return os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE") // 2
    return None


def _group_free() -> list[int]:
    """What a container's limit leaves; both versions of Linux's control groups."""
    found = []
    for limit, used in (
        ("/sys/fs/cgroup/memory.max", "/sys/fs/cgroup/memory.current"),
        ("/sys/fs/cgroup/memory/memory.limit_in_bytes", "/sys/fs/cgroup/memory/memory.usage_in_bytes"),
    ):
        with suppress(OSError, ValueError):
            # Without a limit the file says “max”, or a number beyond any machine.
            most = int(Path(limit).read_text(encoding="ascii"))
            found.append(max(most - int(Path(used).read_text(encoding="ascii")), 0))
    return found
