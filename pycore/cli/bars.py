"""`tuckfold bars`: bars, braces and fittings to order, what the piece weighs, what it hangs by."""

from __future__ import annotations

import argparse
import json

from pycore.bars.hanging import Hanging
from pycore.bars.report import BarsReport, Length
from pycore.bars.weight import Mass, mass_words
from pycore.cli.job_options import add_job_options, job_from
from pycore.cli.picture_option import add_picture, picture_from
from pycore.cli.preset_options import bars_price
from pycore.tasks.bars import bars_cost, order_bars


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command, is_needed=False)
    add_job_options(command)


def run(options: argparse.Namespace) -> str:
    """Run the command.

    Parameters
    ----------
    options : argparse.Namespace
        What the parser read.

    Returns
    -------
    str
        What to print.

    Raises
    ------
    TuckfoldError
        A field of the job, an option or a file cannot be used.
    """
    job = job_from(options)
    if options.picture is not None:
        picture_from(options)  # Nothing depends on it, but one that cannot be used is still an error.
    report, price = order_bars(job), bars_price(options)
    cost = None if price is None else bars_cost(report, price_per_m=price)
    if options.json:
        more = {} if cost is None else {"bars_cost": cost}
        return json.dumps(report.model_dump(mode="json") | more)
    return _prose(report, cost)


def _prose(report: BarsReport, cost: float | None) -> str:
    width, depth = report.section_mm
    each = "" if report.panels == 1 else f", {report.panels} panels"
    lines = [
        f"Order {_lengths(report.bars)} of {width:g} x {depth:g} mm bar, measured on its outer side, "
        f"both ends mitred {report.mitre_degrees:g} degrees.",
        f"The whole piece weighs {mass_words(report.whole_g)}{each}, the canvas alone "
        f"{report.canvas_alone_g:.0f} g.",
        "",
        f"bar width          {width:g} mm, {'as given' if report.section_is_given else 'common practice'}",
        *([] if cost is None else [f"cost of the bars   {cost:.2f}, braces apart"]),
        f"braces             {_braces(report)}",
        f"                   {report.brace_rule}",
        f"staples            {report.staples}, at most {report.staples_every_mm:g} mm apart "
        "(common practice)",
        f"weight             {'of one panel, ' if report.panels > 1 else ''}{mass_words(report.panel_g)}",
        *(_mass(one) for one in report.masses),
        *_hanging(report.hanging),
        "",
        *report.cautions,
    ]
    return "\n".join(lines)


def _lengths(lengths: list[Length]) -> str:
    return " and ".join(f"{one.count} of {one.length_mm:g} mm" for one in lengths)


def _braces(report: BarsReport) -> str:
    if not report.braces:
        return "none"
    width, depth = report.brace_section_mm
    return f"{_lengths(report.braces)}, {width:g} x {depth:g} mm, cut to the opening"


def _mass(mass: Mass) -> str:
    return f"  {mass.part:<17}{mass_words((mass.low_g, mass.high_g))} ({mass.origin.value}): {mass.reason}"


def _hanging(on: Hanging) -> list[str]:
    down = on.hooks_mm[0][1]
    factor = f"{on.safety_factor:g} times the load (common practice)"
    hooks = "1 hook in the middle"
    if on.hooks > 1:
        hooks = f"{on.hooks} hooks, {on.hooks_mm[1][0] - on.hooks_mm[0][0]:.0f} mm apart"
    lines = [
        f"hang it on         {hooks}, {down:.0f} mm below the top edge",
        f"rings              {on.rings_mm[1][0] - on.rings_mm[0][0]:.0f} mm apart, "
        f"{on.rings_mm[0][1]:.0f} mm below the top edge",
    ]
    if on.wire is None:
        lines.append("wire               none: too heavy for one (common practice); hang it from its rings")
    else:
        lines.append(
            f"wire               {on.wire.length_mm:.0f} mm between the rings, "
            f"drawn up {on.wire.rise_mm:.0f} mm: pulls {on.wire.tension_n:.1f} N (derived)"
        )
    carries = [f"each ring {on.ring_carries_kg:.1f} kg", f"each hook {on.hook_carries_kg:.1f} kg"]
    carries += [] if on.wire is None else [f"the wire {on.wire_carries_kg:.1f} kg"]
    return [*lines, f"must carry         {', '.join(carries)}; {factor}"]
