"""`tuckfold bars`: bars, braces and fittings to order, what the piece weighs, what it hangs by."""

from __future__ import annotations

import argparse
import json

from pycore.bars import rules
from pycore.bars.hanging import Hanging, NoWire
from pycore.bars.report import BarsReport, Length
from pycore.bars.weight import Mass, mass_words
from pycore.cli.options.job import add_job_options, job_from
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.options.presets import bars_price
from pycore.speech import say
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
    each = "" if report.panels == 1 else say(", {panels} panels", panels=report.panels)
    lines = [
        say(
            "Order {lengths} of {width:g} x {depth:g} mm bar, measured on its outer side, both "
            "ends mitred {mitre_degrees:g} degrees.",
            lengths=_lengths(report.bars),
            width=width,
            depth=depth,
            mitre_degrees=report.mitre_degrees,
        ),
        say(
            "The whole piece weighs {mass_words}{each}, the canvas alone {canvas_alone_g:.0f} g.",
            mass_words=mass_words(report.whole_g),
            each=each,
            canvas_alone_g=report.canvas_alone_g,
        ),
        "",
        say(
            "bar width          {width:g} mm, {section_is_given}",
            width=width,
            section_is_given=say("as given") if report.section_is_given else say("common practice"),
        ),
        *([] if cost is None else [say("cost of the bars   {cost:.2f}, braces apart", cost=cost)]),
        say("braces             {braces}", braces=_braces(report)),
        f"                   {report.brace_rule}",
        _staples(report),
        say(
            "weight             {words}{mass_words}",
            words=say("of one panel, ") if report.panels > 1 else "",
            mass_words=mass_words(report.panel_g),
        ),
        *(_mass(one) for one in report.masses),
        *_hanging(report.hanging),
        *(
            []
            if report.panels == 1
            else [
                say(
                    "panels             {pitch_mm:.1f} mm from one's middle to the next",
                    pitch_mm=report.pitch_mm,
                )
            ]
        ),
        "",
        *report.cautions,
    ]
    return "\n".join(lines)


def _lengths(lengths: list[Length]) -> str:
    return say(" and ").join(
        say("{count} of {length_mm:g} mm", count=one.count, length_mm=one.length_mm) for one in lengths
    )


def _braces(report: BarsReport) -> str:
    if not report.braces:
        return say("none")
    width, depth = report.brace_section_mm
    return say(
        "{lengths}, {width:g} x {depth:g} mm, cut to the opening{crossed}",
        crossed=say("; where two cross, halve both") if report.braces_cross else "",
        lengths=_lengths(report.braces),
        width=width,
        depth=depth,
    )


def _staples(report: BarsReport) -> str:
    if report.staples == 0:
        return say("staples            none: the turn-over has no room for them")
    if report.panels > 1:
        return say(
            "staples            {staples} in each panel, {all_staples} in all, at most "
            "{staples_every_mm:g} mm apart between the corners (common practice)",
            staples=report.staples // report.panels,
            all_staples=report.staples,
            staples_every_mm=report.staples_every_mm,
        )
    return say(
        "staples            {staples}, at most {staples_every_mm:g} mm apart between the corners "
        "(common practice)",
        staples=report.staples,
        staples_every_mm=report.staples_every_mm,
    )


def _mass(mass: Mass) -> str:
    return (
        f"  {say(mass.part):<17}{mass_words((mass.low_g, mass.high_g))}"
        f" ({say(mass.origin.value)}): {mass.reason}"
    )


def _hanging(on: Hanging) -> list[str]:
    down = on.hooks_mm[0][1]
    factor = say("{safety_factor:g} times the load (common practice)", safety_factor=on.safety_factor)
    hooks = say("1 hook in the middle")
    if on.hooks > 1:
        hooks = say(
            "{hooks} hooks, {hooks_mm10:.0f} mm apart",
            hooks=on.hooks,
            hooks_mm10=on.hooks_apart_mm,
        )
    lines = [
        say("hang it on         {hooks}, {down:.0f} mm below the top edge", hooks=hooks, down=down),
        say(
            "rings              {rings_mm10:.0f} mm apart, {rings_mm01:.0f} mm below the top edge",
            rings_mm10=on.rings_apart_mm,
            rings_mm01=on.rings_mm[0][1],
        ),
    ]
    if on.wire is None:
        lines.append(
            say("wire               none: too heavy for one (common practice); hang it from its rings")
            if on.no_wire is NoWire.HEAVY
            else say(
                "wire               none: it would lie so flat that it pulls with over {times:g} times the "
                "weight (common practice); hang it from its rings",
                times=rules.WIRE_PULL_MOST,
            )
        )
    else:
        lines.append(
            say(
                "wire               {length_mm:.0f} mm between the rings, drawn up {rise_mm:.0f} "
                "mm: pulls {tension_n:.0f} N (derived)",
                length_mm=on.wire.length_mm,
                rise_mm=on.wire.rise_mm,
                tension_n=on.wire.tension_n,
            )
        )
    carries = [
        say("each ring {ring_carries_kg:.1f} kg", ring_carries_kg=on.ring_carries_kg),
        say("each hook {hook_carries_kg:.1f} kg", hook_carries_kg=on.hook_carries_kg),
    ]
    carries += (
        []
        if on.wire is None
        else [say("the wire {wire_carries_kg:.1f} kg", wire_carries_kg=on.wire_carries_kg)]
    )
    return [*lines, say("must carry         {carries}; {factor}", carries=", ".join(carries), factor=factor)]
