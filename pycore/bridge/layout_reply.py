"""The layout as a message: what the page shows and the command line prints."""

from __future__ import annotations

from pycore.bridge.layout_messages import FlatLayout, LayoutReply, PictureUse
from pycore.bridge.layout_messages import PlannedCanvas as PlannedCanvasMessage
from pycore.bridge.layout_messages import SheetFit as SheetFitMessage
from pycore.bridge.layout_messages import SheetPlan as SheetPlanMessage
from pycore.bridge.messages import PictureInfo
from pycore.contract.job import Job
from pycore.contract.notes import Note, worst_first
from pycore.layout.flat import flat_sizes
from pycore.layout.group import group_size_mm
from pycore.layout.group_notes import group_notes
from pycore.layout.notes import layout_notes
from pycore.layout.plan import SheetPlan, plan_sheets
from pycore.layout.sheet import fit_sheet
from pycore.layout.window import CropWindow, PictureWindow, picture_window


def layout_reply(
    job: Job, *, picture: PictureInfo | None = None, more: list[Note] | None = None
) -> LayoutReply:
    """Lay a job out and say everything about it; of a group one panel's canvas, and all of them together.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : PictureInfo or None
        The open picture; None leaves out what depends on it.
    more : list of Note, optional
        Notes from elsewhere, to be sorted in.

    Returns
    -------
    LayoutReply

    Raises
    ------
    FieldError
        The crop holds less than one pixel.

    Examples
    --------
    >>> layout_reply(Job()).notes[0].code
    'sheet-short'
    """
    sizes, fit = flat_sizes(job), fit_sheet(job)
    use: PictureWindow | None = None
    notes = list(more or [])
    if picture is not None:
        use = picture_window(job, width_px=picture.width_px, height_px=picture.height_px)
        notes += picture.notes
    notes += layout_notes(job, fit=fit, use=use)
    is_group = job.group.panels > 1
    plan = plan_sheets(job) if is_group else None
    notes += group_notes(job, plan=plan)
    across, down = sizes.canvas_mm
    return LayoutReply(
        flat=FlatLayout(
            canvas_mm=sizes.canvas_mm,
            inked_mm=sizes.inked_mm,
            face_zone_mm=sizes.face_zone_mm,
            columns_mm=list(sizes.columns_mm),
            rows_mm=list(sizes.rows_mm),
            back_columns_mm=sizes.back_columns_mm,
            back_rows_mm=sizes.back_rows_mm,
            weight_g=across * down / 1e6 * job.canvas.weight_gsm,
        ),
        sheet=SheetFitMessage(
            fits=fit.fits,
            turned=fit.turned,
            slack_mm=fit.slack_mm,
            ink_slack_mm=fit.ink_slack_mm,
            length_mm=fit.length_mm,
            position_mm=fit.position_mm,
            largest_depth_mm=fit.largest_depth_mm,
            largest_turnover_mm=fit.largest_turnover_mm,
        ),
        plan=None if plan is None else _plan_message(plan),
        wall_mm=group_size_mm(job) if is_group else None,
        use=None if use is None else _use_message(use),
        notes=worst_first(notes),
    )


def _plan_message(plan: SheetPlan) -> SheetPlanMessage:
    return SheetPlanMessage(
        sheets=[
            [PlannedCanvasMessage(panel=one.panel, position_mm=one.position_mm) for one in sheet]
            for sheet in plan.sheets
        ],
        turned=plan.turned,
        length_mm=plan.length_mm,
    )


def _use_message(use: PictureWindow) -> PictureUse:
    return PictureUse(
        crop=_fractions(use.window),
        face_crop=_fractions(use.face),
        effective_ppi=use.effective_ppi,
        cut_away_share=use.cut_away_share,
        carried_share=use.carried_share,
    )


def _fractions(window: CropWindow) -> tuple[float, float, float, float]:
    return window.x, window.y, window.width, window.height
