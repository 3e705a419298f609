"""How the screen shows a canvas."""

from __future__ import annotations

from enum import StrEnum


class Viewing(StrEnum):
    """What of the canvas the screen shows besides its colours."""

    CANVAS = "canvas"
    """Its white and its black as they are under D50; its white is not the screen's."""
    BLACK = "black"
    """Its black; its white is shown as the screen's."""
    NEITHER = "neither"
    """White and black are both stretched to the screen's."""


class Screen(StrEnum):
    """The space in which the screen is drawn to."""

    SRGB = "srgb"
    DISPLAY_P3 = "display-p3"
