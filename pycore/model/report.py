"""What models and turntables are asked for, and what is found when a written one is read again."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pycore.contract.record import Record, Triple


class ModelColours(StrEnum):
    """Which colours a model carries."""

    FILED = "filed"
    PRINTED = "printed"


class ModelOptions(Record):
    """What may be chosen of a model."""

    colours: ModelColours = ModelColours.PRINTED
    texture_px: Annotated[int, Field(ge=10_000, le=40_000_000)] = 4_000_000
    """About how many pixels its textures have together, and no more."""


class ModelReport(Record):
    """What was re-read from a written model."""

    file: str
    bytes: int
    vertices: int
    triangles: int
    size_mm: Triple
    """Width, height and depth of the folded canvas."""
    texture_px: tuple[int, int]
    animation_s: float


class TurntableKind(StrEnum):
    """Formats of an animated picture."""

    WEBP = "webp"
    GIF = "gif"


class TurntableOptions(Record):
    """Frames of the piece being turned, and what becomes of them."""

    name: str
    """The job's name, for the file's."""
    kind: TurntableKind
    width_px: Annotated[int, Field(ge=16, le=2048)]
    height_px: Annotated[int, Field(ge=16, le=2048)]
    frames: Annotated[int, Field(ge=2, le=240)]
    frame_ms: Annotated[int, Field(ge=20, le=1000)]


class TurntableReport(Record):
    """What was re-read from a written animation."""

    file: str
    bytes: int
    width_px: int
    height_px: int
    frames: int
    seconds: float
