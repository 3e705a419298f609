"""The size that the worked examples are given for: a face of 400 x 300 mm on bars of 38 mm."""

from __future__ import annotations

from typing import Any, Final

from pycore.contract.check import check_job
from pycore.contract.job import Job

WORKED: Final[dict[str, dict[str, Any]]] = {
    "face": {"width_mm": 400, "height_mm": 300},
    "bars": {"depth_mm": 38},
}

#: The same for a command line.
WORKED_EDITS: Final = [
    part
    for edit in ("face.width_mm=400", "face.height_mm=300", "bars.depth_mm=38")
    for part in ("--set", edit)
]


def worked_job(**parts: Any) -> Job:
    """The worked job with some parts changed; what a part leaves out stays as it is worked."""
    merged = {
        name: {**WORKED.get(name, {}), **part} if isinstance(part, dict) else part
        for name, part in parts.items()
    }
    return check_job(WORKED | merged)
