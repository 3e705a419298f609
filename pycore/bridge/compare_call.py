"""The answer to the call for variants side by side. Imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Generator, Mapping, Sequence
from typing import Any

import numpy as np

from pycore.bridge.answer import Answer, Arrays, Steps
from pycore.bridge.colour_calls import ColourWork
from pycore.bridge.colour_messages import Screen
from pycore.bridge.compare_parts import Made, add_fold, add_look
from pycore.bridge.layout_messages import Box, LayoutReply
from pycore.bridge.layout_reply import layout_reply
from pycore.bridge.messages import CompareReply, VariantReply
from pycore.bridge.panels import panel_places
from pycore.bridge.progress import Progress, part_of
from pycore.bridge.showing_messages import CompareParams, Variant
from pycore.bridge.texture_message import texture_message
from pycore.colour.link.viewing import Viewing
from pycore.compare.clipping import clipped_share
from pycore.compare.sharing import Placement, placed, shared
from pycore.compare.variants import check_count, check_variants, naming
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.grid import pixel_grid
from pycore.picture.tones import U8
from pycore.proofing.proof_input import Subject, make_subject, picture_space
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.preview import PreviewSource


def compare(params: Mapping[str, Any], preview: PreviewSource, colour: ColourWork) -> Steps:
    """Show variants side by side, as the page asks for them.

    Parameters
    ----------
    params : mapping
        As `CompareParams`.
    preview : PreviewSource
        The open picture; it stays the only decoded one.
    colour : ColourWork
        Holds the canvas profiles.

    Yields
    ------
    Progress

    Returns
    -------
    Answer
        With a `CompareReply`.

    Raises
    ------
    TuckfoldError
        Too few, too many or equal variants; one that cannot be laid out, folded, filled or proofed.
    """
    # Jobs by their own checks, whose messages name fields in the user's words.
    given = params["variants"]
    check_count(len(given), field="variants")
    asked = CompareParams.model_validate({**params, "variants": [{**one, "job": {}} for one in given]})
    variants = []
    for one, tree in zip(asked.variants, given, strict=True):
        with naming(one.label):
            variants.append(Variant(label=one.label, job=check_job(tree["job"])))
    check_variants(variants, field="variants")
    reply, arrays = yield from compare_steps(
        variants,
        preview,
        colour,
        viewing=asked.viewing,
        screen=asked.screen,
        preview_px=asked.preview_px,
    )
    return Answer(reply, arrays)


def compare_steps(
    variants: Sequence[Variant],
    preview: PreviewSource,
    colour: ColourWork,
    *,
    viewing: Viewing,
    screen: Screen,
    preview_px: int,
) -> Generator[Progress, None, tuple[CompareReply, Arrays]]:
    """Make textures, folds, tables and figures of checked variants: what several share is made once.

    Parameters
    ----------
    variants : sequence of Variant
        Two to four.
    preview : PreviewSource
    colour : ColourWork
    viewing : Viewing
    screen : Screen
        What the tables are for.
    preview_px : int
        About how many pixels the largest texture has.

    Yields
    ------
    Progress

    Returns
    -------
    CompareReply, list of arrays

    Raises
    ------
    TuckfoldError
        A variant cannot be laid out, folded, filled or proofed; the message names it.
    """
    jobs = [one.job for one in variants]
    yield Progress(done=0, label=f"Comparing {len(variants)} variants")
    made = Made(tables={"viewing": viewing, "screen": screen})
    deepest, places = shared(jobs)
    # The coarsest that any needs: beside one another all are seen at one scale.
    ppi = min(panel_grid(job, preview_px=preview_px).ppi for job in jobs)
    grids = [pixel_grid(job, ppi=ppi) for job in deepest]
    placements = [
        placed(pixel_grid(job, ppi=ppi), grids[place]) for job, place in zip(jobs, places, strict=True)
    ]
    # The folds first: they can refuse a variant, and then no picture has been drawn for nothing.
    folds = []
    for variant, placement, place in zip(variants, placements, places, strict=True):
        with naming(variant.label):
            folds.append(add_fold(variant.job, placement, grids[place], made))
    steps = len(deepest) + len(variants)
    canvases = []
    for number, (job, grid) in enumerate(zip(deepest, grids, strict=True)):
        with naming(variants[jobs.index(job)].label):
            canvas = yield from part_of(
                stacked_canvas(preview, job, grid), begin=number / steps, share=1 / steps
            )
        canvases.append(canvas)
        made.textures.append(texture_message(canvas, grid, made.arrays, is_srgb=preview.is_srgb))
    replies = []
    for number, (variant, placement, place) in enumerate(zip(variants, placements, places, strict=True)):
        yield Progress(done=(len(deepest) + number) / steps, label=f"Proofing {variant.label}")
        job, grid = variant.job, placement.grid
        subject = _subject(canvases[place], placement, grids[place].height_px, preview)
        layout = _layout(job, preview)
        with naming(variant.label):
            clipped = clipped_share(subject, job.colour, grid, colour.desk)
            look = add_look(job, (subject, grid), number, colour, made, is_srgb=preview.is_srgb)
        replies.append(
            VariantReply(
                label=variant.label,
                job=job,
                layout=layout,
                lost_share=0.0 if layout.use is None else layout.use.cut_away_share,
                weight_g=layout.flat.weight_g * job.group.panels,
                clipped_share=clipped,
                panels=panel_places(job, grids[place]),
                texture=place,
                inked=_inked(placement),
                fold=folds[number],
                look=look,
            )
        )
    reply = CompareReply(
        textures=made.textures,
        folds=[fold for _, fold in made.folds.values()],
        looks=[look for _, look in made.looks.values()],
        variants=replies,
    )
    return reply, made.arrays


def _layout(job: Job, preview: PreviewSource) -> LayoutReply:
    more = [*preview.notes, *fold_notes(fold_spec(job))]
    return layout_reply(job, picture=preview.source.info, more=more)


def _subject(canvas: U8, placement: Placement, rows: int, preview: PreviewSource) -> Subject:
    """The variant's windows on the texture's canvases, of so many rows each, one below the other."""
    left, top, grid = placement.left, placement.top, placement.grid
    windows = [
        canvas[first + top : first + top + grid.height_px, left : left + grid.width_px, :3]
        for first in range(0, len(canvas), rows)
    ]
    return make_subject(np.concatenate(windows), picture_space(preview.source), grid)


def _inked(placement: Placement) -> Box:
    columns, rows = placement.grid.columns, placement.grid.rows
    left, top = placement.left, placement.top
    return Box(left=left + columns[1], top=top + rows[1], right=left + columns[4], bottom=top + rows[4])
