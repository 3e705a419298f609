"""Which canvas profile a job means, read and checked."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pycore.colour.gamut.device_gamut import DeviceGamut, make_device_gamut
from pycore.colour.gamut.profile_report import require_printer
from pycore.colour.icc.profile import description, parse_profile
from pycore.colour.illustrative.profile import ILLUSTRATIVE_LABEL, ILLUSTRATIVE_NAME, illustrative_profile
from pycore.contract.notes import Note, Place, Severity
from pycore.speech import say


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class CanvasProfile:
    """A canvas profile ready for use.

    Attributes
    ----------
    name : str
        The file's, or `illustrative-matte`.
    data : bytes
        As read, for embedding.
    description : str
        The profile's own.
    illustration : bool
        It is the invented one that stands in.
    gamut : DeviceGamut
        For questions about what it can hold.
    """

    name: str
    data: bytes
    description: str
    illustration: bool
    gamut: DeviceGamut

    @property
    def notes(self) -> list[Note]:
        """About the profile, for the reader."""
        if not self.illustration:
            return []
        return [
            Note(
                code="illustrative-profile",
                severity=Severity.HINT,
                place=Place.FACE,
                message=say(
                    "{illustrative_label} What lies outside its gamut tells nothing about yours.",
                    illustrative_label=say(ILLUSTRATIVE_LABEL),
                ),
                remedy=say("Open the profile of your canvas on your printer."),
                field="colour.profile",
            )
        ]


def read_canvas_profile(data: bytes, *, name: str) -> CanvasProfile:
    """Read a printer's profile.

    Parameters
    ----------
    data : bytes
        The file.
    name : str
        Its name.

    Returns
    -------
    CanvasProfile

    Raises
    ------
    ProfileError
        Damaged, or not a printer's profile of RGB or CMYK with tables for both directions.
    """
    profile = parse_profile(data)
    require_printer(profile)
    return CanvasProfile(
        name=name,
        data=data,
        description=description(data),
        illustration=False,
        gamut=make_device_gamut(profile),
    )


@lru_cache(maxsize=1)
def illustrative_canvas() -> CanvasProfile:
    """The invented matte canvas that stands in where the user has opened no profile.

    It is made once, so that what is kept of its gamut serves every store of profiles.

    Returns
    -------
    CanvasProfile

    Examples
    --------
    >>> illustrative_canvas().illustration
    True
    """
    data = illustrative_profile()
    return CanvasProfile(
        name=ILLUSTRATIVE_NAME,
        data=data,
        description=description(data),
        illustration=True,
        gamut=make_device_gamut(parse_profile(data)),
    )
