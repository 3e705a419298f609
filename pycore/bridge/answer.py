"""What answers a call: a reply, the arrays that travel beside it, and the steps on the way."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel

from pycore.bridge.message import Buffer
from pycore.progress import Progress

#: A file's bytes cross in parts of this size, so that no single buffer need be as large as the file.
PART_BYTES = 16 * 1024 * 1024

Arrays = list[NDArray[Any]]


@dataclass
class Answer:
    """A reply and the arrays that travel beside it."""

    reply: BaseModel
    buffers: Arrays = field(default_factory=list)


#: A call yields its progress and returns its answer.
Steps = Generator[Progress, None, Answer]


def attach(array: NDArray[Any], state: str, arrays: Arrays) -> Buffer:
    """Put an array beside a reply and name it for the reply.

    Parameters
    ----------
    array : ndarray
        Its dtype is one that a `Buffer` can name.
    state : str
        The state of its colours or the unit of its numbers, as `Buffer` lists them.
    arrays : list
        What travels beside the reply; the array is added.

    Returns
    -------
    Buffer

    Examples
    --------
    >>> beside: Arrays = []
    >>> attach(np.zeros((2, 3), np.uint8), "file", beside).place, len(beside)
    (0, 1)
    """
    arrays.append(array)
    return Buffer.model_validate(
        {"place": len(arrays) - 1, "shape": list(array.shape), "dtype": str(array.dtype), "state": state}
    )


def parts_of(data: bytes, arrays: Arrays) -> list[Buffer]:
    """Put a file's bytes beside a reply, in parts of at most `PART_BYTES`, and name them for the reply.

    Parameters
    ----------
    data : bytes
        The whole file.
    arrays : list
        What travels beside the reply; the parts are added.

    Returns
    -------
    list of Buffer
        In the file's order.

    Examples
    --------
    >>> [part.shape for part in parts_of(bytes(5), [])]
    [[5]]
    """
    whole = np.frombuffer(data, np.uint8)
    starts = range(0, len(data), PART_BYTES)
    return [attach(whole[start : start + PART_BYTES], "file", arrays) for start in starts]


def file_parts(path: Path) -> Iterator[NDArray[np.uint8]]:
    """Read a file in parts of at most `PART_BYTES`.

    Parameters
    ----------
    path : Path
        A file that can be read.

    Yields
    ------
    (n,) uint8
        The next n bytes.
    """
    with path.open("rb") as file:
        while part := file.read(PART_BYTES):
            yield np.frombuffer(part, np.uint8)
