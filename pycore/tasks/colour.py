"""The canvas's colours: a profile described, tables for the screen, clipping, intents, the solid."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

from pycore.colour.gamut.profile_report import ProfileReport, profile_report
from pycore.colour.icc.profile import parse_profile
from pycore.colour.link.viewing import Screen, Viewing
from pycore.colour.mapping.intent_advice import IntentAdvice, intent_advice
from pycore.colour.mapping.intent_comparison import CHOICES, IntentFigures
from pycore.colour.mapping.solid import GamutSolid, PicturePoints, gamut_solid, picture_points
from pycore.contract.job import Job
from pycore.progress import Progress
from pycore.proofing.canvas_profile import CanvasProfile, read_canvas_profile
from pycore.proofing.profile_store import Clipped, ProfileStore
from pycore.proofing.screen_tables import ScreenTables, screen_tables
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture

#: Points of the picture's colours in the gamut's solid.
_POINTS: Final = 1500


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class OpenedProfile:
    """A canvas profile and its figures."""

    profile: CanvasProfile
    report: ProfileReport


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ComparedIntents:
    """Every intent's figures on a picture, and a recommendation that the user may overrule.

    Attributes
    ----------
    profile : CanvasProfile
    figures : tuple of IntentFigures
    advice : IntentAdvice
    recommended : int
        A place in the figures.
    """

    profile: CanvasProfile
    figures: tuple[IntentFigures, ...]
    advice: IntentAdvice
    recommended: int


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ColourSolid:
    """The canvas's gamut and the picture's colours in it.

    Attributes
    ----------
    gamut : GamutSolid
    points : PicturePoints
    volume : float
        Cubic Lab units.
    """

    gamut: GamutSolid
    points: PicturePoints
    volume: float


def describe_profile(data: bytes) -> ProfileReport:
    """Describe any ICC profile.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    ProfileReport

    Raises
    ------
    ProfileError
        It is damaged, or of a kind that the engine does not read.
    """
    return profile_report(parse_profile(data))


def open_profile(profiles: ProfileStore, data: bytes | None, *, name: str) -> OpenedProfile:
    """Open a canvas profile, or the one of that name that is open already, and describe it.

    Parameters
    ----------
    profiles : ProfileStore
        The profile is kept there when nothing can fail any more.
    data : bytes or None
        The file; None for one that is open, or for the invented one.
    name : str
        Its file name, or `illustrative-matte`.

    Returns
    -------
    OpenedProfile

    Raises
    ------
    FieldError, ProfileError
        Not a printer's profile, damaged, or not open.
    """
    if data is None:
        profile = profiles.profile(name)
        return OpenedProfile(profile=profile, report=profile_report(profile.gamut.profile))
    profile = read_canvas_profile(data, name=name)
    report = profile_report(profile.gamut.profile)
    profiles.keep(profile)
    return OpenedProfile(profile=profile, report=report)


def look(
    job: Job, picture: OpenPicture, profiles: ProfileStore, *, viewing: Viewing, screen: Screen, fine: bool
) -> Generator[Progress, None, ScreenTables]:
    """Make the tables that show the picture as filed and as printed.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    viewing : Viewing
    screen : Screen
    fine : bool
        With as many nodes as the print file's table has, where colours are brought in.

    Yields
    ------
    Progress

    Returns
    -------
    ScreenTables

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open, or it lacks what is needed.
    """
    proof_input, _ = yield from picture.proof_input(job)
    return screen_tables(
        proof_input,
        job.colour,
        profiles,
        viewing=viewing,
        screen=screen,
        is_srgb=picture.preview.is_srgb,
        fine=fine,
    )


def clip(job: Job, picture: OpenPicture, profiles: ProfileStore) -> Generator[Progress, None, Clipped]:
    """Find what clips on the face and on each side, before and after bringing in, in groups of colours.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore

    Yields
    ------
    Progress

    Returns
    -------
    Clipped

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open, or it lacks what is needed.
    """
    proof_input, grid = yield from picture.proof_input(job)
    return profiles.clipped(proof_input, job.colour, grid)


def intents(
    job: Job, picture: OpenPicture, profiles: ProfileStore
) -> Generator[Progress, None, ComparedIntents]:
    """Compare the rendering intents on the picture as it is filed: bringing in comes after the choice.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore

    Yields
    ------
    Progress

    Returns
    -------
    ComparedIntents

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open, or it lacks what is needed.
    """
    profile = profiles.profile(job.colour.profile)
    proof_input, _ = yield from picture.proof_input(job)
    yield Progress(done=0, label=say("Comparing the intents"))
    figures = []
    for one in profiles.intents_in_turn(proof_input, job.colour):
        figures.append(one)
        yield Progress(done=len(figures) / len(CHOICES), label=say("Comparing the intents"))
    advice = intent_advice(figures)
    chosen = (advice.intent, advice.black_point_compensation)
    return ComparedIntents(
        profile=profile,
        figures=tuple(figures),
        advice=advice,
        recommended=[(one.intent, one.black_point_compensation) for one in figures].index(chosen),
    )


def solid(job: Job, picture: OpenPicture, profiles: ProfileStore) -> Generator[Progress, None, ColourSolid]:
    """Draw up the canvas's gamut with the picture's colours in it, after bringing in.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore

    Yields
    ------
    Progress

    Returns
    -------
    ColourSolid

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open, or it lacks what is needed.
    """
    gamut = profiles.profile(job.colour.profile).gamut
    filed, grid = yield from picture.proof_input(job)
    proof_input = profiles.brought(filed, job.colour, grid)
    points = picture_points(
        proof_input.colours,
        proof_input.space,
        gamut,
        intent=job.colour.intent,
        black_point_compensation=job.colour.black_point_compensation,
        most=_POINTS,
    )
    return ColourSolid(gamut=gamut_solid(gamut), points=points, volume=gamut.mesh.volume)
