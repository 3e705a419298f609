"""One picture across several panels: each panel as a job of its own, and where it hangs.

Every panel has the face's size and its own wraps, so whatever is worked out for one canvas is worked out for
each of them unchanged. What the group shows of the picture is `picture_window`'s subject.
"""

from __future__ import annotations

from pycore.contract.job import Crop, Group, Hung, Job
from pycore.contract.record import Pair
from pycore.errors import FieldError
from pycore.layout.window import AxisSpan, CropWindow, check_window, picture_spans, picture_window
from pycore.speech import say

#: A name of so many characters still takes ", 2 of 3".
_NAME_LENGTH = 1980


def panel_jobs(job: Job, *, width_px: int, height_px: int) -> list[Job]:
    """Each panel as a job of one canvas, with its own window on the picture.

    Parameters
    ----------
    job : Job
        A checked job. Its crop is the whole group's.
    width_px, height_px : int
        The upright picture's size, before the job's turn.

    Returns
    -------
    list of Job
        Left to right or top to bottom; the job itself where there is no group.

    Raises
    ------
    FieldError
        A panel's window holds less than one pixel.

    Examples
    --------
    >>> jobs = panel_jobs(Job(name="Low tide", group=Group(panels=2)), width_px=4000, height_px=3000)
    >>> [one.name for one in jobs], round(jobs[1].picture.crop.x, 3)
    (['Low tide, 1 of 2', 'Low tide, 2 of 2'], 0.524)
    """
    count = job.group.panels
    if count == 1:
        return [job]
    window = picture_window(job, width_px=width_px, height_px=height_px).window
    across, down = picture_spans(job)
    jobs = []
    for number in range(count):
        x, width = _part(across, number, window.x, window.width)
        y, height = _part(down, number, window.y, window.height)
        panel = Job.model_validate(
            {
                **dict(job),
                "name": _named(job.name, number + 1, count),
                "group": Group(),
                "picture": job.picture.model_copy(update={"crop": _crop(x, y, width, height)}),
            }
        )
        check_window(
            panel, CropWindow(x=x, y=y, width=width, height=height), width_px=width_px, height_px=height_px
        )
        jobs.append(panel)
    return jobs


def panel_of(job: Job, number: int, *, width_px: int, height_px: int) -> Job:
    """One panel's job, by its number from 1.

    Parameters
    ----------
    job : Job
        A checked job.
    number : int
    width_px, height_px : int
        The upright picture's size, before the job's turn.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The group has no such panel, or its window holds less than one pixel.

    Examples
    --------
    >>> panel_of(Job(group=Group(panels=2)), 2, width_px=600, height_px=400).name
    '2 of 2'
    """
    if not 1 <= number <= job.group.panels:
        raise FieldError(
            field="panel",
            expected=say("1 to {panels}, the panels of the group", panels=job.group.panels),
            got=str(number),
            remedy=say("ask for one of these, or set group.panels"),
        )
    return panel_jobs(job, width_px=width_px, height_px=height_px)[number - 1]


def panel_centres_mm(job: Job) -> list[Pair]:
    """Where the panels' faces hang: (x, y) in mm from the middle of the group, x right, y up.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of (float, float)
        For each panel, the left or top one first.

    Examples
    --------
    >>> panel_centres_mm(Job(group=Group(panels=2, gap_mm=20)))[1]
    (160.45, 0.0)
    """
    group, take_up = job.group, 2 * job.canvas.thickness_mm
    is_across = group.hung is Hung.ACROSS
    # Round the bars lies one thickness of canvas on either side; the gap is what is left of the wall.
    pitch = (job.face.width_mm if is_across else job.face.height_mm) + take_up + group.gap_mm
    places = [(number - (group.panels - 1) / 2) * pitch for number in range(group.panels)]
    return [(place, 0.0) if is_across else (0.0, -place) for place in places]


def group_size_mm(job: Job) -> Pair:
    """Width and height of all panels with their gaps, as they hang.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    tuple of float
        Width and height, mm, the canvas's thickness included.

    Examples
    --------
    >>> [round(length, 1) for length in group_size_mm(Job(group=Group(panels=3, gap_mm=20)))]
    [942.7, 200.9]
    """
    first, last = panel_centres_mm(job)[0], panel_centres_mm(job)[-1]
    take_up = 2 * job.canvas.thickness_mm
    return (
        last[0] - first[0] + job.face.width_mm + take_up,
        first[1] - last[1] + job.face.height_mm + take_up,
    )


def panel_words(number: int, count: int) -> str:
    """Which panel it is, in words.

    Parameters
    ----------
    number : int
        From 1.
    count : int
        Of all panels.

    Returns
    -------
    str
        Empty for a single canvas.

    Examples
    --------
    >>> panel_words(2, 3), panel_words(1, 1)
    ('2 of 3', '')
    """
    return say("{number} of {count}", number=number, count=count) if count > 1 else ""


def _named(name: str, number: int, count: int) -> str:
    place = panel_words(number, count)
    return f"{name[:_NAME_LENGTH]}, {place}" if name else place


def _part(span: AxisSpan, number: int, origin: float, size: float) -> Pair:
    """Start and size of one panel's window, in fractions of the picture."""
    start = span.starts_mm[number if len(span.starts_mm) > 1 else 0] - span.before_mm
    length_mm = span.before_mm + span.zone_mm + span.after_mm
    return origin + size * start / span.length_mm, size * length_mm / span.length_mm


def _crop(x: float, y: float, width: float, height: float) -> Crop:
    # Rounding in the last place must not push a panel's window past the picture's edge.
    x, y = min(max(x, 0.0), 1.0), min(max(y, 0.0), 1.0)
    return Crop(x=x, y=y, width=min(width, 1.0 - x), height=min(height, 1.0 - y))
