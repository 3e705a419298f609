"""A proof strip made: patches and pieces in the print file's values, and what the profile promises."""

from __future__ import annotations

import hashlib
from collections.abc import Generator
from dataclasses import dataclass, replace

import numpy as np

from pycore.colour.mapping.picture_colours import label_pixels
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.group import panel_of
from pycore.picture.deep_tones import widened
from pycore.picture.source import CHANNELS, SourcePicture
from pycore.picture.tones import Values
from pycore.progress import Progress
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.proofing.print_colours import PrintColours, print_colours
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import flat_proof_input
from pycore.render.canvas_strips import Strip as CanvasRows
from pycore.render.canvas_strips import canvas_strips
from pycore.render.preview import PreviewSource
from pycore.speech import say, speaking
from pycore.strip.paper import INNER_MM, Drawn, draw_strip
from pycore.strip.patches import COLUMNS, Patch, patch_ids, strip_patches
from pycore.strip.places import Piece, strip_pieces, worst_canvas
from pycore.strip.promise import promised_lab

#: Where preparing and rendering end, as shares of the whole, for the progress only.
_PREPARED, _RENDERED = 0.3, 0.95


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ProofStrip:
    """A strip ready to be written.

    Attributes
    ----------
    pixels : (rows, columns, channels) uint8 or uint16
    mode : str
        L, RGB or CMYK.
    profile : bytes or None
        Embedded in the file.
    ids, names : list of str
        Of the patches.
    values : (patches, channels) uint8 or uint16
        As they stand in the file.
    lab_d50 : (patches, 3) float64
        What the profile promises.
    strip_id : str
        Eight characters, the same for the same patches alone.
    conditions : str
        The profile and the way to it, in English words.
    notes : list of Note
    """

    pixels: Values
    mode: str
    profile: bytes | None
    ids: list[str]
    names: list[str]
    values: Values
    lab_d50: FloatArray
    strip_id: str
    conditions: str
    notes: list[Note]


def make_strip(
    job: Job, preview: PreviewSource, profiles: ProfileStore, *, date: str
) -> Generator[Progress, None, ProofStrip]:
    """Make the strip of a job; a group's has patches of all panels and pieces of the one that clips most.

    Parameters
    ----------
    job : Job
        A checked job.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
    date : str
        Of today, YYYY-MM-DD, for the text on it.

    Yields
    ------
    Progress

    Returns
    -------
    ProofStrip

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open or lacks what is needed, or nobody knows the
        picture's colours.
    """
    canvas = profiles.profile(job.colour.profile)
    proof_input, shown = yield from flat_proof_input(job, preview)
    report = profiles.report(proof_input, job.colour)
    colours = yield from print_colours(job, profiles, preview)
    source = preview.source if colours is None else colours.source
    file = _File.of(preview.source, colours, bits=job.print.bits)
    patches = strip_patches(source, proof_input, report, canvas.gamut, job.colour)
    values = np.stack([file.patch_values(one) for one in patches])
    lab_d50 = promised_lab(
        values,
        profile=file.profile,
        mode=file.mode,
        canvas=canvas.gamut.profile,
        colour=job.colour,
        printer_values=file.colours is not None and file.colours.printer_values,
    )
    yield Progress(done=_PREPARED, label=say("Rendering the strip"))
    labels = label_pixels(proof_input.pixels, proof_input.colours, report.labels)
    worst = worst_canvas(labels, shown)
    one = panel_of(job, worst + 1, width_px=source.width_px, height_px=source.height_px)
    grid = pixel_grid(one, ppi=job.print.ppi)
    inner_px = int(INNER_MM * grid.px_per_mm)
    labels = labels[worst * shown.height_px : (worst + 1) * shown.height_px]
    pieces = strip_pieces(labels, shown, grid, width_px=inner_px)
    if job.group.panels > 1:
        panel = say("panel {number} of {count}", number=worst + 1, count=job.group.panels)
        pieces = [replace(piece, name=f"{piece.name}, {panel}") for piece in pieces]
    drawn = yield from _rendered(one, source, grid, pieces, file)
    strip_id = hashlib.sha256(values.tobytes() + np.round(lab_d50, 2).tobytes()).hexdigest()[:8]
    ids, said = patch_ids(len(patches)), [one.name for one in patches]
    conditions = _conditions(job, canvas)
    # The values' text is data: its words are the same in every language, and ASCII.
    with speaking("en"):
        names, english = [str(say(one)) for one in said], str(say(conditions))
    head = [
        say(
            "Proof strip {strip_id}  {date}  {split}",
            strip_id=strip_id,
            date=date,
            split=" ".join(job.name.split()),
        ),
        conditions,
    ]
    pixels = draw_strip(
        [*head, say("Measure each patch in this order; print at 100 percent.")],
        [(f"{patch_id} {name}", value) for patch_id, name, value in zip(ids, said, values, strict=True)],
        drawn,
        columns=COLUMNS,
        bare=file.bare,
        ppi=job.print.ppi,
        is_cmyk=file.mode == "CMYK",
    )
    return ProofStrip(
        pixels=pixels,
        mode=file.mode,
        profile=file.profile,
        ids=ids,
        names=names,
        values=values,
        lab_d50=lab_d50,
        strip_id=strip_id,
        conditions=english,
        notes=[*canvas.notes, *([] if colours is None else colours.notes)],
    )


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class _File:
    """What becomes of rendered values in the file."""

    mode: str
    profile: bytes | None
    bits: int
    rendered_bits: int
    bare: Values
    colours: PrintColours | None
    changes: bool

    @classmethod
    def of(cls, source: SourcePicture, colours: PrintColours | None, *, bits: int) -> _File:
        mode = source.image.mode if colours is None else colours.mode
        channels = CHANNELS[mode]
        changes = colours is not None and colours.changes
        without = 0 if mode == "CMYK" else 2**bits - 1
        return cls(
            mode=mode,
            profile=source.file_profile if colours is None else colours.profile,
            bits=bits,
            rendered_bits=max(bits, colours.rendered_bits) if colours is not None and changes else bits,
            bare=np.full(channels, without, np.uint8 if bits == 8 else np.uint16),
            colours=colours,
            changes=changes,
        )

    def converted(self, pixels: Values, *, row: int, column: int) -> Values:
        """The file's values of rendered pixels that begin at a place of the canvas."""
        if self.colours is None or not self.changes:
            return pixels
        return self.colours.convert(np.ascontiguousarray(pixels), bits=self.bits, row=row, column=column)

    def patch_values(self, patch: Patch) -> Values:
        """The file's values of a patch: of 8 bits, so that it is one flat colour."""
        if patch.values is None:
            return self.bare
        pixel = np.array([[patch.values]], np.uint8)
        if self.changes or self.bits == 8:
            values: Values = self.converted(pixel, row=0, column=0)[0, 0]
            return values
        return widened(pixel[0, 0])


