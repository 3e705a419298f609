"""Side fills, corner finishes and intents as small pictures of one's own canvas, with their cost."""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass, field
from typing import Final

from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.intent_comparison import IntentFigures
from pycore.contract.job import Fill, Finish, Intent, Job
from pycore.conventions import Side
from pycore.errors import TuckfoldError
from pycore.fill.checks import check_fills
from pycore.fold.layers import Bulk, bulk_of
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.layout.grid import pixel_grid, preview_ppi
from pycore.layout.window import picture_window
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.proofing.intent_pictures import intent_pictures, part_changed_most
from pycore.proofing.profile_store import ProfileStore
from pycore.render.corner_canvas import corner_canvas
from pycore.render.corner_pick import CORNERS, corner_panel, telling_corner, with_fill
from pycore.render.corner_picture import corner_picture
from pycore.render.corner_view import (
    PICTURE_WIDTH_PX,
    CornerView,
    Seen,
    corner_view,
    shown_face_mm,
    telling_moment,
)
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture
from pycore.tasks.show import ShowOptions

#: Whether a canvas has the pixels that its fills ask for is judged as finely as the stage shows it.
_CHECKED_PX: Final = ShowOptions().preview_px

#: Folds are seen best where the light falls on them.
_FROM_ABOVE: Final = CORNERS[:2]

#: A view from behind shows a corner about this much smaller than one from the front.
_BEHIND: Final = 1.5


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FillChoice:
    """A side fill on one's own canvas.

    Attributes
    ----------
    fill : Fill
    picture : (rows, columns, 4) uint8 or None
        srgb_encoded; None where it is refused.
    cut_away_share, run_on_share : float
        Of the picture, 0 to 1: shown nowhere; gone from the face on to the sides.
    refused : TuckfoldError or None
        Why this canvas cannot have it.
    """

    fill: Fill
    picture: U8 | None
    cut_away_share: float
    run_on_share: float
    refused: TuckfoldError | None = None


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FinishChoice:
    """A corner finish on one's own canvas.

    Attributes
    ----------
    finish : Finish
    folded, folding : (rows, columns, 4) uint8 or None
        srgb_encoded: done, from the front; on the way, from behind. None where it is refused.
    bulk : list of Bulk
    refused : TuckfoldError or None
        Why this canvas cannot have it.
    """

    finish: Finish
    folded: U8 | None
    folding: U8 | None
    bulk: list[Bulk] = field(default_factory=list)
    refused: TuckfoldError | None = None


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class IntentChoice:
    """A rendering intent on one's own picture.

    Attributes
    ----------
    intent : Intent
    picture : (rows, columns, 4) uint8
        srgb_encoded: the part of the face that printing changes most.
    figures : IntentFigures
        Of all that is seen of the piece, with the job's black point compensation.
    """

    intent: Intent
    picture: U8
    figures: IntentFigures


def fill_choices(
    job: Job, picture: OpenPicture, *, fills: Sequence[Fill], side: Side | None = None
) -> Generator[Progress, None, list[FillChoice]]:
    """Show a corner of the folded canvas with each of some fills, on all sides or on one.

    Parameters
    ----------
    job : Job
        A checked job; the fill that it has where one is chosen does not count.
    picture : OpenPicture
    fills : sequence of Fill
        Those to be shown.
    side : Side, optional
        The side whose own fill is chosen; else that of the sides which have none of their own is.

    Yields
    ------
    Progress

    Returns
    -------
    list of FillChoice
        In the order asked for.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    GeometryError
        The corners cannot be folded at these sizes.
    """
    yield Progress(done=0, label=_FILLS)
    spec = fold_spec(job)
    seen_mm = shown_face_mm(spec, seen=Seen.FRONT)
    corner = telling_corner(picture.preview, job, face_mm=seen_mm, side=side)
    view = corner_view(spec, corner=corner, seen=Seen.FRONT)
    yield Progress(done=0.2, label=_FILLS)
    found = []
    for number, fill in enumerate(fills, start=1):
        filled = with_fill(job, fill, side=side)
        found.append((yield from _fill_choice(filled, picture, fill, corner, view, seen_mm)))
        yield Progress(done=0.2 + 0.8 * number / len(fills), label=_FILLS)
    return found


_FILLS: Final = say("Drawing the side fills")


