"""The session that answers the page's calls. Plain Python: it knows nothing of a browser."""

from __future__ import annotations

import platform
import re
import tempfile
import time
from collections.abc import Callable, Generator, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import PIL
from pydantic import BaseModel

from pycore import __version__
from pycore.bridge.fold_reply import fold_reply
from pycore.bridge.layout_reply import layout_reply
from pycore.bridge.messages import (
    Box,
    Buffer,
    FileKind,
    HelloReply,
    JobParams,
    JobReply,
    Method,
    OpenParams,
    OpenReply,
    PrintParams,
    PrintReply,
    Progress,
    ShowParams,
    ShowReply,
    Texture,
)
from pycore.bridge.redo import Part, parts_to_redo
from pycore.contract.check import check_job, read_job
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note
from pycore.errors import PictureError
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.picture.read import read_picture
from pycore.printing.preview import PreviewSource
from pycore.printing.write import PrintRun

if TYPE_CHECKING:
    from pycore.bridge.colour_calls import ColourWork

#: A file's bytes cross in parts of this size, so that no single buffer need be as large as the file.
_PART_BYTES = 16 * 1024 * 1024

_ENDINGS = {FileKind.TIFF: ".tif", FileKind.PNG: ".png", FileKind.JPEG: ".jpg"}


@dataclass
class Answer:
    """A reply and the arrays that travel beside it."""

    reply: BaseModel
    buffers: list[np.ndarray[Any, Any]] = field(default_factory=list)


Steps = Generator[Progress, None, Answer]


@dataclass(frozen=True, kw_only=True)
class _Shown:
    """What the stage was last sent."""

    job: Job
    preview_px: int
    picture: int


