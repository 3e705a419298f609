"""The page for the client: made, read again and checked."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass

from pycore.client.page import make_client_page
from pycore.client.recheck import check_client_page
from pycore.client.report import ClientOptions, ClientReport
from pycore.client.wall_offer import offered_wall
from pycore.compare.variants import Variant
from pycore.contract.notes import Note
from pycore.progress import Progress
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture
from pycore.wall.photograph import WallPhoto


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenClientPage:
    """One HTML file, what was found in it, and notes for the photographer."""

    data: bytes
    report: ClientReport
    notes: list[Note]


def write_client_page(
    variants: Sequence[Variant],
    picture: OpenPicture,
    profiles: ProfileStore,
    *,
    viewer: bytes,
    options: ClientOptions,
    file: str,
    photo: WallPhoto | None = None,
) -> Generator[Progress, None, WrittenClientPage]:
    """Make the page, read it again and check it.

    Parameters
    ----------
    variants : sequence of Variant
        One to four.
    picture : OpenPicture
    profiles : ProfileStore
    viewer : bytes
        The viewer's program, JavaScript in UTF-8.
    options : ClientOptions
    file : str
        Its name, for the report.
    photo : WallPhoto, optional
        The photograph that `options.wall` is about.

    Yields
    ------
    Progress

    Returns
    -------
    WrittenClientPage

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The date is none, or a variant cannot be made.
    OutputError
        The textures cannot be made small enough, or what was written is not what was meant.
    """
    wall = None
    if options.wall is not None and photo is not None:
        yield Progress(done=0, label=say("Measuring the wall"))
        wall = offered_wall(variants[0].job, photo, options.wall)
    page = yield from make_client_page(
        variants,
        picture.preview,
        profiles,
        viewer=viewer,
        message=options.message,
        date=options.date,
        surroundings=options.surroundings,
        wall=wall,
    )
    report = check_client_page(page.data, file=file, variants=len(variants))
    return WrittenClientPage(data=page.data, report=report, notes=page.notes)
