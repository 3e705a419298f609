"""The cheapest of several plans: packed, mixed, and in rows and columns."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, product
from typing import Final

from pycore.plan.blank import Blank, blanks_of
from pycore.plan.cuts import Area, cut_apart
from pycore.plan.options import PlanOptions, Stock
from pycore.plan.packing import RULES, Placed, Rule
from pycore.plan.pieces import Piece, fits_alone
from pycore.plan.result import PlannedCut
from pycore.plan.rolls import fill_roll
from pycore.plan.rows import Filled, in_rows, size_key
from pycore.plan.sheets import best_fill, fill_sheets, taken_mm2

#: Both ways of every group are tried where that comes to no more laid pieces. Of more there are two ways: as
#: rows and columns lie, and as most lie where each may turn by itself.
_MOST_LAID: Final = 240


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """Filled sheets with their cuts.

    Attributes
    ----------
    sheets : tuple of Filled
    cuts : tuple of tuple of PlannedCut
        Those of each sheet.
    """

    sheets: tuple[Filled, ...]
    cuts: tuple[tuple[PlannedCut, ...], ...]


@dataclass(frozen=True, kw_only=True)
class Terms:
    """What all ways of laying some pieces must keep to, and how they are compared.

    Attributes
    ----------
    gap_mm : float
        Between neighbours: no less than the knife's width.
    knife_mm : float
    prices : mapping of Stock to float
        Of a square metre. Empty: less stock is cheaper.
    """

    gap_mm: float
    knife_mm: float
    prices: Mapping[Stock, float]

    def spent(self, sheets: Sequence[Filled]) -> float:
        """What sheets cost, or their area in square metres; to be compared only.

        Parameters
        ----------
        sheets : sequence of Filled

        Returns
        -------
        float
        """
        return sum(self.prices.get(one.stock, 1.0) * one.area_mm2 / 1e6 for one in sheets)


def terms_of(options: PlanOptions, stocks: Sequence[Stock]) -> Terms:
    """The terms that options mean.

    Parameters
    ----------
    options : PlanOptions
    stocks : sequence of Stock
        All that are to choose from.

    Returns
    -------
    Terms
        Prices count where every stock has one, and not all of them are 0.
    """
    prices = {stock: price for stock in stocks if (price := price_of(stock, options)) is not None}
    is_priced = len(prices) == len(set(stocks)) and any(prices.values())
    return Terms(
        # The knife passes within the gap.
        gap_mm=max(options.gap_mm, options.knife_mm),
        knife_mm=options.knife_mm,
        prices=prices if is_priced else {},
    )


def price_of(stock: Stock, options: PlanOptions) -> float | None:
    """The price of a square metre.

    Parameters
    ----------
    stock : Stock
    options : PlanOptions

    Returns
    -------
    float or None
        None where none is known.

    Examples
    --------
    >>> price_of(Stock(width_mm=610), PlanOptions(price_per_m2=14.5))
    14.5
    """
    return options.price_per_m2 if stock.price_per_m2 is None else stock.price_per_m2


def choose(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    terms: Terms,
    *,
    pinned: Mapping[int, Sequence[Placed]],
) -> Chosen | None:
    """Lay pieces in several ways and keep the cheapest; the panels of a group lie the same way round.

    Without prices the cheapest takes the least stock; among equals it leaves the largest rest, then it has
    the fewest cuts. Without pins the ways include rows and columns, so that no plan is worse.

    Parameters
    ----------
    pieces : sequence of Piece
        Each fits on one of the stocks.
    stocks : sequence of Stock
    terms : Terms
    pinned : mapping of int to sequence of Placed
        By number of the sheet, from 1.

    Returns
    -------
    Chosen or None
        None where the pinned pieces leave no way.
    """
    alike = [_laid_out(some, stocks, terms, pinned) for some in _alike(pieces, stocks, terms, pinned)]
    return min((one for one in alike if one is not None), key=lambda one: _rank(one, terms), default=None)


def _alike(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    terms: Terms,
    pinned: Mapping[int, Sequence[Placed]],
) -> Iterator[Sequence[Piece]]:
    """The pieces with the panels of each group bound to one way: beside one another their weave shows."""
    lying = {one.piece.name for placed in pinned.values() for one in placed}
    groups = {one.job: one.ways for one in pieces if one.is_of_group and one.may_turn}
    if not groups:
        choices: Iterable[tuple[bool, ...]] = [()]
    elif 2 ** len(groups) * len(pieces) <= _MOST_LAID:
        choices = product(*groups.values())
    else:
        free = _laid_out(pieces, stocks, terms, pinned)
        laid = [cheapest_rows(pieces, stocks, terms), *([] if free is None else [free.sheets])]
        choices = dict.fromkeys(tuple(_mostly_turned(job, sheets) for job in groups) for sheets in laid)
    for choice in choices:
        way_of = dict(zip(groups, choice, strict=True))
        yield [
            replace(one, ways=(way_of[one.job],)) if one.job in way_of and one.name not in lying else one
            for one in pieces
        ]


def _mostly_turned(job: str, sheets: Sequence[Filled]) -> bool:
    """Whether most canvases of a job lie turned."""
    lies = [one.turned for sheet in sheets for one in sheet.placed if one.piece.job == job]
    return 2 * sum(lies) > len(lies)


def _laid_out(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    terms: Terms,
    pinned: Mapping[int, Sequence[Placed]],
) -> Chosen | None:
    if not all(any(_fits(piece, stock) for stock in stocks) for piece in pieces):
        return None
    found = []
    for sheets in _ways(pieces, stocks, terms, pinned):
        cuts = [cuts_of(sheet, knife_mm=terms.knife_mm) for sheet in sheets]
        if None not in cuts:
            found.append(Chosen(sheets=tuple(sheets), cuts=tuple(one for one in cuts if one is not None)))
    return min(found, key=lambda one: _rank(one, terms), default=None)


def job_key(piece: Piece) -> str:
    """The piece's job.

    Parameters
    ----------
    piece : Piece

    Returns
    -------
    str
    """
    return piece.job


def cheapest_rows(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    terms: Terms,
    *,
    key: Callable[[Piece], object] = job_key,
) -> list[Filled]:
    """Equal canvases in rows and columns, each set of them on the stock that is cheapest for it.

    Parameters
    ----------
    pieces : sequence of Piece
        Each fits on one of the stocks; those of one set beside one another.
    stocks : sequence of Stock
    terms : Terms
    key : callable
        What the pieces of a set have in common: their job, or their size.

    Returns
    -------
    list of Filled
    """
    sheets: list[Filled] = []
    for _, group in groupby(pieces, key=key):
        one_set = list(group)
        laid = [in_rows(one_set, stock, gap_mm=terms.gap_mm) for stock in stocks]
        best = min((one for one in laid if one is not None), key=terms.spent)
        sheets += best
    return sheets


def _rank(one: Chosen, terms: Terms) -> tuple[float, int, float, int]:
    taken = sum(taken_mm2(sheet.placed) for sheet in one.sheets)
    # To a square centimetre, or its price: less makes no difference to anybody.
    spent = round(terms.spent(one.sheets), 4)
    return spent, len(one.sheets), round(taken / 100), sum(len(cuts) for cuts in one.cuts)


def cuts_of(sheet: Filled, *, knife_mm: float) -> tuple[PlannedCut, ...] | None:
    """How the canvases of one sheet are cut apart.

    Parameters
    ----------
    sheet : Filled
    knife_mm : float
        Width that a cut takes.

    Returns
    -------
    tuple of PlannedCut or None
        None where no cuts from edge to edge part them.
    """
    whole = Area(left_mm=0, top_mm=0, right_mm=sheet.stock.width_mm, bottom_mm=sheet.length_mm)
    return cut_apart(whole, [one.area for one in sheet.placed], knife_mm=knife_mm)


def _ways(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    terms: Terms,
    pinned: Mapping[int, Sequence[Placed]],
) -> Iterator[list[Filled]]:
    for stock in stocks:
        if all(_fits(piece, stock) for piece in pieces):
            packed = _packed(stock, pieces, terms, pinned)
            if packed is not None:
                yield packed
    if pinned:
        return
    rows = cheapest_rows(pieces, stocks, terms)
    yield rows
    alike = sorted(pieces, key=lambda piece: (-piece.area_mm2, size_key(piece)))
    yield cheapest_rows(alike, stocks, terms, key=size_key)
    if len(stocks) > 1:
        yield from _assigned(pieces, rows, terms)
        mixed = _mixed(pieces, [stock for stock in stocks if stock.height_mm is not None], terms)
        if mixed is not None:
            yield mixed


def _fits(piece: Piece, stock: Stock) -> bool:
    return any(fits_alone(stock, piece, turned=way) for way in piece.ways)


def _packed(
    stock: Stock, pieces: Sequence[Piece], terms: Terms, pinned: Mapping[int, Sequence[Placed]]
) -> list[Filled] | None:
    lying = {one.piece.name for placed in pinned.values() for one in placed}
    free = [piece for piece in pieces if piece.name not in lying]
    sets = blanks_of(stock, free or pieces)
    sheets: list[Filled] = []
    for number, (blank, own) in enumerate(sets):
        laid = _laid(blank, own if free else [], terms, pinned if number == 0 else {})
        if laid is None:
            return None
        sheets += laid
    return sheets


def _laid(
    blank: Blank, pieces: Sequence[Piece], terms: Terms, pinned: Mapping[int, Sequence[Placed]]
) -> list[Filled] | None:
    if blank.stock.height_mm is None:
        return fill_roll(blank, pieces, gap_mm=terms.gap_mm, pinned=pinned)
    return fill_sheets(blank, pieces, gap_mm=terms.gap_mm, pinned=pinned, usable_mm=blank.most_mm)


def _assigned(pieces: Sequence[Piece], rows: Sequence[Filled], terms: Terms) -> Iterator[list[Filled]]:
    """Each job on the stock that rows and columns choose for it, packed with the others there."""
    stock_of = {placed.piece.job: sheet.stock for sheet in rows for placed in sheet.placed}
    sheets: list[Filled] = []
    for stock in dict.fromkeys(stock_of.values()):
        packed = _packed(stock, [piece for piece in pieces if stock_of[piece.job] == stock], terms, {})
        if packed is None:
            return
        sheets += packed
    yield sheets


def _mixed(pieces: Sequence[Piece], stocks: Sequence[Stock], terms: Terms) -> list[Filled] | None:
    """Sheet by sheet, each of the size on which a square metre of canvas costs least."""
    left, sheets = list(pieces), []
    rules = RULES[: max(4, 2000 // len(left))]
    while left:
        tries = [one for stock in stocks if (one := _one_sheet(stock, left, terms, rules)) is not None]
        if not tries:
            return None
        best = min(tries, key=lambda one: _rate(one, terms))
        sheets.append(best)
        laid = {placed.piece.name for placed in best.placed}
        left = [piece for piece in left if piece.name not in laid]
    return sheets


def _one_sheet(stock: Stock, pieces: Sequence[Piece], terms: Terms, rules: Sequence[Rule]) -> Filled | None:
    fitting = [piece for piece in pieces if _fits(piece, stock)]
    if not fitting:
        return None
    blank, own = blanks_of(stock, fitting)[0]
    placed, _ = best_fill([blank.area(blank.most_mm)], own, rules, gap_mm=terms.gap_mm)
    return Filled(stock=stock, length_mm=blank.length_mm(placed), placed=tuple(placed))


def _rate(sheet: Filled, terms: Terms) -> float:
    used_mm2 = sum(one.piece.area_mm2 for one in sheet.placed)
    return terms.spent([sheet]) / used_mm2
