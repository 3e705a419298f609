"""`tuckfold profile`, `clip`, `intents`, `proof`: what a canvas can hold, what of a picture it loses."""

from __future__ import annotations

import argparse
import dataclasses
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from pycore.cli.job_options import add_job_options, file_bytes, job_from
from pycore.cli.note_lines import plain_notes
from pycore.cli.picture_option import add_picture, picture_from
from pycore.colour.gamut.clip_report import ClipReport
from pycore.colour.gamut.intent_advice import intent_advice, name_of
from pycore.colour.gamut.intent_comparison import compare_intents
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.profile_report import profile_report
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.colour.link.device_link import CLIP_FULL_DE, make_link
from pycore.colour.link.proof import Viewing
from pycore.contract.job import Job
from pycore.errors import FieldError, OutputError
from pycore.layout.group import panel_jobs
from pycore.progress import last
from pycore.proofing.canvas_profile import CanvasProfile, illustrative_canvas, read_canvas_profile
from pycore.proofing.clip_scale import paint_clip_map
from pycore.proofing.profile_store import Desk
from pycore.proofing.proof_input import Subject, make_subject, picture_space, rgb_pixels
from pycore.render.canvas import render_canvas
from pycore.render.panels import panel_grid, stacked

#: Pixels of the flat canvas that the figures are taken from.
_SUBJECT_PX = 4_000_000


def add_to(commands: Any) -> None:
    """Add the commands to the parser."""
    profile = commands.add_parser("profile", help="what a profile is: white, black, gamut volume, tables")
    profile.add_argument("profile", metavar="FILE", help="an ICC profile")
    profile.add_argument("--json", action="store_true", help="print one JSON object")
    profile.set_defaults(run=run_profile)
    for name, run, about in (
        ("clip", run_clip, "where a picture leaves the canvas's gamut: face, each side, groups of colours"),
        ("intents", run_intents, "the rendering intents compared on a picture, and which harms it least"),
        ("proof", run_proof, "the flat canvas as it will look when printed, or its clip map, as a picture"),
    ):
        command: argparse.ArgumentParser = commands.add_parser(name, help=about)
        add_job_options(command)
        add_picture(command)
        command.add_argument(
            "--profile", metavar="FILE", help="the canvas's ICC profile; without it the job's colour.profile"
        )
        command.set_defaults(run=run)
        if name == "proof":
            command.add_argument("--out", metavar="FILE", required=True, help="a PNG or JPEG")
            command.add_argument("--view", choices=("printed", "clip-map"), default="printed")
            command.add_argument(
                "--viewing",
                choices=[one.value for one in Viewing],
                default=Viewing.BLACK.value,
                help="what of the canvas's white and black is simulated",
            )


def run_profile(options: argparse.Namespace) -> str:
    """Run `tuckfold profile` and return what to print."""
    data = file_bytes(options.profile, field="FILE")
    figures = dataclasses.asdict(profile_report(parse_profile(data)))
    if options.json:
        return json.dumps(figures)
    lab = "L* {0:.1f}, a* {1:.1f}, b* {2:.1f}".format
    lines = [
        f"{figures['description']}",
        f"{figures['kind']} profile, ICC {figures['version']}, {figures['device']} over {figures['pcs']}",
        f"white   {lab(*figures['white_lab'])}",
        f"black   {lab(*figures['black_lab'])}",
        f"gamut   {figures['gamut_volume']:,.0f} cubic Lab units",
    ]
    for way, tables in (("from the device", figures["forward"]), ("to the device", figures["backward"])):
        lines.append(f"{way}: " + ", ".join(f"{intent} {table}" for intent, table in tables.items()))
    return "\n".join(lines)


def run_clip(options: argparse.Namespace) -> str:
    """Run `tuckfold clip` and return what to print."""
    job, desk, subject = _opened(options)
    profile = desk.profile(job.colour.profile)
    report = desk.report(subject, job.colour)
    if options.json:
        return json.dumps(_about(profile) | clip_figures(report))
    lines = [f"{profile.description}; by more than {report.threshold_de:g} dE00:"]
    lines += [
        f"  {one.name}: {one.share:.2%} clips (chroma {one.chroma:.2%}, shadow {one.shadow:.2%}, "
        f"highlight {one.highlight:.2%}), worst {one.worst_de:.1f}"
        for one in report.regions
    ]
    lines += [
        f"  {one.number}. {one.name}: {one.share:.2%}, {one.filed} prints as {one.printed}, "
        f"{one.mean_de:.1f} dE00 on average, {one.worst_de:.1f} at worst"
        for one in report.groups
    ]
    return "\n".join(lines + [note.message for note in profile.notes])


