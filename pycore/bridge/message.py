"""What every message is made of: a closed, frozen model, and the buffers that travel beside it."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict

from pycore.contract.described import DESCRIBED


class Message(BaseModel):
    """Base of every message at the bridge."""

    # Most starts need few of the messages: each validator is built when its message is first made.
    model_config = ConfigDict(
        extra="forbid", frozen=True, defer_build=True, use_attribute_docstrings=DESCRIBED
    )


Pair = tuple[float, float]
Triple = tuple[float, float, float]


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
