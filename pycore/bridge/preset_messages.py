"""Messages about presets: a file checked, an entry taken into the job, what it has kept by name."""

from __future__ import annotations

from pycore.bridge.message import Message
from pycore.contract.job import Job
from pycore.contract.presets import PresetKind, Presets


class OpenPresetsParams(Message):
    """Put the entries of a file among one's own."""

    text: str
    """Of the file."""
    presets: Presets


class PresetsReply(Message):
    """Checked presets."""

    presets: Presets


class TakePresetParams(Message):
    """Take an entry into a job."""

    job: Job
    presets: Presets
    kind: PresetKind
    name: str


class TakePresetReply(Message):
    """The job with it."""

    job: Job


class KeepPresetParams(Message):
    """Keep what the job has under a name."""

    job: Job
    presets: Presets
    kind: PresetKind
    name: str
    price: float | None = None
    """Of a square metre of a sheet or roll, of a metre of bars."""
