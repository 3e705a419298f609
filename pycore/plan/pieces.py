"""The canvases of a set of jobs, one by one: names, sizes, and which way they may lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pycore.contract.job import Job
from pycore.contract.record import Pair
from pycore.conventions import EQUAL_MM
from pycore.errors import FieldError, shown
from pycore.layout.flat import flat_sizes
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import Axis, fit_sheet
from pycore.plan.options import LONGEST_MM, PlanJob, Stock, Turning
from pycore.speech import say

#: Most canvases of one plan: more would keep a page waiting for minutes.
MOST_PIECES = 5000


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One canvas to be cut out.

    Attributes
    ----------
    name : str
        Unique in the plan.
    job : str
        The job's name.
    panel, copy_number : int
        From 1.
    width_mm, height_mm : float
        Of the canvas as it hangs.
    dry_mm : (across, down)
        Between the canvas's edge and its ink, as it hangs: so much may lie on an unprintable margin.
    ways : tuple of bool
        The ways it may lie, each turned by a quarter or not; the first is preferred.
    gives_unequally : bool
        Its canvas gives more one way than the other.
    is_of_group : bool
        It is one of several panels, which all lie the same way round.
    """

    name: str
    job: str
    panel: int
    copy_number: int
    width_mm: float
    height_mm: float
    dry_mm: Pair
    ways: tuple[bool, ...]
    gives_unequally: bool
    is_of_group: bool = False

    @property
    def area_mm2(self) -> float:
        """Of the canvas."""
        return self.width_mm * self.height_mm

    @property
    def may_turn(self) -> bool:
        """Whether it may lie either way."""
        return len(self.ways) > 1

    def size_mm(self, *, turned: bool) -> Pair:
        """Its width and height as it lies.

        Parameters
        ----------
        turned : bool

        Returns
        -------
        tuple of float
        """
        return (self.height_mm, self.width_mm) if turned else (self.width_mm, self.height_mm)

    def lying_dry_mm(self, *, turned: bool) -> Pair:
        """Its dry strips across the sheet and along it, as it lies.

        Parameters
        ----------
        turned : bool

        Returns
        -------
        tuple of float
        """
        return (self.dry_mm[1], self.dry_mm[0]) if turned else self.dry_mm


def pieces_of(jobs: Sequence[PlanJob], *, turning: Turning) -> list[Piece]:
    """Every canvas of some jobs: each panel of each, as often as it is wanted.

    Parameters
    ----------
    jobs : sequence of PlanJob
    turning : Turning

    Returns
    -------
    list of Piece
        In the jobs' order.

    Raises
    ------
    FieldError
        No job, two jobs of one name, or too many canvases.

    Examples
    --------
    >>> from pycore.contract.job import Group
    >>> trio = PlanJob(name="Low tide", job=Job(group=Group(panels=2)), copies=2)
    >>> [piece.name for piece in pieces_of([trio], turning=Turning.WHERE_EQUAL)][1:3]
    ['Low tide, 1 of 2, copy 2', 'Low tide, 2 of 2, copy 1']
    """
    _check(jobs)
    return [piece for one in jobs for piece in _pieces(one, turning)]


def stock_axes(stock: Stock, piece: Piece, *, turned: bool) -> tuple[Axis, Axis]:
    """One piece on a sheet or roll: across it, and along it.

    Parameters
    ----------
    stock : Stock
    piece : Piece
    turned : bool
        Whether the piece lies sideways.

    Returns
    -------
    tuple of Axis
    """
    top, right, bottom, left = stock.margin_mm
    wide, high = piece.size_mm(turned=turned)
    dry_wide, dry_high = piece.lying_dry_mm(turned=turned)
    return (
        Axis(
            sheet_mm=stock.width_mm,
            first_margin_mm=left,
            last_margin_mm=right,
            canvas_mm=wide,
            inked_mm=wide - 2 * dry_wide,
        ),
        Axis(
            sheet_mm=stock.height_mm,
            first_margin_mm=top,
            last_margin_mm=bottom,
            canvas_mm=high,
            inked_mm=high - 2 * dry_high,
        ),
    )


def fits_alone(stock: Stock, piece: Piece, *, turned: bool) -> bool:
    """Whether a sheet or roll holds the piece by itself.

    Parameters
    ----------
    stock : Stock
    piece : Piece
    turned : bool

    Returns
    -------
    bool
    """
    across, along = stock_axes(stock, piece, turned=turned)
    is_short = stock.height_mm is not None or along.need_mm <= longest_mm(stock) + EQUAL_MM
    return is_short and across.spare_mm >= -EQUAL_MM and along.spare_mm >= -EQUAL_MM


