"""Which part of the picture is taken, what lies under the face, what goes round, and how fine it is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.contract.job import AcrossGap, Fill, Hung, Job, fill_of
from pycore.conventions import MM_PER_INCH, Side
from pycore.errors import FieldError
from pycore.layout.quarter_turns import turned_size
from pycore.speech import say


@dataclass(frozen=True, kw_only=True)
class CropWindow:
    """A window on the turned, upright picture, in fractions from its top-left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, kw_only=True)
class PictureWindow:
    """What becomes of the picture.

    Attributes
    ----------
    window, face : CropWindow
        What the face zone and the sides on which it runs on show together; what the face zone shows.
    reshaped : bool
        The job's crop had not the needed shape; the largest window of that shape in its middle was taken.
    effective_ppi : float
        Picture pixels per inch of the face.
    cut_away_share, run_on_share : float
        Shares of the picture's area: shown nowhere as picture; shown on sides on which it runs on.
    """

    window: CropWindow
    face: CropWindow
    reshaped: bool
    effective_ppi: float
    cut_away_share: float
    run_on_share: float


@dataclass(frozen=True, kw_only=True)
class AxisSpan:
    """One axis of the picture's plane, in mm: the panels' face zones and what they carry.

    Attributes
    ----------
    starts_mm : tuple of float
        Of each panel's face zone; one where they stand beside each other on the other axis.
    zone_mm : float
        A face zone's length.
    before_mm, after_mm : float
        What runs on past a panel's zone at either end.
    """

    starts_mm: tuple[float, ...]
    zone_mm: float
    before_mm: float
    after_mm: float

    @property
    def length_mm(self) -> float:
        """Of the whole window."""
        return self.starts_mm[-1] + self.zone_mm + self.after_mm

    @property
    def faces(self) -> float:
        """From the first panel's zone to the last one's end."""
        return self.starts_mm[-1] + self.zone_mm - self.before_mm

    @property
    def shown(self) -> float:
        """How much of it is seen on some panel as picture, parts seen twice counted once."""
        total, reached = 0.0, 0.0
        for start in self.starts_mm:
            begin, end = start - self.before_mm, start + self.zone_mm + self.after_mm
            total += end - max(begin, reached)
            reached = end
        return total


#: A crop whose shape is this near the needed one is taken to be of it: under half a pixel in a thousand.
_SAME_SHAPE = 5e-4


def run_on_mm(job: Job) -> tuple[float, float, float, float]:
    """How far the picture itself runs on past each front edge: top, right, bottom, left, in mm.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    tuple of float
        Top, right, bottom, left, mm; 0 where another fill continues the picture.

    Examples
    --------
    >>> run_on_mm(Job())
    (0.0, 0.0, 0.0, 0.0)
    """
    top, right, bottom, left = (
        job.bars.depth_mm if fill_of(job.sides, side) is Fill.RUN_ON else 0.0 for side in Side
    )
    return top, right, bottom, left


def picture_spans(job: Job) -> tuple[AxisSpan, AxisSpan]:
    """What a job needs of the picture, across and down.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    tuple of AxisSpan
        Across and down.

    Examples
    --------
    >>> across, down = picture_spans(Job())
    >>> across.starts_mm, across.length_mm
    ((0.0,), 300.9)
    """
    top, right, bottom, left = run_on_mm(job)
    take_up = 2 * job.canvas.thickness_mm
    is_across = job.group.hung is Hung.ACROSS
    return (
        _span(job, job.face.width_mm + take_up, before_mm=left, after_mm=right, is_row=is_across),
        _span(job, job.face.height_mm + take_up, before_mm=top, after_mm=bottom, is_row=not is_across),
    )


def _span(job: Job, zone_mm: float, *, before_mm: float, after_mm: float, is_row: bool) -> AxisSpan:
    group = job.group
    between = group.gap_mm if group.across_gap is AcrossGap.BEHIND else 0.0
    count = group.panels if is_row else 1
    return AxisSpan(
        starts_mm=tuple(before_mm + number * (zone_mm + between) for number in range(count)),
        zone_mm=zone_mm,
        before_mm=before_mm,
        after_mm=after_mm,
    )


def shown_ppi(ppi: float) -> int:
    """Pixels per inch as a person reads them: a limit that is just missed is not shown as reached.

    Parameters
    ----------
    ppi : float

    Returns
    -------
    int

    Examples
    --------
    >>> shown_ppi(149.9), shown_ppi(150 - 1e-9)
    (149, 150)
    """
    return math.floor(ppi + 1e-6)


