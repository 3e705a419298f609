"""What one panel weighs, part by part, each with a range and where its figure comes from."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from pycore.bars.frame import frame_of, staple_count
from pycore.bars.timber import FROM_MEMORY, MOISTURE_PERCENT, density_kg_m3
from pycore.contract.job import Job, Wood
from pycore.contract.record import Pair, Record
from pycore.fold.facets import flat_facets
from pycore.fold.polygons import area
from pycore.fold.spec import fold_spec
from pycore.layout.flat import flat_sizes, stretch_factors

#: From memory: how much of its rectangle a bar fills, bevel and lip cut.
SOLID_SHARE: Final[Pair] = (0.85, 1.0)

#: From memory: what a coating leaves behind when it is dry, g/m2 of inked canvas.
COATING_GSM: Final[Pair] = (30.0, 80.0)

#: From memory: one staple; two rings with their screws and a wire; g.
STAPLE_G: Final[Pair] = (0.2, 0.4)
RINGS_G: Final[Pair] = (15.0, 60.0)


class Origin(StrEnum):
    """Where a figure comes from."""

    GIVEN = "given"
    PUBLISHED = "published"
    MEMORY = "from memory"


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
    sheet = (spec.width_mm + 2 * spec.reach_mm) * (spec.height_mm + 2 * spec.reach_mm)
    cut = sheet - sum(area(facet.flat) for facet in flat_facets(spec))
    wide, high = flat_sizes(job).canvas_mm
    return wide * high - cut / (across * down)


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
    reason = f"as trimmed, at {job.canvas.weight_gsm:g} g/m2"
    masses = [Mass(part="canvas", low_g=canvas_g, high_g=canvas_g, origin=Origin.GIVEN, reason=reason)]
    # kg/m3 x mm3 = 1e-6 g.
    wood_origin, wood = _wood(job, light, dense)
    masses.append(
        Mass(
            part="bars",
            low_g=frame.bars_mm3 * light * SOLID_SHARE[0] / 1e6,
            high_g=frame.bars_mm3 * dense * SOLID_SHARE[1] / 1e6,
            origin=wood_origin,
            reason=f"{wood}; {SOLID_SHARE[0]:.0%} to all of a {frame.bar_width_mm:g} x "
            f"{frame.bar_depth_mm:g} mm section (from memory)",
        )
    )
    if frame.braces_mm3 > 0:
        section = f"{frame.brace_width_mm:g} x {frame.brace_depth_mm:g} mm section (common practice)"
        low_g, high_g = frame.braces_mm3 * light / 1e6, frame.braces_mm3 * dense / 1e6
        masses.append(
            Mass(part="braces", low_g=low_g, high_g=high_g, origin=wood_origin, reason=f"{wood}; {section}")
        )
    if job.canvas.coated:
        inked = flat_sizes(job).inked_mm
        m2 = inked[0] * inked[1] / 1e6
        reason = f"{COATING_GSM[0]:g} to {COATING_GSM[1]:g} g/m2 on the inked canvas"
        masses.append(_remembered("coating", m2, COATING_GSM, reason))
    staples = staple_count(job)
    if staples:
        masses.append(_remembered("staples", staples, STAPLE_G, f"{STAPLE_G[0]:g} to {STAPLE_G[1]:g} g each"))
    masses.append(_remembered("rings and wire", 1, RINGS_G, "with their screws"))
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
    masses = panel_masses(job)
    low, high = sum(one.low_g for one in masses), sum(one.high_g for one in masses)
    return low * job.group.panels, high * job.group.panels


def mass_words(grams: Pair) -> str:
    """A range of masses in words: in grams under a kilogram, rounded outwards.

    Parameters
    ----------
    grams : (low, high)

    Returns
    -------
    str

    Examples
    --------
    >>> mass_words((276.4, 606.2)), mass_words((890, 1230)), mass_words((43.4, 43.4))
    ('270 to 610 g', '0.8 to 1.3 kg', '43 g')
    """
    low, high = grams
    if high < 1000:
        if high - low < 1:
            return f"{high:.0f} g"
        step, unit, scale = (1, "g", 1) if high < 100 else (10, "g", 1)
        return f"{low // step * step / scale:.0f} to {-(-high // step) * step / scale:.0f} {unit}"
    low, high = low // 100 / 10, -(-high // 100) / 10
    return f"{high:.1f} kg" if low == high else f"{low:.1f} to {high:.1f} kg"


def _remembered(part: str, amount: float, each: Pair, reason: str) -> Mass:
    return Mass(
        part=part, low_g=amount * each[0], high_g=amount * each[1], origin=Origin.MEMORY, reason=reason
    )


def _wood(job: Job, light: float, dense: float) -> tuple[Origin, str]:
    if job.bars.density_kg_m3 is not None:
        return Origin.GIVEN, f"{light:g} kg/m3"
    named = "unknown wood" if job.bars.wood is Wood.UNKNOWN else job.bars.wood.value
    span = f"{light:.0f}" if light == dense else f"{light:.0f} to {dense:.0f}"
    origin = Origin.MEMORY if job.bars.wood in FROM_MEMORY else Origin.PUBLISHED
    return origin, f"{named}, {span} kg/m3 at {MOISTURE_PERCENT:g} percent moisture (FPL-GTR-282)"