def _fill_choice(
    job: Job, picture: OpenPicture, fill: Fill, corner: str, view: CornerView, seen_mm: float
) -> Generator[Progress, None, FillChoice]:
    preview = picture.preview
    width_px, height_px = picture.size_px
    use = picture_window(job, width_px=width_px, height_px=height_px)
    panel = corner_panel(preview, job, corner)
    shown: U8 | None = None
    refused: TuckfoldError | None = None
    try:
        check_fills(pixel_grid(panel, ppi=preview_ppi(panel, preview_px=_CHECKED_PX)), panel)
        canvas = yield from corner_canvas(
            preview, panel, corner=corner, face_mm=seen_mm, px_per_mm=_px_per_mm(seen_mm)
        )
        shown = preview.on_screen(corner_picture(view, canvas))
    except TuckfoldError as error:
        refused = error
    return FillChoice(
        fill=fill,
        picture=shown,
        cut_away_share=use.cut_away_share,
        run_on_share=use.run_on_share,
        refused=refused,
    )


def finish_choices(job: Job, picture: OpenPicture) -> Generator[Progress, None, list[FinishChoice]]:
    """Show a corner of the canvas with each finish: folded, from the front; and being folded, from behind.

    Parameters
    ----------
    job : Job
        A checked job; its own finish does not count.
    picture : OpenPicture

    Yields
    ------
    Progress

    Returns
    -------
    list of FinishChoice
        In the order of `Finish`.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    GeometryError
        A side asks for more pixels than the face has.
    """
    label = say("Drawing the corner finishes")
    yield Progress(done=0, label=label)
    preview = picture.preview
    canvas, corner = None, ""
    found = []
    for number, finish in enumerate(Finish, start=1):
        one = job.model_copy(update={"wrap": job.wrap.model_copy(update={"finish": finish})})
        try:
            spec = fold_spec(one)
        except TuckfoldError as error:
            found.append(FinishChoice(finish=finish, folded=None, folding=None, refused=error))
            continue
        if canvas is None:
            seen_mm = shown_face_mm(spec, seen=Seen.BACK)
            front_mm = shown_face_mm(spec, seen=Seen.FRONT)
            corner = telling_corner(preview, job, face_mm=front_mm, among=_FROM_ABOVE)
            canvas = yield from corner_canvas(
                preview,
                corner_panel(preview, job, corner),
                corner=corner,
                face_mm=seen_mm,
                px_per_mm=_px_per_mm(seen_mm) * _BEHIND,
            )
        pictures = []
        for drawn in _views(spec, corner):
            pictures.append(preview.on_screen(corner_picture(drawn(), canvas)))
            yield Progress(done=(number - 1 + len(pictures) / 2) / len(Finish), label=label)
        found.append(FinishChoice(finish=finish, folded=pictures[0], folding=pictures[1], bulk=bulk_of(spec)))
    return found


def _views(spec: FoldSpec, corner: str) -> tuple[Callable[[], CornerView], Callable[[], CornerView]]:
    return (
        lambda: corner_view(spec, corner=corner, seen=Seen.FRONT),
        lambda: corner_view(spec, corner=corner, seen=Seen.BACK, moment=telling_moment(spec)),
    )


def intent_choices(
    job: Job, picture: OpenPicture, profiles: ProfileStore, *, viewing: Viewing
) -> Generator[Progress, None, list[IntentChoice]]:
    """Show the part of the face that printing changes most through each rendering intent.

    Colours are as filed: bringing in comes after the choice of an intent.

    Parameters
    ----------
    job : Job
        A checked job; its own intent does not count.
    picture : OpenPicture
    profiles : ProfileStore
    viewing : Viewing
        What of the canvas the screen shows.

    Yields
    ------
    Progress

    Returns
    -------
    list of IntentChoice
        In the order of `Intent`.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open, or it lacks what is needed.
    """
    label = say("Drawing the rendering intents")
    proof_input, grid = yield from picture.proof_input(job)
    yield Progress(done=0.1, label=label)
    part = part_changed_most(proof_input, grid, job.colour, profiles)
    yield Progress(done=0.2, label=label)
    pictures: dict[Intent, U8] = {}
    for intent, shown in intent_pictures(part, proof_input.space, job.colour, profiles, viewing=viewing):
        pictures[intent] = shown
        yield Progress(done=0.2 + 0.1 * len(pictures), label=label)
    # Compensation has no part in the absolute intent.
    compensated = job.colour.black_point_compensation
    among = [(intent, compensated and intent is not Intent.ABSOLUTE) for intent in Intent]
    figures: dict[Intent, IntentFigures] = {}
    for one in profiles.intents_in_turn(proof_input, job.colour, among=among):
        figures[one.intent] = one
        yield Progress(done=0.6 + 0.1 * len(figures), label=label)
    return [
        IntentChoice(intent=intent, picture=pictures[intent], figures=figures[intent]) for intent in Intent
    ]


def _px_per_mm(seen_mm: float) -> float:
    """A little finer than the picture, whose width the face's edge and the side beside it fill about."""
    return PICTURE_WIDTH_PX / seen_mm
