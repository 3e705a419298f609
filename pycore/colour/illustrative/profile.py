"""The illustrative matte canvas: the profile that stands in where the user has none of their own."""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import Final

#: The job's name for it, in `colour.profile`.
ILLUSTRATIVE_NAME: Final = "illustrative-matte"

#: What must be said wherever it is used.
ILLUSTRATIVE_LABEL: Final = "Illustration only: an invented matte canvas, not a measured one."


@lru_cache(maxsize=1)
def illustrative_profile() -> bytes:
    """The profile's bytes.

    Returns
    -------
    bytes

    Examples
    --------
    >>> from pycore.colour.icc.profile import description
    >>> description(illustrative_profile())
    'Illustrative matte canvas (invented, not measured)'
    """
    return resources.files("pycore.colour.illustrative").joinpath("illustrative-matte.icc").read_bytes()
