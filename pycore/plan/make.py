"""A plan of many canvases on sheets and rolls, from the jobs to the figures."""

from __future__ import annotations

from collections.abc import Sequence

from pycore.contract.notes import Note, Place, Severity
from pycore.errors import FieldError, shown
from pycore.plan.bounds import least_area_mm2
from pycore.plan.choose import Chosen, Terms, cheapest_rows, choose, price_of, terms_of
from pycore.plan.options import PlanJob, PlanOptions, Stock
from pycore.plan.own_layout import own_layout
from pycore.plan.packing import Placed
from pycore.plan.pieces import Piece, fits_alone, own_stock, pieces_of, stock_name
from pycore.plan.pins import check_numbers, pinned_pieces
from pycore.plan.result import PlacedPiece, Plan, PlanFigures, PlannedCut, PlannedSheet
from pycore.plan.rows import Filled
from pycore.speech import join_said, say


def make_plan(jobs: Sequence[PlanJob], *, options: PlanOptions) -> Plan:
    """Lay every canvas of some jobs on sheets and rolls, and say how they are cut apart.

    Parameters
    ----------
    jobs : sequence of PlanJob
    options : PlanOptions

    Returns
    -------
    Plan

    Raises
    ------
    FieldError
        No jobs, two of one name, a canvas that no sheet or roll holds, or a pin that cannot be kept.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> one = PlanJob(name="Low tide", job=Job(), copies=3)
    >>> plan = make_plan([one], options=PlanOptions(stocks=(Stock(width_mm=1118),), price_per_m2=20))
    >>> plan.figures.roll_length_mm, round(plan.figures.cost, 2), plan.figures.cuts
    (390.9, 8.74, 3)
    """
    pieces = pieces_of(jobs, turning=options.turning)
    groups = _groups(jobs, pieces, options)
    stocks = list(dict.fromkeys(stock for choice, _ in groups for stock in choice))
    for choice, group in groups:
        for piece in group:
            _check_fits(piece, choice)
    terms = terms_of(options, stocks)
    pinned = pinned_pieces(options.pins, pieces, stocks, gap_mm=terms.gap_mm)
    by_itself: set[str] = set()
    sheets: list[PlannedSheet] = []
    rows_mm2 = least_mm2 = 0.0
    for choice, group in groups:
        names = {piece.job for piece in group}
        chosen = own_layout([one for one in jobs if one.name in names], group, options)
        if chosen is not None:
            by_itself |= names
        else:
            chosen = choose(group, choice, terms, pinned=pinned)
        if chosen is None:
            raise _no_way()
        check_numbers(pinned, chosen.sheets)
        sheets += _sheets(chosen, options, first=len(sheets) + 1)
        rows_mm2 += sum(sheet.area_mm2 for sheet in cheapest_rows(group, choice, terms))
        least_mm2 += least_area_mm2(group, choice, gap_mm=terms.gap_mm)
    return Plan(
        sheets=tuple(sheets),
        figures=_figures(sheets, rows_m2=rows_mm2 / 1e6, least_m2=least_mm2 / 1e6),
        notes=(*_notes(pieces, terms), *_marks_notes([one for one in jobs if one.name not in by_itself])),
    )


def _groups(
    jobs: Sequence[PlanJob], pieces: Sequence[Piece], options: PlanOptions
) -> list[tuple[tuple[Stock, ...], list[Piece]]]:
    """The pieces with the stocks that they choose from: all together, or by their jobs' own sheets."""
    if options.stocks:
        return [(tuple(dict.fromkeys(options.stocks)), list(pieces))]
    stock_of = {one.name: own_stock(one.job) for one in jobs}
    groups: dict[Stock, list[Piece]] = {}
    for piece in pieces:
        groups.setdefault(stock_of[piece.job], []).append(piece)
    return [((stock,), group) for stock, group in groups.items()]


def _check_fits(piece: Piece, stocks: Sequence[Stock]) -> None:
    if any(fits_alone(stock, piece, turned=way) for stock in stocks for way in piece.ways):
        return
    size = say("{width_mm:.1f} x {height_mm:.1f} mm", width_mm=piece.width_mm, height_mm=piece.height_mm)
    other = not piece.ways[0]
    if any(fits_alone(stock, piece, turned=other) for stock in stocks):
        why = (
            say("its canvas gives more one way than the other")
            if piece.gives_unequally
            else say("none may be turned")
        )
        raise FieldError(
            field="sheet.width_mm",
            expected=say("wide enough for {size}", size=size),
            got=_names(stocks),
            remedy=say("take a wider sheet or roll, or let it lie turned")
            if other
            else say("take a wider sheet or roll"),
            said=say("{piece} fits only turned sideways, and {why}.", piece=shown(piece.name), why=why)
            if other
            else say(
                "{piece} lies turned sideways on its own sheet and fits here only upright, and {why}.",
                piece=shown(piece.name),
                why=why,
            ),
        )
    raise FieldError(
        field="sheet.width_mm",
        expected=say("wide enough for {size}", size=size),
        got=_names(stocks),
        remedy=say("take a wider sheet or roll, or make the piece smaller"),
        said=say(
            "{piece} needs {size} of canvas, which does not fit on the {names} within its margins.",
            piece=shown(piece.name),
            size=size,
            names=_names(stocks),
        ),
    )


