"""The layout in figures: the flat canvas, the sheet or roll, what becomes of the picture, and notes."""

from __future__ import annotations

from collections.abc import Iterable

from pycore.contract.job import Job
from pycore.contract.notes import Note, worst_first
from pycore.contract.record import Pair, Record
from pycore.layout.flat import flat_sizes
from pycore.layout.group import group_size_mm
from pycore.layout.group_notes import group_notes
from pycore.layout.notes import layout_notes
from pycore.layout.plan import SheetPlan, plan_sheets
from pycore.layout.sheet import SheetFit, fit_sheet
from pycore.layout.window import CropWindow, PictureWindow, picture_window


class FlatLayout(Record):
    """The flat canvas in mm, as printed (before it is stretched)."""

    canvas_mm: Pair
    inked_mm: Pair
    face_zone_mm: Pair
    columns_mm: list[float]
    """From the canvas's left edge: 0, inked, left and right front edge, inked end, width. Six numbers."""
    rows_mm: list[float]
    """The same from the top edge."""
    back_columns_mm: Pair
    """Where the canvas folds at the left and right back edges, from its left edge."""
    back_rows_mm: Pair
    weight_g: float
    """Of the canvas alone as trimmed, without its cut corners, from its weight per square metre."""


class PictureUse(Record):
    """What becomes of the picture."""

    crop: tuple[float, float, float, float]
    """The window taken, in fractions of the turned picture: x, y, width, height."""
    face_crop: tuple[float, float, float, float]
    """The part of it under the face."""
    effective_ppi: float
    cut_away_share: float
    run_on_share: float


class Layout(Record):
    """Layout, sheet and picture in figures."""

    flat: FlatLayout
    """Of one panel."""
    sheet: SheetFit
    """For one panel's canvas by itself."""
    plan: SheetPlan | None = None
    """Of a group; absent where not even one canvas fits."""
    wall_mm: Pair | None = None
    """Of a group: what it takes of the wall, gaps and all."""
    use: PictureUse | None = None
    notes: list[Note]


def layout_report(
    job: Job,
    *,
    picture_px: tuple[int, int] | None = None,
    fit: SheetFit | None = None,
    trimmed_mm2: float | None = None,
    more: Iterable[Note] = (),
) -> Layout:
    """Lay a job out in figures; of a group one panel's canvas, and all of them together.

    Parameters
    ----------
    job : Job
        A checked job.
    picture_px : (width, height), optional
        Of the upright picture; without it the report leaves out what depends on the picture.
    fit : SheetFit, optional
        From `fit_sheet`, where something besides the sheet limits depth and turn-over.
    trimmed_mm2 : float, optional
        The canvas's area, where its corners may be cut; without it the whole rectangle's.
    more : iterable of Note, optional
        Notes from elsewhere, sorted in.

    Returns
    -------
    Layout

    Raises
    ------
    FieldError
        The crop holds less than one pixel.

    Examples
    --------
    >>> layout_report(Job()).sheet.fits
    True
    """
    sizes = flat_sizes(job)
    fit = fit_sheet(job) if fit is None else fit
    use: PictureWindow | None = None
    if picture_px is not None:
        use = picture_window(job, width_px=picture_px[0], height_px=picture_px[1])
    is_group = job.group.panels > 1
    plan = plan_sheets(job) if is_group else None
    notes = [*layout_notes(job, fit=fit, use=use), *group_notes(job, plan=plan), *more]
    across, down = sizes.canvas_mm
    return Layout(
        flat=FlatLayout(
            canvas_mm=sizes.canvas_mm,
            inked_mm=sizes.inked_mm,
            face_zone_mm=sizes.face_zone_mm,
            columns_mm=list(sizes.columns_mm),
            rows_mm=list(sizes.rows_mm),
            back_columns_mm=sizes.back_columns_mm,
            back_rows_mm=sizes.back_rows_mm,
            weight_g=(across * down if trimmed_mm2 is None else trimmed_mm2) / 1e6 * job.canvas.weight_gsm,
        ),
        sheet=fit,
        plan=plan,
        wall_mm=group_size_mm(job) if is_group else None,
        use=None if use is None else _use(use),
        notes=worst_first(notes),
    )


def _use(use: PictureWindow) -> PictureUse:
    return PictureUse(
        crop=_fractions(use.window),
        face_crop=_fractions(use.face),
        effective_ppi=use.effective_ppi,
        cut_away_share=use.cut_away_share,
        run_on_share=use.run_on_share,
    )


def _fractions(window: CropWindow) -> tuple[float, float, float, float]:
    return window.x, window.y, window.width, window.height
