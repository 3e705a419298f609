"""Writing the print file: render, mark, encode, re-open, and only then put it in its place."""

from __future__ import annotations

import contextlib
import itertools
from collections.abc import Generator, Iterator
from pathlib import Path
from typing import BinaryIO, Protocol

import numpy as np

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import OutputError
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.printable import PrintableArea, printable_area
from pycore.picture.source import SourcePicture
from pycore.picture.tones import Values
from pycore.printing.encoders import canvas_channels, check_format, check_page, encode_file
from pycore.printing.marks import Marks, plan_marks
from pycore.printing.memory import Memory, check_memory, is_memory_short, this_memory
from pycore.printing.output_notes import resolution_notes, untagged_notes
from pycore.printing.place import check_place, file_at
from pycore.printing.report import FileKind, FileReport
from pycore.printing.reread import ExpectedFile, reread
from pycore.printing.too_fine import too_fine
from pycore.progress import Progress
from pycore.render.canvas_strips import Finish, Strip, canvas_strips
from pycore.render.notes import tone_notes
from pycore.speech import say

#: Where making the first strip and writing the last one end, as shares of the whole, for the progress only.
_BEGUN, _ENCODED = 0.1, 0.98


class FileColours(Protocol):
    """What becomes of the picture's colours in the file; see `pycore.proofing.print_colours`."""

    @property
    def source(self) -> SourcePicture:
        """What is rendered."""

    @property
    def mode(self) -> str:
        """Of the file: L, RGB or CMYK."""

    @property
    def profile(self) -> bytes | None:
        """Embedded in the file."""

    @property
    def notes(self) -> list[Note]:
        """About the conversion."""

    @property
    def printer_values(self) -> bool:
        """Whether the file holds the printer's own values."""

    @property
    def changes(self) -> bool:
        """Whether any colour becomes another one; where none does, `convert` need not be called."""

    @property
    def rendered_bits(self) -> int:
        """How deep the canvas is rendered for a file of 8 bits: 16 where that tells in the file."""

    def convert(self, pixels: Values, *, bits: int, row: int, column: int) -> Values:
        """Turn inked pixels of `source` into the file's; called from several threads at once.

        Parameters
        ----------
        pixels : (rows, columns, channels of `source`) uint8 or uint16
        bits : int
            Of the file: 8 or 16.
        row, column : int
            Where on the canvas the first pixel lies.

        Returns
        -------
        (rows, columns, channels of the file) uint8 or uint16
        """