def picture_window(job: Job, *, width_px: int, height_px: int) -> PictureWindow:
    """Find the window on the picture.

    Its shape is that of the printed face zone with the sides where the picture runs on, before stretch.
    Without a crop it is the largest such window in the picture's middle; with one, the largest in the crop's.

    Along the way in which a group hangs, with printed face zones of length z (the face and twice the
    thickness), gap g and n panels, the picture's plane is n z + (n - 1) g long where it runs on behind the
    gaps and n z where it is joined; sides where it runs on add their depth at the two outer ends and, on
    inner sides, reach into the gap or the neighbour's strip.

    Parameters
    ----------
    job : Job
        A checked job.
    width_px, height_px : int
        The upright picture's size, before the job's turn.

    Returns
    -------
    PictureWindow
        Of a group the face reaches from the first panel's to the last one's; what is lost behind gaps counts
        as cut away, what several panels show counts once.

    Raises
    ------
    FieldError
        The window holds less than one pixel across or down.

    Examples
    --------
    >>> round(picture_window(Job(), width_px=4000, height_px=3000).effective_ppi, 1)
    337.7
    >>> from pycore.contract.job import Group
    >>> use = picture_window(Job(group=Group(panels=3)), width_px=6000, height_px=1500)
    >>> round(use.cut_away_share, 3)
    0.217
    """
    wide_px, high_px = turned_size((width_px, height_px), job.picture.turn)
    across, down = picture_spans(job)
    crop = job.picture.crop
    area = (0.0, 0.0, 1.0, 1.0) if crop is None else (crop.x, crop.y, crop.width, crop.height)
    window = largest_inside(area, shape=(across.length_mm / wide_px, down.length_mm / high_px))
    check_window(job, window, width_px=width_px, height_px=height_px)
    face = CropWindow(
        x=window.x + window.width * across.before_mm / across.length_mm,
        y=window.y + window.height * down.before_mm / down.length_mm,
        width=window.width * across.faces / across.length_mm,
        height=window.height * down.faces / down.length_mm,
    )
    per_area = window.width * window.height / (across.length_mm * down.length_mm)
    taken = across.shown * down.shown * per_area
    faces = job.group.panels * across.zone_mm * down.zone_mm * per_area
    runs_on = any((across.before_mm, across.after_mm, down.before_mm, down.after_mm))
    return PictureWindow(
        window=window,
        face=face,
        reshaped=crop is not None and not same_shape(area, window),
        effective_ppi=window.width * wide_px / across.length_mm * MM_PER_INCH,
        cut_away_share=max(0.0, 1 - taken),
        run_on_share=max(0.0, taken - faces) if runs_on else 0.0,
    )


def check_window(job: Job, window: CropWindow, *, width_px: int, height_px: int) -> None:
    """Refuse a window of less than one picture pixel.

    Parameters
    ----------
    job : Job
        A checked job.
    window : CropWindow
        Fractions of the turned picture.
    width_px, height_px : int
        Of the upright picture.

    Raises
    ------
    FieldError
        It holds less than one pixel across or down.

    Examples
    --------
    >>> check_window(Job(), CropWindow(x=0, y=0, width=0.5, height=0.5), width_px=40, height_px=30)
    """
    wide_px, high_px = turned_size((width_px, height_px), job.picture.turn)
    if window.width * wide_px < 1 or window.height * high_px < 1:
        raise FieldError(
            field="picture.crop",
            expected=say("at least one picture pixel wide and high"),
            got=say(
                "{width:.2g} x {height:.2g} pixels",
                width=window.width * wide_px,
                height=window.height * high_px,
            ),
            remedy=say("use a picture of another shape, or a face of nearly its shape")
            if job.picture.crop is None
            else say("make the crop larger"),
            said=(
                say(
                    "The picture of {wide_px} x {high_px} pixels is too narrow for this face: in the "
                    "face's shape, less than one pixel of it is left.",
                    wide_px=wide_px,
                    high_px=high_px,
                )
                if job.picture.crop is None
                else ""
            ),
        )


def same_shape(area: tuple[float, float, float, float], window: CropWindow) -> bool:
    """Whether a crop had the needed shape, so that its largest window is all of it.

    Parameters
    ----------
    area : tuple of float
        The crop: x, y, width, height, fractions of the turned picture.
    window : CropWindow
        The largest window in it.

    Returns
    -------
    bool

    Examples
    --------
    >>> same_shape((0, 0, 1, 1), CropWindow(x=0, y=0, width=1, height=1))
    True
    """
    return max(area[2] / window.width, area[3] / window.height) <= 1 + _SAME_SHAPE


def largest_inside(area: tuple[float, float, float, float], *, shape: tuple[float, float]) -> CropWindow:
    """The largest window of a shape (width : height, in fractions) in the middle of an area.

    Parameters
    ----------
    area : tuple of float
        x, y, width, height, fractions of the turned picture.
    shape : tuple of float
        Width and height, fractions of the turned picture.

    Returns
    -------
    CropWindow

    Examples
    --------
    >>> largest_inside((0, 0, 1, 1), shape=(2, 1))
    CropWindow(x=0.0, y=0.25, width=1, height=0.5)
    """
    x, y, width, height = area
    scale = min(width / shape[0], height / shape[1])
    taken = (min(width, scale * shape[0]), min(height, scale * shape[1]))
    return CropWindow(
        x=x + (width - taken[0]) / 2, y=y + (height - taken[1]) / 2, width=taken[0], height=taken[1]
    )