def _names(stocks: Sequence[Stock]) -> str:
    return join_said([stock_name(stock) for stock in stocks], say(" or the "))


def _no_way() -> FieldError:
    return FieldError(
        field="pins",
        expected=say("pinned pieces that leave room for the others"),
        got=say("no room"),
        remedy=say("pin fewer pieces, or leave more room between them"),
        said=say("Round the pinned pieces there is no way to lay the others."),
    )


def _sheets(chosen: Chosen, options: PlanOptions, *, first: int) -> list[PlannedSheet]:
    return [
        _sheet(sheet, cuts, options, number=number)
        for number, (sheet, cuts) in enumerate(zip(chosen.sheets, chosen.cuts, strict=True), start=first)
    ]


def _sheet(sheet: Filled, cuts: tuple[PlannedCut, ...], options: PlanOptions, *, number: int) -> PlannedSheet:
    used_m2 = sum(placed.piece.area_mm2 for placed in sheet.placed) / 1e6
    price = price_of(sheet.stock, options)
    in_order = sorted(sheet.placed, key=lambda one: (round(one.y_mm, 2), round(one.x_mm, 2)))
    return PlannedSheet(
        number=number,
        stock=stock_name(sheet.stock),
        is_roll=sheet.stock.height_mm is None,
        width_mm=sheet.stock.width_mm,
        height_mm=sheet.length_mm,
        margin_mm=sheet.stock.margin_mm,
        pieces=tuple(_piece(placed) for placed in in_order),
        cuts=cuts,
        used_m2=used_m2,
        waste_m2=max(0.0, sheet.area_mm2 / 1e6 - used_m2),
        cost=None if price is None else price * sheet.area_mm2 / 1e6,
    )


def _piece(placed: Placed) -> PlacedPiece:
    wide, high = placed.piece.size_mm(turned=placed.turned)
    return PlacedPiece(
        name=placed.piece.name,
        job=placed.piece.job,
        panel=placed.piece.panel,
        copy_number=placed.piece.copy_number,
        x_mm=placed.x_mm,
        y_mm=placed.y_mm,
        width_mm=wide,
        height_mm=high,
        turned=placed.turned,
        pinned=placed.pinned,
    )


def _figures(sheets: Sequence[PlannedSheet], *, rows_m2: float, least_m2: float) -> PlanFigures:
    used_m2, waste_m2 = (sum(getattr(sheet, name) for sheet in sheets) for name in ("used_m2", "waste_m2"))
    costs = [sheet.cost for sheet in sheets if sheet.cost is not None]
    stock_m2 = used_m2 + waste_m2
    return PlanFigures(
        pieces=sum(len(sheet.pieces) for sheet in sheets),
        sheets=len(sheets),
        roll_length_mm=sum(sheet.height_mm for sheet in sheets if sheet.is_roll),
        stock_m2=stock_m2,
        used_m2=used_m2,
        waste_m2=waste_m2,
        waste_share=waste_m2 / stock_m2,
        rows_m2=rows_m2,
        least_m2=least_m2,
        cuts=sum(len(sheet.cuts) for sheet in sheets),
        cost=sum(costs) if len(costs) == len(sheets) else None,
    )


def _notes(pieces: Sequence[Piece], terms: Terms) -> list[Note]:
    unequal = list(dict.fromkeys(piece.job for piece in pieces if piece.gives_unequally))
    notes = []
    if unequal:
        notes.append(
            Note(
                code="plan-not-turned",
                severity=Severity.HINT,
                place=Place.SHEET,
                message=say(
                    "{listed}: laid as on its own sheet and no other way, because the canvas gives more one "
                    "way than the other.",
                    listed=_listed(unequal),
                ),
                remedy=say("Where it gives the same both ways, write the same for both."),
                field="canvas.stretch_percent",
            )
        )
    inked = list(dict.fromkeys(piece.job for piece in pieces if min(piece.dry_mm) <= 0))
    if inked and terms.gap_mm == 0 and len(pieces) > 1:
        notes.append(
            Note(
                code="plan-ink-meets",
                severity=Severity.WATCH,
                place=Place.SHEET,
                message=say(
                    "{listed}: the ink runs to the canvas's edge, and neighbours share one cut.",
                    listed=_listed(inked),
                ),
                remedy=say("Leave a gap, so that a cut that strays does not show (common practice)."),
                field="wrap.ink_over_mm",
            )
        )
    return notes


def _marks_notes(jobs: Sequence[PlanJob]) -> list[Note]:
    """The files of a group know nothing of this plan."""
    groups = [one.name or say("canvas") for one in jobs if one.job.group.panels > 1 and one.job.print.marks]
    if not groups:
        return []
    return [
        Note(
            code="plan-marks-elsewhere",
            severity=Severity.HINT,
            place=Place.SHEET,
            message=say(
                "{listed}: the marks in the print files are drawn for the places in the sheet view and the "
                "ticket; this plan only shows how to cut.",
                listed=_listed(groups),
            ),
            remedy=say("Where a mark falls into a margin here, measure from the fold lines."),
            field="print.marks",
        )
    ]


def _listed(names: Sequence[str]) -> str:
    shown_names = ", ".join(names[:3])
    return (
        say("{shown_names} and {name_count} more", shown_names=shown_names, name_count=len(names) - 3)
        if len(names) > 3
        else shown_names
    )
