"""Pieces pinned by hand: whether they can lie where they are wanted."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence

from pycore.conventions import EQUAL_MM
from pycore.errors import FieldError, shown
from pycore.plan.blank import free_areas
from pycore.plan.cuts import Area
from pycore.plan.options import Pin, Stock
from pycore.plan.packing import Placed
from pycore.plan.pieces import Piece, longest_mm, stock_axes, stock_name
from pycore.plan.rows import Filled
from pycore.speech import say


def pinned_pieces(
    pins: Sequence[Pin], pieces: Sequence[Piece], stocks: Sequence[Stock], *, gap_mm: float
) -> dict[int, list[Placed]]:
    """The pinned pieces by the number of their sheet.

    Parameters
    ----------
    pins : sequence of Pin
    pieces : sequence of Piece
    stocks : sequence of Stock
        With pins, one only.
    gap_mm : float
        Between neighbours.

    Returns
    -------
    dict of int to list of Placed

    Raises
    ------
    FieldError
        A piece that is unknown, pinned twice, off the sheet, over another, or turned where it may not be;
        pins that no cuts from edge to edge can part; pins where there are several kinds of sheet.
    """
    if pins and len(stocks) > 1:
        raise _wrong(
            say("one kind of sheet or roll"),
            say("{stock_count} kinds", stock_count=len(stocks)),
            say("choose one sheet or roll for all"),
            say("Pieces can be pinned only where all lie on one kind of sheet or roll."),
        )
    by_name = {piece.name: piece for piece in pieces}
    found: dict[int, list[Placed]] = {}
    seen: set[str] = set()
    for pin in pins:
        if pin.piece not in by_name:
            raise _unknown(pin.piece, list(by_name))
        if pin.piece in seen:
            raise _wrong(
                say("each piece once"),
                shown(pin.piece),
                say("keep one of its pins"),
                say("{named} is pinned twice.", named=_named(pin)),
            )
        seen.add(pin.piece)
        placed = _placed(pin, by_name[pin.piece], stocks[0])
        _check_apart(pin, placed, found.setdefault(pin.sheet, []), gap_mm=gap_mm)
        found[pin.sheet].append(placed)
    for number, placed_there in found.items():
        _check_cuts(number, placed_there, stocks[0], gap_mm=gap_mm)
    return found


def check_numbers(pinned: Mapping[int, Sequence[Placed]], sheets: Sequence[Filled]) -> None:
    """Whether every pinned piece came to the sheet that it is pinned to.

    Parameters
    ----------
    pinned : mapping of int to sequence of Placed
    sheets : sequence of Filled

    Raises
    ------
    FieldError
        A sheet before it would be empty.
    """
    for number, placed in pinned.items():
        names = {one.piece.name for one in sheets[number - 1].placed} if number <= len(sheets) else set()
        if placed[0].piece.name not in names:
            raise _wrong(
                say("1 to {sheet_count}", sheet_count=len(sheets)),
                str(number),
                say("pin it to an earlier sheet"),
                say(
                    "{piece} is pinned to sheet {number}, and a sheet before it stays empty.",
                    piece=shown(placed[0].piece.name),
                    number=number,
                ),
            )


def _placed(pin: Pin, piece: Piece, stock: Stock) -> Placed:
    if pin.turned not in piece.ways:
        raise (
            _wrong(
                say("not turned"),
                say("turned"),
                say("pin it without a turn"),
                say("{named} may not lie turned{because}.", named=_named(pin), because=_because(piece)),
            )
            if pin.turned
            else _wrong(
                say("turned"),
                say("not turned"),
                say("pin it turned"),
                say("{named} may lie only turned{because}.", named=_named(pin), because=_because(piece)),
            )
        )
    placed = Placed(piece=piece, x_mm=pin.x_mm, y_mm=pin.y_mm, turned=pin.turned, pinned=True)
    across, along = stock_axes(stock, piece, turned=pin.turned)
    for axis, start_mm, whole_mm, name in (
        (across, pin.x_mm, stock.width_mm, "x"),
        (along, pin.y_mm, longest_mm(stock), "y"),
    ):
        first_mm = axis.first_mm
        last_mm = whole_mm - axis.last_mm - axis.canvas_mm
        if not first_mm - EQUAL_MM <= start_mm <= last_mm + EQUAL_MM:
            room = (
                say("{first_mm:.1f} to {last_mm:.1f} mm", first_mm=first_mm, last_mm=last_mm)
                if first_mm <= last_mm
                else say("nowhere")
            )
            raise _wrong(
                room,
                say("{start_mm:g} mm", start_mm=start_mm),
                say("move it, or turn it"),
                say(
                    "{named} does not lie within the margins of the {stock_name}: {name} may be "
                    "{room}, and it is {start_mm:.1f} mm.",
                    named=_named(pin),
                    stock_name=stock_name(stock),
                    name=name,
                    room=room,
                    start_mm=start_mm,
                ),
            )
    return placed


def _check_apart(pin: Pin, placed: Placed, others: Sequence[Placed], *, gap_mm: float) -> None:
    for other in others:
        if _over(placed.area, other.area, gap_mm):
            near = say(" with a gap of {gap_mm:g} mm", gap_mm=gap_mm) if gap_mm else ""
            raise _wrong(
                say("clear of other pieces"),
                shown(other.piece.name),
                say("move one of them"),
                say(
                    "{named} and {piece} are pinned over each other{near}.",
                    named=_named(pin),
                    piece=shown(other.piece.name),
                    near=near,
                ),
            )


def _over(one: Area, other: Area, gap_mm: float) -> bool:
    reach = gap_mm - EQUAL_MM
    return (
        one.left_mm < other.right_mm + reach
        and other.left_mm < one.right_mm + reach
        and one.top_mm < other.bottom_mm + reach
        and other.top_mm < one.bottom_mm + reach
    )


def _check_cuts(number: int, placed: Sequence[Placed], stock: Stock, *, gap_mm: float) -> None:
    whole = Area(left_mm=0, top_mm=0, right_mm=stock.width_mm, bottom_mm=longest_mm(stock))
    if free_areas(whole, [one.area for one in placed], gap_mm=gap_mm) is None:
        raise _wrong(
            say("pieces that straight cuts can part"),
            say("{placed_count} pieces", placed_count=len(placed)),
            say("move one of them into line"),
            say("No cut from edge to edge parts the pieces pinned to sheet {number}.", number=number),
        )


def _because(piece: Piece) -> str:
    return say(": its canvas gives more one way than the other") if piece.gives_unequally else ""


def _named(pin: Pin) -> str:
    return shown(pin.piece)


def _unknown(name: str, names: list[str]) -> FieldError:
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    question = say("; did you mean {near0}?", near0=shown(near[0])) if near else "."
    return _wrong(
        say("the name of a piece"),
        shown(name),
        say("write the name as the plan prints it"),
        say("No piece is called {name}{question}", name=shown(name), question=question),
    )


def _wrong(expected: str, got: str, remedy: str, said: str) -> FieldError:
    return FieldError(field="pins", expected=expected, got=got, remedy=remedy, said=said)
