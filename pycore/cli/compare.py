"""`tuckfold compare`: two to four variants of a job on one picture, each with its figures."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from typing import Any

from pycore.bars.weight import mass_words
from pycore.cli.columns import columns
from pycore.cli.layout import layout_figures
from pycore.cli.options.job import add_job_options, blaming, job_from, numbers_from, words_from
from pycore.cli.options.named_files import file_bytes
from pycore.cli.options.picture import add_picture, picture_from
from pycore.cli.progress_line import run_shown
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.compare.variants import (
    USUAL_DEPTHS_MM,
    CompareOptions,
    Variant,
    bring_in_variants,
    depth_variants,
    fill_variants,
    finish_variants,
    profile_variants,
)
from pycore.contract.job import Fill, Finish, Job
from pycore.proofing.canvas_profile import read_canvas_profile
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import figure, say
from pycore.tasks.compare import ComparedVariant, Comparison, compare_variants


def add_options(command: argparse.ArgumentParser) -> None:
    """Add the command's options.

    Parameters
    ----------
    command : argparse.ArgumentParser
        The command's parser; changed in place.
    """
    add_picture(command)
    add_job_options(command)
    usual = ",".join(f"{depth:g}" for depth in USUAL_DEPTHS_MM)
    kinds = command.add_mutually_exclusive_group()
    kinds.add_argument(
        "--depths", metavar="MM,MM", help=say("bar depths; without any option {usual}", usual=usual)
    )
    kinds.add_argument("--fills", metavar="FILL,FILL", help=say("side fills: {fill}", fill=", ".join(Fill)))
    kinds.add_argument(
        "--finishes", metavar="FINISH,FINISH", help=say("corner finishes: {finish}", finish=", ".join(Finish))
    )
    kinds.add_argument(
        "--profiles",
        metavar="FILE,FILE",
        help=say("canvas profiles: ICC files, or {illustrative_name}", illustrative_name=ILLUSTRATIVE_NAME),
    )
    kinds.add_argument(
        "--bring-ins", metavar="SHARE,SHARE", help=say("how much colours are brought in: 0 to 1")
    )
    command.set_defaults(usual=usual)


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
    variants = _variants(options, job)
    profiles = ProfileStore()
    for name in dict.fromkeys(one.job.colour.profile for one in variants):
        if name != ILLUSTRATIVE_NAME:
            profiles.keep(read_canvas_profile(file_bytes(name, field="--profiles"), name=name))
    found = run_shown(compare_variants(variants, picture_from(options), profiles, options=CompareOptions()))
    if options.json:
        figures = [_figures(one) for one in found.variants]
        return json.dumps({"variants": figures, "textures": len(found.textures)})
    return _table(found)


def _variants(options: argparse.Namespace, job: Job) -> list[Variant]:
    by_text: dict[str, tuple[str, Callable[[Job, list[str]], list[Variant]]]] = {
        "fills": ("sides.fill", fill_variants),
        "finishes": ("wrap.finish", finish_variants),
        "profiles": ("colour.profile", profile_variants),
    }
    for name, (field, make) in by_text.items():
        if getattr(options, name) is not None:
            with blaming(f"--{name}", field):
                return make(job, words_from(getattr(options, name)))
    if options.bring_ins is not None:
        shares = _numbers(options.bring_ins, option="--bring-ins", example="0,0.5,1")
        with blaming("--bring-ins", "colour.bring_in"):
            return bring_in_variants(job, shares)
    given = options.usual if options.depths is None else options.depths
    depths = _numbers(given, option="--depths", example=options.usual)
    with blaming("--depths", "bars.depth_mm"):
        return depth_variants(job, depths)


def _numbers(text: str, *, option: str, example: str) -> list[float]:
    expected = say("numbers with commas between them")
    return numbers_from(text, option=option, expected=expected, example=example)


def _figures(one: ComparedVariant) -> dict[str, Any]:
    """A variant as one flat JSON object: the layout's figures and its own."""
    job = one.variant.job
    return {
        "label": one.variant.label,
        "depth_mm": job.bars.depth_mm,
        "fill": job.sides.fill.value,
        "finish": job.wrap.finish.value,
        "profile": job.colour.profile,
        "bring_in": job.colour.bring_in,
        **layout_figures(one.layout),
        "lost_share": one.lost_share,
        "outside_share": one.outside_share,
        "weight_g": one.weight_g,
        "whole_g": one.whole_g,
        "texture": one.texture,
    }


def _table(found: Comparison) -> str:
    heaviest = max(one.whole_g[1] for one in found.variants)
    heads = [
        say("variant"),
        say("cropped away##share"),
        say("canvas to cut, mm"),
        say("outside gamut"),
        say("canvas alone"),
        say("whole piece"),
        say("sheet"),
    ]
    rows = []
    for one in found.variants:
        across, down = one.layout.flat.canvas_mm
        rows.append(
            [
                one.variant.label,
                figure(one.lost_share, ".1%"),
                say("{across:.1f} x {down:.1f}", across=across, down=down),
                figure(one.outside_share, ".1%"),
                f"{one.weight_g:.0f} g",
                mass_words(one.whole_g, heaviest=heaviest),
                _sheet_words(one),
            ]
        )
    return "\n".join(columns(heads, rows, left=(0, 5, 6)))


def _sheet_words(one: ComparedVariant) -> str:
    """`fits`, or by how much it does not."""
    sheet = one.layout.sheet
    if sheet.fits:
        return say("fits, turned sideways") if sheet.turned else say("fits")
    short = [
        say("{slack:.1f} mm {way}", slack=lacking, way=way)
        for lacking, way in zip(sheet.short_mm, ("across", "along"), strict=True)
        if lacking > 0
    ]
    return (
        say("too small by {short}", short=say(" and ").join(short))
        if short
        else say("too small within its margins")
    )
