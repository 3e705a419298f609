"""The session that answers the page's calls. Plain Python: it knows nothing of a browser."""

from __future__ import annotations

import platform
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import PIL

from pycore import __version__
from pycore.bridge.answer import Answer, Arrays, Steps, file_parts, taken
from pycore.bridge.file_stem import panel_stem
from pycore.bridge.fold_reply import fold_reply
from pycore.bridge.layout_reply import layout_reply
from pycore.bridge.messages import (
    FileKind,
    HelloReply,
    JobParams,
    JobReply,
    Method,
    OpenParams,
    OpenReply,
    PrintParams,
    PrintReply,
    ShowParams,
    ShowReply,
)
from pycore.bridge.panels import panel_places
from pycore.bridge.progress import Progress
from pycore.bridge.redo import Part, parts_to_redo
from pycore.bridge.texture_message import texture_message
from pycore.contract.check import check_job, read_job
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note
from pycore.errors import PictureError
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.group import panel_of
from pycore.layout.group_notes import panel_notes
from pycore.picture.read import read_picture
from pycore.printing.write import PrintRun
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.preview import PreviewSource

if TYPE_CHECKING:
    from pycore.bridge.colour_calls import ColourWork

_ENDINGS = {FileKind.TIFF: ".tif", FileKind.PNG: ".png", FileKind.JPEG: ".jpg"}


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
            Method.COMPARE: self._compare,
            Method.EDGES: self._edges,
            Method.MODEL: self._model,
            Method.TURNTABLE: self._turntable,
            Method.CLIENT: self._client,
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
        buffers: Arrays = []
        return Answer(
            OpenReply(info=picture.info, thumbnail=taken(thumbnail, "srgb_encoded", buffers)), buffers
        )

    def _show(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        started = time.perf_counter()
        asked = _show_params(params)
        job, shown = asked.job, None if asked.fresh else self._shown
        grid = panel_grid(job, preview_px=asked.preview_px)
        parts = parts_to_redo(shown.job if shown else None, job)
        if shown and (shown.preview_px, shown.picture) != (asked.preview_px, self._picture_count):
            parts = frozenset(Part)
        buffers: Arrays = []
        texture = fold = None
        more: list[Note] = []
        # The fold first: it can refuse the job, and then no picture has been drawn for nothing.
        if Part.FOLD in parts:
            fold = fold_reply(job, grid=grid, buffers=buffers)
        if self._preview is not None:
            more = self._preview.notes
            if Part.TEXTURE in parts:
                canvas = yield from stacked_canvas(self._preview, job, grid)
                texture = texture_message(canvas, grid, buffers, is_srgb=self._preview.is_srgb)
        more = [*more, *fold_notes(fold_spec(job))]
        layout = layout_reply(job, picture=self._preview.source.info if self._preview else None, more=more)
        self._shown = _Shown(job=job, preview_px=asked.preview_px, picture=self._picture_count)
        return Answer(
            ShowReply(
                job=job,
                layout=layout,
                texture=texture,
                fold=fold,
                panels=panel_places(job, grid),
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

    # What few sessions ask for is loaded when it is asked for.

    def _compare(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.compare_call import compare

        return compare(params, self._opened(), self._colour_work())

    def _edges(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.edges_call import edges

        return edges(params, self._opened())

    def _model(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.model_call import model

        return model(params, self._opened(), self._colour_work())

    def _turntable(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.turntable_call import turntable

        return turntable(params, buffer or b"")

    def _client(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.client_call import client

        return client(params, self._opened(), self._colour_work(), viewer=buffer or b"")

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
        size = preview.source.info
        panel = panel_of(job, asked.panel, width_px=size.width_px, height_px=size.height_px)
        colours = None
        if job.print.convert is Convert.CONVERT or job.colour.bring_in > 0:
            colours = yield from self._colour_work().print_colours(job, preview)
        name = f"{panel_stem(job, asked.panel)}{_ENDINGS[asked.kind]}"
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / name
            writing = PrintRun(
                preview.source, panel, kind=asked.kind, out=path, date=asked.date, colours=colours
            )
            yield from writing.steps()
            buffers: Arrays = []
            parts = [taken(part, "file", buffers) for part in file_parts(path)]
        notes = panel_notes(writing.notes, job, asked.panel)
        return Answer(PrintReply(report=writing.report, parts=parts, notes=notes), buffers)


def _show_params(params: Mapping[str, Any]) -> ShowParams:
    """The job by its own checks, whose messages name fields in the user's words."""
    job = check_job(params["job"])
    return ShowParams.model_validate({**params, "job": {}}).model_copy(update={"job": job})
