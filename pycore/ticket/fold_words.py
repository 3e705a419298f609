"""The fold in words and numbers: each stage with its lengths, so that it can be repeated without drawings."""

from __future__ import annotations

from typing import Final

from pycore.contract.job import Corners, Finish, Job, OverPair
from pycore.conventions import EQUAL_MM
from pycore.fold.layers import bulk_of
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import FoldStage, stages_of
from pycore.layout.flat import flat_sizes, stretch_factors
from pycore.speech import join_said, say
from pycore.ticket.words import exact, plain

_PAIRS: Final = {
    OverPair.TOP_BOTTOM: (say("left and right"), say("top and bottom")),
    OverPair.LEFT_RIGHT: (say("top and bottom"), say("left and right")),
}

_FINISHES: Final = {
    Finish.TUCKED: say("tucked"),
    Finish.LAPPED: say("lapped"),
    Finish.TRIMMED: say("trimmed"),
}


def fold_rows(job: Job, spec: FoldSpec) -> list[tuple[str, str]]:
    """The numbers that the fold follows from, and where its lines lie on the print.

    Parameters
    ----------
    job : Job
        A checked job.
    spec : FoldSpec
        Its fold.

    Returns
    -------
    list of (str, str)
    """
    under, over = _PAIRS[spec.over]
    flat = flat_sizes(job)
    rows = [
        (say("Corners"), say("{finish}; folded on to {over}", finish=_FINISHES[spec.finish], over=over)),
        (say("On the back"), say("corners cut back") if _is_cut_back(spec) else say("corners whole")),
        (say("Folded first"), say(over if spec.finish is Finish.LAPPED else under)),
    ]
    if spec.finish is Finish.TRIMMED:
        rows[1] = (say("Tab"), say("{exact} mm", exact=exact(spec.tab_mm)))
    if spec.setback_rad:
        rows.append((say("Set back at the wall"), say("{exact} mm", exact=exact(spec.setback_mm))))
    # From the trimmed edge, as printed: the canvas is not stretched yet.
    across, down = (flat.back_columns_mm[0], flat.columns_mm[2]), (flat.back_rows_mm[0], flat.rows_mm[2])
    names = (say("Back edge"), say("Front edge"))
    for name, one, other in zip(names, across, down, strict=True):
        rows.append((say("{name} on the print", name=name), from_edges_words(one, other)))
    rows += [
        (
            say("Layers, {place}", place=say(one.place)),
            say("{layers}, {thickness_mm:.2f} mm", layers=one.layers, thickness_mm=one.thickness_mm),
        )
        for one in bulk_of(spec)
        if one.layers > 1
    ]
    return rows


def from_edges_words(across_mm: float, down_mm: float) -> str:
    """How far a line lies from the trimmed edges of the canvas, as printed.

    Parameters
    ----------
    across_mm : float
        From left and right.
    down_mm : float
        From top and bottom.

    Returns
    -------
    str

    Examples
    --------
    >>> from_edges_words(45, 45), from_edges_words(44.78, 44.47)
    ('45 mm from the trimmed edge', '44.8 mm from left and right, 44.5 mm from top and bottom')
    """
    one, other = plain(across_mm), plain(down_mm)
    if one == other:
        return say("{one} mm from the trimmed edge", one=one)
    return say("{one} mm from left and right, {other} mm from top and bottom", one=one, other=other)


def cut_words(job: Job, spec: FoldSpec) -> str:
    """What is cut from a corner square before folding, as printed: the canvas is not stretched yet.

    Parameters
    ----------
    job : Job
        A checked job.
    spec : FoldSpec
        Its fold.

    Returns
    -------
    str

    Examples
    --------
    >>> from pycore.fold.spec import fold_spec
    >>> cut_words(Job(), fold_spec(Job()))
    'Leave the four corner squares, 45 mm by 45 mm, whole.'
    """
    stretched = stretch_factors(job)
    d, s = _by(spec.depth_mm, stretched), _by(spec.reach_mm, stretched)
    if spec.finish is Finish.TRIMMED:
        t = exact(spec.tab_mm)
        under, _ = _PAIRS[spec.over]
        return say(
            "Cut the four corner squares, {s}, away; leave on {under} a tab {t} "
            "mm wide beside the side, its two ends cut at 45 degrees.",
            s=s,
            under=under,
            t=t,
        )
    if _is_cut_back(spec):
        return say(
            "Cut the four corner squares, {s}, back to {d} at the face's corner.",
            s=s,
            d=d,
        )
    return say("Leave the four corner squares, {s}, whole.", s=s)


def fold_steps(spec: FoldSpec) -> list[tuple[FoldStage, str]]:
    """Each stage with what is done in it and its lengths.

    Parameters
    ----------
    spec : FoldSpec

    Returns
    -------
    list of (FoldStage, str)

    Examples
    --------
    >>> from pycore.fold.spec import fold_spec
    >>> [stage.name for stage, _ in fold_steps(fold_spec(Job()))]
    ['under', 'tuck', 'over-back']
    """
    under, over = _PAIRS[spec.over]
    d, r = exact(spec.depth_mm), exact(spec.turnover_mm)
    tucked = say(
        "Tuck each corner in: its square, {d} mm by {d} mm, is creased from corner to "
        "corner and lies flat on {over}. Close {over} over it",
        d=d,
        over=over,
    )
    tucked += (
        say(
            "; its fold edge stands back from the corner: 0 mm at the face, {exact} mm at the wall.",
            exact=exact(spec.setback_mm),
        )
        if spec.setback_rad
        else say("; its fold edge stands exactly on the corner.")
    )
    if spec.whole and spec.finish is Finish.TUCKED and spec.turnover_mm > EQUAL_MM:
        tucked += say(" The turn-over of {under} goes on to the back with it.", under=under)
    words = {
        "under": say("Turn {under} up against the bars: {d} mm of side.", under=under, d=d),
        "over": say("Turn {over} up against the bars: {d} mm of side.", over=over, d=d),
        "tuck": tucked,
        "wrap": say(
            "Wrap each corner on to {over}: a flap {d} mm along the edge, creased at 45 degrees.",
            over=over,
            d=d,
        ),
        "tab": say(
            "Turn each tab, {exact} mm, round the corner on to {over}.", exact=exact(spec.tab_mm), over=over
        ),
        "under-back": say("Turn {under} over on to the back: {r} mm.", under=under, r=r),
        "over-back": say("Turn {over} over on to the back: {r} mm.", over=over, r=r),
        "backs": say(
            "Turn all four over on to the back: {r} mm. At the corners the cloth must bend; no "
            "straight fold leads there.",
            r=r,
        ),
    }
    laid = say("Set the bars midway between the ruled lines, face to face.")
    steps = [(stage, words[stage.name]) for stage in stages_of(spec)]
    (first, said), *rest = steps
    return [(first, join_said([laid, said], " ")), *rest]


def _by(length_mm: float, stretched: tuple[float, float]) -> str:
    """A square of the corner as printed, across by down."""
    across, down = (plain(length_mm / one) for one in stretched)
    if across == down:
        return say("{across} mm by {down} mm", across=across, down=down)
    return say("{across} mm across by {down} mm down", across=across, down=down)


def _is_cut_back(spec: FoldSpec) -> bool:
    return spec.finish is not Finish.TRIMMED and spec.corners is Corners.CUT_BACK
