"""The kinds of facets. Needs no arrays, so that layers and notes load none."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    """What a facet is; all of a kind move alike in their corner frames."""

    FACE = "face"
    UNDER_SIDE = "under side"
    OVER_SIDE = "over side"
    UNDER_TURNOVER = "under turn-over"
    OVER_TURNOVER = "over turn-over"
    GUSSET_UNDER = "gusset under half"
    GUSSET_OVER = "gusset over half"
    BACK_UNDER = "back gusset under part"
    BACK_MIDDLE = "back gusset middle part"
    BACK_OVER = "back gusset over part"
    TAB = "tab"
