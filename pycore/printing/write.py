"""Writing the print file: render, mark, encode, re-open, and only then put it in its place."""

from __future__ import annotations

import contextlib
from collections.abc import Generator, Iterator
from pathlib import Path
from typing import BinaryIO, Protocol

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import FieldError, OutputError
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8
from pycore.printing.encoders import canvas_channels, check_format, encode_file
from pycore.printing.marks import draw_marks
from pycore.printing.output_notes import resolution_notes, untagged_notes
from pycore.printing.place import check_place, file_at
from pycore.printing.report import FileKind, FileReport
from pycore.printing.reread import ExpectedFile, reread
from pycore.progress import Progress, part_of
from pycore.render.canvas import render_canvas
from pycore.render.notes import tone_notes

#: Where rendering and encoding end, as shares of the whole; measured, for the progress only.
_COLOURED, _RENDERED, _ENCODED = 0.6, 0.75, 0.98


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

    def apply(self, canvas: U8, grid: PixelGrid) -> Iterator[float]:
        """Change a rendered canvas in place.

        Parameters
        ----------
        canvas : (rows, columns, channels) uint8
            Changed in place.
        grid : PixelGrid
            The canvas's.

        Yields
        ------
        float
            How much is done, 0 to 1.
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
    ) -> None:
        self._source = source if colours is None else colours.source
        self._job, self._kind, self._out = job, kind, out
        self._date, self._colours = date, colours
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
                field="out", expected="a written file", got="none yet", remedy="run all steps first"
            )
        return self._report

    def steps(self) -> Generator[Progress, None, None]:
        """Write the file step by step; whoever drives this can stop between two of them.

        Yields
        ------
        Progress

        Raises
        ------
        FieldError
            The job asks for what cannot be written yet, or for more than the format holds.
        GeometryError
            A side asks for more pixels than the face has.
        OutputError
            The file cannot be written, memory is short, or what was re-read is not what was meant.
        """
        source, job, colours = self._source, self._job, self._colours
        mode = source.image.mode if colours is None else colours.mode
        profile = source.profile if colours is None else colours.profile
        check_print(job)
        if isinstance(self._out, Path):
            check_place(self._out, field="out")
        grid = pixel_grid(job, ppi=job.print.ppi)
        check_format(self._kind, mode, width_px=grid.width_px, height_px=grid.height_px)
        expected = ExpectedFile(
            kind=self._kind,
            mode=mode,
            width_px=grid.width_px,
            height_px=grid.height_px,
            ppi=job.print.ppi,
            profile=profile,
        )
        try:
            rendering = render_canvas(
                source,
                job,
                grid,
                channels=max(canvas_channels(self._kind, mode), source.channels),
            )
            canvas = yield from part_of(
                rendering, begin=0.0, share=_RENDERED if colours is None else _COLOURED
            )
            self.notes = tone_notes(source)
            self.notes += untagged_notes(source) if profile is None else []
            if colours is not None:
                self.notes += colours.notes
                for share in colours.apply(canvas, grid):
                    done = _COLOURED + (_RENDERED - _COLOURED) * share
                    yield Progress(done=done, label="Converting the colours")
                if canvas.shape[2] > canvas_channels(self._kind, mode):
                    canvas = canvas[..., : canvas_channels(self._kind, mode)].copy()
            self.notes += resolution_notes(expected.ppi, expected.kept_ppi, kind=self._kind)
            if job.print.marks:
                self.notes += draw_marks(canvas, grid, job, date=self._date, is_cmyk=mode == "CMYK")
            with _opened(self._out) as (file, name):
                shares = encode_file(
                    canvas, file, kind=self._kind, mode=mode, ppi=expected.ppi, profile=profile
                )
                label = f"Writing the {self._kind.value.upper()} file"
                yield Progress(done=_RENDERED, label=label)
                for share in shares:
                    yield Progress(done=_RENDERED + (_ENCODED - _RENDERED) * share, label=label)
                file.flush()
                self._report = reread(file, name=name, expected=expected)
        except MemoryError as short:
            raise OutputError(
                field="print.ppi",
                expected="a print file that fits in memory while it is made",
                got=f"{grid.width_px} x {grid.height_px} pixels",
                remedy="lower the resolution, or use the command line for pieces this large",
            ) from short
        yield Progress(done=1.0, label="Re-read and measured")


def check_print(job: Job) -> None:
    """Refuse what the print file cannot do yet.

    Parameters
    ----------
    job : Job
        A checked job.

    Raises
    ------
    FieldError
        16 bits.

    Examples
    --------
    >>> check_print(Job())
    """
    if job.print.bits != 8:
        raise FieldError(
            field="print.bits",
            expected="8",
            got=str(job.print.bits),
            remedy="write 8 bits; 16 are not written yet",
        )


@contextlib.contextmanager
def _opened(out: Path | BinaryIO) -> Iterator[tuple[BinaryIO, str]]:
    """The file to write and its name, which a file that is open already has not."""
    if not isinstance(out, Path):
        yield out, ""
        return
    with file_at(out, field="out") as file:
        yield file, out.name