class PrintRun:
    """One print file being written.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.
    kind : FileKind
    out : Path or binary file
        A path is written under another name beside it first, and given its own only when all is well.
        A binary file must be empty and allow reading and seeking.
    date : str
        Of today, for the text among the marks.
    colours : FileColours or None
        None keeps the picture's colours and its profile.
    printable : PrintableArea, optional
        What of the canvas the printer reaches, for the marks; by default that of the canvas by itself.
    panel : str
        Which of a group's panels it is, for the marks; from `panel_words`.
    memory : Memory, optional
        What there is; this program's own by default.

    Attributes
    ----------
    notes : list of Note
        About the file; complete after the last step.
    """

    def __init__(
        self,
        source: SourcePicture,
        job: Job,
        *,
        kind: FileKind,
        out: Path | BinaryIO,
        date: str,
        colours: FileColours | None = None,
        printable: PrintableArea | None = None,
        panel: str = "",
        memory: Memory | None = None,
    ) -> None:
        self._source = source if colours is None else colours.source
        self._job, self._kind, self._out = job, kind, out
        self._date, self._colours, self._printable = date, colours, printable
        self._panel = panel
        self._memory = this_memory() if memory is None else memory
        self._report: FileReport | None = None
        self.notes: list[Note] = []

    @property
    def report(self) -> FileReport:
        """What was re-read from the file.

        Raises
        ------
        OutputError
            It is not written yet.
        """
        if self._report is None:
            raise OutputError(
                field="out",
                expected=say("a written file"),
                got=say("none yet"),
                remedy=say("run all steps first"),
            )
        return self._report

    def _own_notes(self, expected: ExpectedFile) -> list[Note]:
        notes = tone_notes(self._source)
        notes += untagged_notes() if expected.profile is None else []
        notes += [] if self._colours is None else self._colours.notes
        return notes + resolution_notes(expected.ppi, expected.kept_ppi, kind=self._kind)

    def steps(self) -> Generator[Progress, None, None]:
        """Write the file step by step; whoever drives this can stop between two of them.

        Yields
        ------
        Progress

        Raises
        ------
        FieldError
            The job asks for more than the format holds.
        GeometryError
            A side asks for more pixels than the face has.
        OutputError
            The file cannot be written, memory is short, or what was re-read is not what was meant.
        """
        job = self._job
        if isinstance(self._out, Path):
            check_place(self._out, field="out")
        grid = pixel_grid(job, ppi=job.print.ppi)
        expected = self._expected(grid)
        marks = self._marks(grid) if job.print.marks else None
        self.notes = self._own_notes(expected) + (marks.notes if marks is not None else [])
        try:
            yield from self._written(grid, expected, marks)
        except (MemoryError, ValueError) as short:
            if not is_memory_short(short):
                raise
            raise too_fine(
                OutputError,
                size_px=(grid.width_px, grid.height_px),
                expected=say("lower, so that the file fits in memory while it is made"),
                remedy=say("lower the resolution, or use the command line for pieces this large"),
            ) from short
        yield Progress(done=1.0, label=say("Checking the file"))

    def _marks(self, grid: PixelGrid) -> Marks:
        area = printable_area(self._job) if self._printable is None else self._printable
        return plan_marks(
            self._job,
            grid,
            printable=area,
            date=self._date,
            panel=self._panel,
            outlines=self._kind is FileKind.PDF,
        )

    def _expected(self, grid: PixelGrid) -> ExpectedFile:
        """What the file is to be, once it is sure that the format and the memory can hold it."""
        source, job, colours = self._source, self._job, self._colours
        mode = source.image.mode if colours is None else colours.mode
        bits = job.print.bits
        check_memory(source, job, kind=self._kind, mode=mode, memory=self._memory)
        check_format(self._kind, mode, width_px=grid.width_px, height_px=grid.height_px, bits=bits)
        page_mm = flat_sizes(job).canvas_mm if self._kind is FileKind.PDF else None
        if page_mm is not None:
            check_page(page_mm)
        return ExpectedFile(
            kind=self._kind,
            mode=mode,
            width_px=grid.width_px,
            height_px=grid.height_px,
            ppi=job.print.ppi,
            profile=source.file_profile if colours is None else colours.profile,
            bits=bits,
            page_mm=page_mm,
        )

    def _written(
        self, grid: PixelGrid, expected: ExpectedFile, marks: Marks | None
    ) -> Generator[Progress, None, None]:
        """Make the strips, encode them and read the file again."""
        source, colours = self._source, self._colours
        bits = expected.bits
        channels = canvas_channels(self._kind, expected.mode)
        changing = colours if colours is not None and colours.changes else None
        # A PDF has its marks beside the picture, not in it.
        drawn = None if self._kind is FileKind.PDF else marks
        made = canvas_strips(
            source,
            self._job,
            grid,
            channels=channels if changing is None else source.channels,
            bits=bits if changing is None else max(bits, changing.rendered_bits),
            finish=_finish(grid, expected.mode, channels=channels, colours=changing, marks=drawn, bits=bits),
        )
        first: Progress | Strip | None = None
        for first in made:
            if isinstance(first, Strip):
                break
            yield Progress(done=_BEGUN * first.done, label=first.label)
        with _opened(self._out) as (file, name):
            shares = self._shares(
                _pixels(first, made),
                file,
                shape=(grid.height_px, grid.width_px, channels),
                expected=expected,
                marks=marks,
            )
            label = say("Saving the {kind} file", kind=self._kind.value.upper())
            yield Progress(done=_BEGUN, label=label)
            for rows in shares:
                done = _BEGUN + (_ENCODED - _BEGUN) * rows / grid.height_px
                yield Progress(done=done, label=label)
            file.flush()
            self._report = reread(file, name=name, expected=expected)

    def _shares(
        self,
        strips: Iterator[Values],
        file: BinaryIO,
        *,
        shape: tuple[int, int, int],
        expected: ExpectedFile,
        marks: Marks | None,
    ) -> Iterator[int]:
        """Encode the strips; rows that have been taken."""
        if expected.page_mm is None:
            return encode_file(
                strips,
                file,
                kind=self._kind,
                mode=expected.mode,
                shape=shape,
                bits=expected.bits,
                ppi=expected.ppi,
                profile=expected.profile,
            )
        # Few files are PDFs, and only they load what writes them.
        from pycore.printing.pdf.page import page_of, write_pdf

        page = page_of(
            self._job,
            marks=marks,
            date=self._date,
            printer_values=self._colours is not None and self._colours.printer_values,
        )
        return write_pdf(
            strips,
            file,
            mode=expected.mode,
            shape=shape,
            bits=expected.bits,
            ppi=expected.ppi,
            profile=expected.profile,
            page=page,
        )


def _finish(
    grid: PixelGrid,
    mode: str,
    *,
    channels: int,
    colours: FileColours | None,
    marks: Marks | None,
    bits: int,
) -> Finish:
    """What becomes of each rendered strip: its inked part is converted, the marks are drawn."""
    left, right, top, bottom = grid.columns[1], grid.columns[4], grid.rows[1], grid.rows[4]
    is_cmyk = mode == "CMYK"

    def finish(pixels: Values, first: int) -> Values:
        done = pixels
        if colours is not None:
            dtype = np.uint8 if bits == 8 else np.uint16
            done = np.full((*pixels.shape[:2], channels), 0 if is_cmyk else 2**bits - 1, dtype)
            inked = slice(max(top - first, 0), max(bottom - first, 0))
            strip = np.ascontiguousarray(pixels[inked, left:right])
            if strip.size:
                strip = colours.convert(strip, bits=bits, row=first + inked.start, column=left)
                done[inked, left:right, : strip.shape[2]] = strip
        if marks is not None:
            marks.draw(done, first, is_cmyk=is_cmyk)
        return done

    return finish


def _pixels(first: Progress | Strip | None, more: Iterator[Progress | Strip]) -> Iterator[Values]:
    for one in itertools.chain([first], more):
        if isinstance(one, Strip):
            yield one.pixels


@contextlib.contextmanager
def _opened(out: Path | BinaryIO) -> Iterator[tuple[BinaryIO, str]]:
    """The file to write and its name, which a file that is open already has not."""
    if not isinstance(out, Path):
        yield out, ""
        return
    with file_at(out, field="out") as file:
        yield file, out.name
