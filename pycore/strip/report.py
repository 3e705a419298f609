"""What is found in a written proof strip, and what a measured one says."""

from __future__ import annotations

from pycore.contract.record import Record, Triple
from pycore.printing.report import FileReport


class StripPatch(Record):
    """A patch and the colour that the profile promises for it."""

    id: str
    name: str
    lab: Triple
    """Lab for D50, as a device measures it."""


class StripReport(FileReport):
    """What was re-read from a written strip, and what it shows."""

    strip_id: str
    """Printed on the strip and written beside its values."""
    values_file: str
    patches: list[StripPatch]


class MeasuredPatch(Record):
    """A patch: what the profile promises, what was measured, and how far they are apart."""

    id: str
    name: str
    expected_lab: Triple
    measured_lab: Triple
    de: float
    """CIEDE2000."""


class StripCheck(Record):
    """A measured strip against the profile's promise; differences are CIEDE2000."""

    strip_id: str
    patches: list[MeasuredPatch]
    """The worst first."""
    mean_de: float
    worst_de: float
    greys_mean_de: float
    """Of bare canvas and the greys alone."""
    doubtful: bool
    """The values differ so much that they may be another strip's."""