def longest_mm(stock: Stock) -> float:
    """What a sheet measures along, or the longest piece of a roll that is printed at once.

    Parameters
    ----------
    stock : Stock

    Returns
    -------
    float
    """
    if stock.height_mm is not None:
        return stock.height_mm
    return LONGEST_MM if stock.longest_mm is None else stock.longest_mm


def own_stock(job: Job) -> Stock:
    """The sheet or roll that a job names itself.

    Parameters
    ----------
    job : Job

    Returns
    -------
    Stock

    Examples
    --------
    >>> own_stock(Job()).height_mm
    483.0
    """
    sheet = job.sheet
    return Stock(width_mm=sheet.width_mm, height_mm=sheet.height_mm, margin_mm=sheet.margin_mm)


def stock_name(stock: Stock) -> str:
    """What a kind of sheet or roll is called.

    Parameters
    ----------
    stock : Stock

    Returns
    -------
    str
        Its name, or its size.

    Examples
    --------
    >>> stock_name(Stock(width_mm=610)), stock_name(Stock(width_mm=329, height_mm=483))
    ('610 mm roll', '329 x 483 mm sheet')
    """
    if stock.name:
        return stock.name
    if stock.height_mm is None:
        return say("{width_mm:g} mm roll", width_mm=stock.width_mm)
    return say("{width_mm:g} x {height_mm:g} mm sheet", width_mm=stock.width_mm, height_mm=stock.height_mm)


def _check(jobs: Sequence[PlanJob]) -> None:
    if not jobs:
        raise FieldError(
            field="JOBS",
            expected=say("one job or more"),
            got=say("none"),
            remedy=say("name the job files to be planned"),
        )
    seen: set[str] = set()
    for one in jobs:
        if one.name in seen:
            raise FieldError(
                field="JOBS",
                expected=say("jobs of different names"),
                got=say("two of the name {one}", one=shown(one.name)),
                remedy=say("rename one of them, or ask for copies"),
                said=say("Two jobs have the name {one}.", one=shown(one.name)),
            )
        seen.add(one.name)
    count = sum(one.copies * one.job.group.panels for one in jobs)
    if count > MOST_PIECES:
        raise FieldError(
            field="JOBS",
            expected=say("at most {most_pieces} canvases", most_pieces=MOST_PIECES),
            got=f"{count}",
            remedy=say("plan them in several parts"),
            said=say(
                "A plan holds at most {most_pieces} canvases; these jobs have {count}.",
                most_pieces=MOST_PIECES,
                count=count,
            ),
        )


def _pieces(one: PlanJob, turning: Turning) -> list[Piece]:
    sizes, (across, down) = flat_sizes(one.job), one.job.canvas.stretch_percent
    panels = one.job.group.panels
    if turning is Turning.NEVER:
        ways: tuple[bool, ...] = (False,)
    else:
        # How much the canvas gives across and down was typed for the way that the job's own sheet takes it.
        ways = (False, True) if across == down else (_lies_turned(one.job),)
    return [
        Piece(
            name=_name(one, panel, copy_number),
            job=one.name,
            panel=panel,
            copy_number=copy_number,
            width_mm=sizes.canvas_mm[0],
            height_mm=sizes.canvas_mm[1],
            dry_mm=(
                (sizes.canvas_mm[0] - sizes.inked_mm[0]) / 2,
                (sizes.canvas_mm[1] - sizes.inked_mm[1]) / 2,
            ),
            ways=ways,
            gives_unequally=across != down,
            is_of_group=panels > 1,
        )
        for panel in range(1, panels + 1)
        for copy_number in range(1, one.copies + 1)
    ]


def _lies_turned(job: Job) -> bool:
    """Whether the job's own layout turns its canvases by a quarter."""
    plan = plan_sheets(job) if job.group.panels > 1 else None
    if plan is not None:
        return plan.turned
    fit = fit_sheet(job)
    return fit.fits and fit.turned


def _name(one: PlanJob, panel: int, copy_number: int) -> str:
    parts = [one.name or say("canvas")]
    if one.job.group.panels > 1:
        parts.append(say("{panel} of {panels}", panel=panel, panels=one.job.group.panels))
    if one.copies > 1:
        parts.append(say("copy {copy_number}", copy_number=copy_number))
    return ", ".join(parts)
