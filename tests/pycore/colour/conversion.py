"""The choices of a conversion as keyword arguments that several calls share."""

from __future__ import annotations

from typing import TypedDict

from pycore.contract.job import Intent


class Conversion(TypedDict):
    """What every conversion must be given."""

    intent: Intent
    black_point_compensation: bool
