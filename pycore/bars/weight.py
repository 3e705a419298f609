"""What one panel weighs, part by part, each with a range and where its figure comes from."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from pycore.bars.frame import frame_of, staple_count
from pycore.bars.timber import FROM_MEMORY, MOISTURE_PERCENT, WOOD_NAMES, density_kg_m3
from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.fold.spec import fold_spec
from pycore.layout.flat import flat_sizes, stretch_factors
from pycore.speech import mark, say

#: From memory: how much of its rectangle a bar fills, bevel and lip cut.
SOLID_SHARE: Final[Pair] = (0.85, 1.0)

#: From memory: what a coating leaves behind when it is dry, g/m2 of inked canvas.
COATING_GSM: Final[Pair] = (30.0, 80.0)

#: From memory: one staple; two rings with their screws and a wire; g.
STAPLE_G: Final[Pair] = (0.2, 0.4)
RINGS_G: Final[Pair] = (15.0, 60.0)


class Origin(StrEnum):
    """Where a figure comes from."""

    GIVEN = mark("given")
    PUBLISHED = mark("published")
    MEMORY = mark("from memory")


class Mass(Record):
    """What one part weighs."""

    part: str
    low_g: float
    high_g: float
    origin: Origin
    """Of the figure that sets most of it; what else counts says so in the reason."""
    reason: str


def trimmed_area_mm2(job: Job) -> float:
    """The area of one panel's canvas as trimmed: without its cut corners, before it is stretched.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    float
        mm2 of canvas as printed.

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> across, down = flat_sizes(Job()).canvas_mm
    >>> abs(trimmed_area_mm2(Job()) - across * down) < 1e-6
    True
    """
    spec, (across, down) = fold_spec(job), stretch_factors(job)
    # The fold has no allowance for the canvas's thickness, the flat canvas has; what is cut off is alike in
    # both.
    wide, high = flat_sizes(job).canvas_mm
    return wide * high - spec.cut_mm2 / (across * down)


def panel_masses(job: Job) -> list[Mass]:
    """Weigh one panel, part by part.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of Mass
        Canvas, bars, braces where there are any, coating where there is one, staples, rings and wire.

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> [one.part for one in panel_masses(Job())]
    ['canvas', 'bars', 'staples', 'rings and wire']
    """
    frame, (light, dense) = frame_of(job), density_kg_m3(job.bars)
    canvas_g = trimmed_area_mm2(job) / 1e6 * job.canvas.weight_gsm
    reason = say("as trimmed, at {weight_gsm:g} g/m2", weight_gsm=job.canvas.weight_gsm)
    masses = [Mass(part=mark("canvas"), low_g=canvas_g, high_g=canvas_g, origin=Origin.GIVEN, reason=reason)]
    # kg/m3 x mm3 = 1e-6 g.
    wood_origin, wood = _wood(job, light, dense)
    masses.append(
        Mass(
            part=mark("bars"),
            low_g=frame.bars_mm3 * light * SOLID_SHARE[0] / 1e6,
            high_g=frame.bars_mm3 * dense * SOLID_SHARE[1] / 1e6,
            origin=wood_origin,
            reason=say(
                "{wood}; {solid_share0:.0%} to all of a {bar_width_mm:g} x {bar_depth_mm:g} mm "
                "section (from memory)",
                wood=wood,
                solid_share0=SOLID_SHARE[0],
                bar_width_mm=frame.bar_width_mm,
                bar_depth_mm=frame.bar_depth_mm,
            ),
        )
    )
    if frame.braces_mm3 > 0:
        section = say(
            "{brace_width_mm:g} x {brace_depth_mm:g} mm section (common practice)",
            brace_width_mm=frame.brace_width_mm,
            brace_depth_mm=frame.brace_depth_mm,
        )
        low_g, high_g = frame.braces_mm3 * light / 1e6, frame.braces_mm3 * dense / 1e6
        masses.append(
            Mass(
                part=mark("braces"),
                low_g=low_g,
                high_g=high_g,
                origin=wood_origin,
                reason=f"{wood}; {section}",
            )
        )
    if job.canvas.coated:
        inked = flat_sizes(job).inked_mm
        m2 = inked[0] * inked[1] / 1e6
        reason = say(
            "{coating_gsm0:g} to {coating_gsm1:g} g/m2 on the inked canvas",
            coating_gsm0=COATING_GSM[0],
            coating_gsm1=COATING_GSM[1],
        )
        masses.append(_remembered(mark("coating"), m2, COATING_GSM, reason))
    staples = staple_count(job)
    if staples:
        masses.append(
            _remembered(
                mark("staples"),
                staples,
                STAPLE_G,
                say("{staple_g0:g} to {staple_g1:g} g each", staple_g0=STAPLE_G[0], staple_g1=STAPLE_G[1]),
            )
        )
    masses.append(_remembered(mark("rings and wire"), 1, RINGS_G, say("with their screws")))
    return masses


def whole_g(job: Job) -> Pair:
    """The weight of the whole piece, all panels of a group together.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    (low, high)
        In grams.

    Raises
    ------
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> [round(one) for one in whole_g(Job())]
    [267, 593]
    """
    low, high = all_of(panel_masses(job))
    return low * job.group.panels, high * job.group.panels


def all_of(masses: list[Mass]) -> Pair:
    """What some parts weigh together.

    Parameters
    ----------
    masses : list of Mass

    Returns
    -------
    (low, high)
        In grams.

    Examples
    --------
    >>> all_of([])
    (0, 0)
    """
    return sum(one.low_g for one in masses), sum(one.high_g for one in masses)


def mass_words(grams: Pair, *, heaviest: float = 0.0) -> str:
    """A range of masses in words: in grams under a kilogram, rounded outwards.

    Parameters
    ----------
    grams : (low, high)
    heaviest : float
        Grams of the heaviest beside it, all of which are to be in one unit.

    Returns
    -------
    str

    Examples
    --------
    >>> mass_words((276.4, 606.2)), mass_words((890, 1230)), mass_words((43.4, 43.4))
    ('270 to 610 g', '0.8 to 1.3 kg', '43 g')
    >>> mass_words((2616.2, 2616.2))
    '2.6 kg'
    """
    low, high = grams
    if max(high, heaviest) < 1000:
        if high - low < 1:
            return say("{high:.0f} g", high=high)
        step, unit, scale = (1, "g", 1) if high < 100 else (10, "g", 1)
        return say(
            "{low:.0f} to {high:.0f} {unit}",
            low=low // step * step / scale,
            high=-(-high // step) * step / scale,
            unit=unit,
        )
    if high - low < 1:
        # One mass, which is known: no range comes of rounding it.
        return say("{high:.1f} kg", high=high / 1000)
    low, high = low // 100 / 10, -(-high // 100) / 10
    return (
        say("{high:.1f} kg", high=high)
        if low == high
        else say("{low:.1f} to {high:.1f} kg", low=low, high=high)
    )


def _remembered(part: str, amount: float, each: Pair, reason: str) -> Mass:
    return Mass(
        part=part, low_g=amount * each[0], high_g=amount * each[1], origin=Origin.MEMORY, reason=reason
    )


def _wood(job: Job, light: float, dense: float) -> tuple[Origin, str]:
    if job.bars.density_kg_m3 is not None:
        return Origin.GIVEN, say("{light:g} kg/m3", light=light)
    span = f"{light:.0f}" if light == dense else say("{light:.0f} to {dense:.0f}", light=light, dense=dense)
    origin = Origin.MEMORY if job.bars.wood in FROM_MEMORY else Origin.PUBLISHED
    return origin, say(
        "{named}, {span} kg/m3 at {moisture_percent:g} percent moisture (FPL-GTR-282)",
        named=say(WOOD_NAMES[job.bars.wood]),
        span=span,
        moisture_percent=MOISTURE_PERCENT,
    )