def _rendered(
    job: Job, source: SourcePicture, grid: PixelGrid, pieces: list[Piece], file: _File
) -> Generator[Progress, None, list[Drawn]]:
    """Parts of the canvas as the print file has them, pixel by pixel."""
    boxes = [one.box for one in pieces]
    found = [
        np.empty(
            (box.bottom - box.top, box.right - box.left, source.channels),
            np.uint8 if file.rendered_bits == 8 else np.uint16,
        )
        for box in boxes
    ]
    last = max(box.bottom for box in boxes)
    for step in canvas_strips(
        source, job, grid, channels=source.channels, bits=file.rendered_bits, finish=lambda pixels, _: pixels
    ):
        if not isinstance(step, CanvasRows):
            yield Progress(done=_PREPARED + (_RENDERED - _PREPARED) * step.done / 2, label=step.label)
            continue
        end = step.first + len(step.pixels)
        for box, part in zip(boxes, found, strict=True):
            first, stop = max(box.top, step.first), min(box.bottom, end)
            if first < stop:
                rows = step.pixels[first - step.first : stop - step.first]
                part[first - box.top : stop - box.top] = rows[:, box.left : box.right]
        done = (_PREPARED + _RENDERED) / 2 + (_RENDERED - _PREPARED) / 2 * min(1.0, end / last)
        yield Progress(done=done, label=say("Rendering the strip"))
        if end >= last:
            break
    return [
        Drawn(
            name=one.name + (say(", folded at the ticks") if one.folds else say(", a detail")),
            pixels=np.rot90(file.converted(part, row=one.box.top, column=one.box.left), one.turns),
            folds=one.folds,
        )
        for one, part in zip(pieces, found, strict=True)
    ]


def _conditions(job: Job, canvas: CanvasProfile) -> str:
    colour = job.colour
    way = say(
        "{intent}, {black_point_compensation} BPC",
        intent=colour.intent.value,
        black_point_compensation=say("with") if colour.black_point_compensation else say("without"),
    )
    where = (
        say("converted")
        if job.print.convert is Convert.CONVERT
        else say("to be converted when it is printed")
    )
    return say(
        "{description}: {way}, {where}, {bits} bits",
        description=canvas.description,
        way=way,
        where=where,
        bits=job.print.bits,
    )
