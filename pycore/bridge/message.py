"""What every message is made of: a closed, frozen record, and the buffers that travel beside it."""

from __future__ import annotations

from typing import Literal

from pycore.contract.record import Record
from pycore.layout.grid import Box


class Message(Record):
    """Base of every message at the bridge."""


class Buffer(Message):
    """A flat buffer that travels beside the reply."""

    place: int
    """Its index in the list of buffers."""
    shape: list[int]
    dtype: Literal["uint8", "uint16", "uint32", "float32"]
    state: Literal[
        "srgb_encoded", "picture_encoded", "half_floats", "lab_d50", "mm", "fraction", "index", "file"
    ]
    """For colours their state (`picture_encoded`: of the picture's own RGB space), for numbers their unit;
    `half_floats` are the bits of 16-bit floats."""


class Texture(Message):
    """The flat canvas as pixels, turn-overs and all, row 0 at the top."""

    pixels: Buffer
    """(height, width, 4), uint8, alpha 255; srgb_encoded, or picture_encoded in another RGB space."""
    face: Box
    inked: Box