def clip_figures(report: ClipReport) -> dict[str, Any]:
    """A clip report as plain data; shares 0 to 1, differences CIEDE2000."""
    return {
        "threshold_de": report.threshold_de,
        "regions": [dataclasses.asdict(one) for one in report.regions],
        "groups": [dataclasses.asdict(one) for one in report.groups],
    }


def run_intents(options: argparse.Namespace) -> str:
    """Run `tuckfold intents` and return what to print."""
    job, desk, subject = _opened(options)
    profile = desk.profile(job.colour.profile)
    figures = compare_intents(
        subject.colours, subject.space, profile.canvas, threshold_de=job.colour.clip_threshold_de
    )
    advice = intent_advice(figures)
    if options.json:
        plain = {
            "intents": [dataclasses.asdict(one) for one in figures],
            "recommended": dataclasses.asdict(advice),
        }
        return json.dumps(_about(profile) | plain)
    lines = [profile.description]
    lines += [
        f"  {name_of(one)}: {one.clipped_share:.2%} clips flat, {one.mean_de:.2f} dE00 on average, "
        f"{one.p95_de:.2f} at the 95th percentile, hue turned {one.hue_shift_deg:.1f} degrees"
        for one in figures
    ]
    return "\n".join([*lines, advice.reason, *(note.message for note in profile.notes)])


def run_proof(options: argparse.Namespace) -> str:
    """Run `tuckfold proof` and return what to print."""
    out = Path(options.out)
    if out.suffix.lower() not in {".png", ".jpg", ".jpeg"}:
        raise FieldError(
            field="--out", expected="a name that ends in .png or .jpg", got=repr(out.name), remedy="rename it"
        )
    job, desk, subject = _opened(options)
    profile = desk.profile(job.colour.profile)
    link = make_link(
        subject.space,
        profile.canvas,
        Standard.SRGB,
        intent=job.colour.intent,
        black_point_compensation=job.colour.black_point_compensation,
        viewing=Viewing(options.viewing),
    )
    proofed = np.asarray(Image.fromarray(subject.pixels).filter(link.pillow()))
    if options.view == "clip-map":
        shown = paint_clip_map(proofed, clip_full_de=CLIP_FULL_DE, threshold_de=job.colour.clip_threshold_de)
    else:
        shown = np.ascontiguousarray(proofed[..., :3])
    try:
        Image.fromarray(shown).save(out)
        with Image.open(out) as image:
            width, height = image.size
    except (OSError, ValueError) as wrong:
        raise OutputError(
            field="--out", expected="a place that can be written", got=str(wrong), remedy="choose another"
        ) from wrong
    figures = {"file": out.name, "width_px": width, "height_px": height, "bytes": out.stat().st_size}
    if options.json:
        return json.dumps(_about(profile) | figures)
    lines = [f"{out.name}: {width} x {height} pixels in sRGB, {profile.description}"]
    return "\n".join(lines + [note.message for note in profile.notes])


def _opened(options: argparse.Namespace) -> tuple[Job, Desk, Subject]:
    job = job_from(options)
    desk = desk_for(job, options.profile)
    source = picture_from(options)
    grid = panel_grid(job, preview_px=_SUBJECT_PX)
    panels = panel_jobs(job, width_px=source.width_px, height_px=source.height_px)
    canvas = last(stacked([render_canvas(source, one, grid, channels=source.channels) for one in panels]))
    subject = make_subject(rgb_pixels(canvas, source), picture_space(source), grid)
    return job, desk, desk.brought(subject, job.colour, grid)


def desk_for(job: Job, file: str | None) -> Desk:
    """A desk that holds the profile which a job names, or the file given in its place.

    Parameters
    ----------
    job : Job
    file : str or None
        A path.

    Returns
    -------
    Desk

    Raises
    ------
    FieldError, ProfileError
        It cannot be read, or is no printer's profile.
    """
    desk = Desk()
    desk.keep(replace(_canvas_profile(file or job.colour.profile), name=job.colour.profile))
    return desk


def _canvas_profile(name: str) -> CanvasProfile:
    if name == ILLUSTRATIVE_NAME:
        return illustrative_canvas()
    return read_canvas_profile(file_bytes(name, field="--profile"), name=Path(name).name)


def _about(profile: CanvasProfile) -> dict[str, Any]:
    return {
        "profile": {"description": profile.description, "illustration": profile.illustration},
        "notes": plain_notes(profile.notes),
    }
