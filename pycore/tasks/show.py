"""What the stage shows of a job: the folded mesh, the flat canvas as its texture, and the layout."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import Field

from pycore.bars.report import BarsReport
from pycore.contract.dependencies import Result, changed_results
from pycore.contract.job import Job
from pycore.contract.record import Record
from pycore.fold.animation import FoldAnimation, fold_animation
from pycore.layout.grid import PixelGrid
from pycore.layout.panel_places import PanelPlace, panel_places
from pycore.layout.report import Layout
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.tasks.bars import order_bars
from pycore.tasks.layout import lay_out
from pycore.tasks.open_picture import OpenPicture

#: The parts of what the stage shows that are costly to make. Layout and bars are cheap and always made.
COSTLY_PARTS: Final = frozenset({Result.TEXTURE, Result.FOLD})


class ShowOptions(Record):
    """How finely a job is shown."""

    preview_px: Annotated[int, Field(ge=10_000, le=8_000_000)] = 2_000_000
    """About how many pixels the texture has."""


@dataclass(frozen=True, kw_only=True, eq=False)
class ShownCanvas:
    """A job ready for the stage; a part that was not asked for is None.

    Attributes
    ----------
    grid : PixelGrid
        Of one canvas.
    layout : Layout
    bars : BarsReport
    panels : list of PanelPlace
    fold : FoldAnimation or None
    texture : (panels * rows, columns, 4) uint8 or None
        As `PreviewSource.canvas` gives each canvas.
    """

    grid: PixelGrid
    layout: Layout
    bars: BarsReport
    panels: list[PanelPlace]
    fold: FoldAnimation | None
    texture: U8 | None


def parts_to_show(old: Job | None, new: Job) -> frozenset[Result]:
    """Which costly parts must be made again after a change of the job.

    Parameters
    ----------
    old : Job or None
        What the stage shows; None where it shows nothing yet.
    new : Job
        What it shall show.

    Returns
    -------
    frozenset of Result

    Examples
    --------
    >>> parts_to_show(Job(), Job(name="Low tide"))
    frozenset()
    >>> sorted(parts_to_show(None, Job()))
    [<Result.FOLD: 'fold'>, <Result.TEXTURE: 'texture'>]
    """
    return COSTLY_PARTS if old is None else changed_results(old, new, among=COSTLY_PARTS)


def show_canvas(
    job: Job, picture: OpenPicture | None, *, options: ShowOptions, parts: frozenset[Result]
) -> Generator[Progress, None, ShownCanvas]:
    """Make what the stage shows.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture or None
    options : ShowOptions
    parts : frozenset of Result
        Which of the costly parts to make.

    Yields
    ------
    Progress

    Returns
    -------
    ShownCanvas

    Raises
    ------
    GeometryError
        The corners cannot be folded, or a side asks for more pixels than the face has.
    FieldError
        The crop holds less than a pixel.
    """
    grid = panel_grid(job, preview_px=options.preview_px)
    # The fold first: it can refuse the job, and then no picture has been drawn for nothing.
    fold = fold_animation(job, grid=grid) if Result.FOLD in parts else None
    texture = None
    if picture is not None and Result.TEXTURE in parts:
        texture = yield from stacked_canvas(picture.preview, job, grid)
    return ShownCanvas(
        grid=grid,
        layout=lay_out(job, picture),
        bars=order_bars(job),
        panels=panel_places(job, grid),
        fold=fold,
        texture=texture,
    )