class Session:
    """One page's work: the open picture and what the stage was last sent.

    Calls are answered one at a time. A call is a generator: it yields progress between its steps, so that
    whoever drives it can stop it there, and returns its answer.
    """

    def __init__(self) -> None:
        self._preview: PreviewSource | None = None
        self._picture_count = 0
        self._shown: _Shown | None = None
        self._colour: ColourWork | None = None

    def call(self, method: str, params: Mapping[str, Any], buffer: bytes | None = None) -> Steps:
        """Answer one call.

        Parameters
        ----------
        method : str
            One of `Method`.
        params : mapping
            As its parameter message says.
        buffer : bytes or None
            The picture's bytes, for `open`.

        Returns
        -------
        generator
            Yields `Progress`, returns `Answer`.

        Raises
        ------
        TuckfoldError
            On the first step: what the user gave is wrong.
        ValueError
            No such method, or parameters that are none of it: a fault of the page, not of the user.
        """
        answers: dict[Method, Callable[[Mapping[str, Any], bytes | None], Steps]] = {
            Method.HELLO: self._hello,
            Method.CHECK: self._check,
            Method.OPEN: self._open,
            Method.SHOW: self._show,
            Method.PRINT: self._print,
            Method.PROFILE: self._profile,
            Method.LOOK: self._look,
            Method.CLIP: self._clip,
            Method.INTENTS: self._intents,
            Method.SOLID: self._solid,
        }
        return answers[Method(method)](params, buffer)

    def _hello(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        yield from ()
        self._shown = None
        return Answer(
            HelloReply(
                version=__version__,
                python=platform.python_version(),
                numpy=np.__version__,
                pillow=PIL.__version__,
                job=Job(),
            )
        )

    def _check(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        yield from ()
        return Answer(JobReply(job=read_job(JobParams.model_validate(params).text)))

    def _open(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        asked = OpenParams.model_validate(params)
        yield Progress(done=0, label="Reading the picture")
        picture = read_picture(buffer or b"", file=asked.file)
        yield Progress(done=0.5, label="Reducing it for the screen")
        preview = PreviewSource(picture)
        # Only now, when nothing can fail any more, does the new picture take the place of the old.
        self._preview = preview
        self._picture_count += 1
        thumbnail = preview.thumbnail()
        return Answer(
            OpenReply(info=picture.info, thumbnail=_buffer(0, thumbnail, "srgb_encoded")), [thumbnail]
        )

    def _show(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        started = time.perf_counter()
        asked = _show_params(params)
        job, shown = asked.job, None if asked.fresh else self._shown
        grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=asked.preview_px))
        parts = parts_to_redo(shown.job if shown else None, job)
        if shown and (shown.preview_px, shown.picture) != (asked.preview_px, self._picture_count):
            parts = frozenset(Part)
        buffers: list[np.ndarray[Any, Any]] = []
        texture = fold = None
        more: list[Note] = []
        # The fold first: it can refuse the job, and then no picture has been drawn for nothing.
        if Part.FOLD in parts:
            fold = fold_reply(job, grid=grid, buffers=buffers)
        if self._preview is not None:
            more = self._preview.notes
            if Part.TEXTURE in parts:
                canvas = yield from self._preview.canvas(job, grid)
                texture = _texture(canvas, grid, place=len(buffers), is_srgb=self._preview.is_srgb)
                buffers.append(canvas)
        more = [*more, *fold_notes(fold_spec(job))]
        layout = layout_reply(job, picture=self._preview.source.info if self._preview else None, more=more)
        self._shown = _Shown(job=job, preview_px=asked.preview_px, picture=self._picture_count)
        return Answer(
            ShowReply(
                job=job,
                layout=layout,
                texture=texture,
                fold=fold,
                worker_ms=(time.perf_counter() - started) * 1000,
            ),
            buffers,
        )

    def _profile(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        yield Progress(done=0, label="Reading the profile")
        return Answer(self._colour_work().profile(params, buffer))

    def _look(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        work, job = self._colour_work(), check_job(params["job"])
        subject = yield from work.subject(job, self._opened(), self._picture_count)
        return Answer(*work.look(job, subject, params, is_srgb=self._opened().is_srgb))

    def _clip(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        work, job = self._colour_work(), check_job(params["job"])
        subject = yield from work.subject(job, self._opened(), self._picture_count)
        return Answer(*work.clip(job, subject))

    def _intents(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        work, job = self._colour_work(), check_job(params["job"])
        subject = yield from work.subject(job, self._opened(), self._picture_count)
        yield Progress(done=0, label="Comparing the intents")
        return Answer((yield from work.intents(job, subject)))

    def _solid(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        work, job = self._colour_work(), check_job(params["job"])
        subject = yield from work.subject(job, self._opened(), self._picture_count)
        return Answer(*work.solid(job, subject))

    def _colour_work(self) -> ColourWork:
        if self._colour is None:
            # The colour engine is loaded when it is first asked for, so that no start waits for it.
            from pycore.bridge.colour_calls import ColourWork

            self._colour = ColourWork()
        return self._colour

    def _opened(self) -> PreviewSource:
        if self._preview is None:
            raise PictureError(
                field="picture.file", expected="an open picture", got="none", remedy="open one first"
            )
        return self._preview

    def _print(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        asked = PrintParams.model_validate({**params, "job": {}})
        job = check_job(params["job"])
        preview = self._opened()
        colours = None
        if job.print.convert is Convert.CONVERT or job.colour.bring_in > 0:
            colours = yield from self._colour_work().print_colours(job, preview)
        name = f"{file_stem(job)}{_ENDINGS[asked.kind]}"
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / name
            writing = PrintRun(
                preview.source, job, kind=asked.kind, out=path, date=asked.date, colours=colours
            )
            yield from writing.steps()
            parts = list(_in_parts(path))
        return Answer(
            PrintReply(
                report=writing.report,
                parts=[_buffer(place, part, "file") for place, part in enumerate(parts)],
                notes=writing.notes,
            ),
            list(parts),
        )


def _show_params(params: Mapping[str, Any]) -> ShowParams:
    """The job by its own checks, whose messages name fields in the user's words."""
    job = check_job(params["job"])
    return ShowParams.model_validate({**params, "job": {}}).model_copy(update={"job": job})


def _buffer(place: int, array: np.ndarray[Any, Any], state: str) -> Buffer:
    return Buffer.model_validate(
        {"place": place, "shape": list(array.shape), "dtype": str(array.dtype), "state": state}
    )


def _texture(canvas: np.ndarray[Any, Any], grid: PixelGrid, *, place: int, is_srgb: bool) -> Texture:
    columns, rows = grid.columns, grid.rows
    state = "srgb_encoded" if is_srgb else "picture_encoded"
    return Texture(
        pixels=_buffer(place, canvas, state),
        face=Box(left=columns[2], top=rows[2], right=columns[3], bottom=rows[3]),
        inked=Box(left=columns[1], top=rows[1], right=columns[4], bottom=rows[4]),
    )


def _in_parts(path: Path) -> Iterator[np.ndarray[Any, Any]]:
    with path.open("rb") as file:
        while part := file.read(_PART_BYTES):
            yield np.frombuffer(part, np.uint8)


def file_stem(job: Job) -> str:
    """A file name, without its ending, made of the job's name and size.

    Examples
    --------
    >>> file_stem(Job(name="Low tide / 2"))
    'Low-tide-2-400x300mm'
    """
    words = re.findall(r"[^\W_]+", job.name)[:8]
    size = f"{job.face.width_mm:g}x{job.face.height_mm:g}mm"
    return "-".join([*words, size])[-80:]
