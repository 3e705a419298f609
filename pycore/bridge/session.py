"""The session that answers the page's calls. Plain Python: it knows nothing of a browser."""

from __future__ import annotations

import io
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
from pycore.bridge.answer import Answer, Arrays, Steps, attach, file_parts, parts_of
from pycore.bridge.choice_messages import ChoiceKind, ChoicesParams, DetailParams
from pycore.bridge.colour_messages import (
    ClipParams,
    IntentsParams,
    LookParams,
    ProfileParams,
    SolidParams,
)
from pycore.bridge.messages import (
    CloseReply,
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
from pycore.bridge.params import checked_params
from pycore.bridge.replies import fold_reply, texture_reply
from pycore.bridge.showing_messages import (
    ClientParams,
    ClientReply,
    CompareParams,
    EdgesParams,
    ModelParams,
    ModelReply,
    ProposeFaceParams,
    ProposeFaceReply,
    TicketParams,
    TicketReply,
)
from pycore.bridge.stateless import STATELESS
from pycore.bridge.wall_calls import WallCalls
from pycore.contract.check import open_job
from pycore.contract.job import Job
from pycore.errors import PictureError
from pycore.printing.file_names import file_stem, panel_stem
from pycore.printing.report import FILE_ENDINGS
from pycore.progress import Progress
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture, open_picture
from pycore.tasks.show import parts_to_show, show_canvas

if TYPE_CHECKING:
    from pycore.proofing.profile_store import ProfileStore


@dataclass(frozen=True, kw_only=True, eq=False)
class _Shown:
    """What the stage was last sent."""

    job: Job
    preview_px: int
    picture: OpenPicture | None

    def is_of(self, picture: OpenPicture | None, preview_px: int) -> bool:
        """Whether it was made from this picture and as finely."""
        return self.picture is picture and self.preview_px == preview_px


class Session:
    """One page's work: the open picture and what the stage was last sent.

    Calls are answered one at a time. A call is a generator: it yields progress between its steps, so that
    whoever drives it can stop it there, and returns its answer.
    """

    def __init__(self) -> None:
        self._picture: OpenPicture | None = None
        self._shown: _Shown | None = None
        self._profiles: ProfileStore | None = None
        self._wall = WallCalls(self._opened, self._opened_profiles)

    def call(self, method: str, params: Mapping[str, Any], buffer: bytes | None = None) -> Steps:
        """Answer one call.

        Parameters
        ----------
        method : str
            One of `Method`.
        params : mapping
            As its parameter message says.
        buffer : bytes or None
            The bytes that go with the call.

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
            Method.CLOSE: self._close,
            Method.PROPOSE_FACE: self._propose_face,
            Method.SHOW: self._show,
            Method.PRINT: self._print,
            Method.PROFILE: self._profile,
            Method.LOOK: self._look,
            Method.CLIP: self._clip,
            Method.INTENTS: self._intents,
            Method.SOLID: self._solid,
            Method.COMPARE: self._compare,
            Method.EDGES: self._edges,
            Method.CHOICES: self._choices,
            Method.DETAIL: self._detail,
            Method.MODEL: self._model,
            Method.CLIENT: self._client,
            Method.TICKET: self._ticket,
            Method.STRIP: self._strip,
            **self._wall.answers,
            **STATELESS,
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
        job, notes = open_job(JobParams.model_validate(params).text)
        return Answer(JobReply(job=job, notes=notes))

    def _open(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        asked = OpenParams.model_validate(params)
        picture = yield from open_picture(buffer or b"", file=asked.file)
        # Only here, when nothing can fail any more, does the new picture take the place of the old.
        self._picture = picture
        arrays: Arrays = []
        thumbnail = attach(picture.preview.thumbnail(), "srgb_encoded", arrays)
        return Answer(OpenReply(info=picture.info, thumbnail=thumbnail), arrays)

    def _close(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        yield from ()
        self._picture = None
        return Answer(CloseReply())

    def _propose_face(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.propose_face import propose_face

        yield from ()
        asked = checked_params(ProposeFaceParams, params)
        return Answer(ProposeFaceReply(face=propose_face(asked.job, self._picture, unit=asked.unit)))

    def _show(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        started = time.perf_counter()
        asked = checked_params(ShowParams, params)
        job, before, picture = asked.job, self._shown, self._picture
        if asked.fresh or before is None or not before.is_of(picture, asked.preview_px):
            parts = parts_to_show(None, job)
        else:
            parts = parts_to_show(before.job, job)
        made = yield from show_canvas(job, picture, options=asked, parts=parts)
        arrays: Arrays = []
        texture = None
        fold = None if made.fold is None else fold_reply(made.fold, arrays)
        if picture is not None and made.texture is not None:
            texture = texture_reply(made.texture, made.grid, arrays, is_srgb=picture.preview.is_srgb)
        self._shown = _Shown(job=job, preview_px=asked.preview_px, picture=picture)
        return Answer(
            ShowReply(
                job=job,
                layout=made.layout,
                bars=made.bars,
                texture=texture,
                fold=fold,
                panels=made.panels,
                worker_ms=(time.perf_counter() - started) * 1000,
            ),
            arrays,
        )

    # What a start does not need is loaded when it is first asked for.

    def _profile(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        yield Progress(done=0, label=say("Reading the profile"))
        from pycore.bridge.colour_replies import profile_reply
        from pycore.tasks.colour import open_profile

        asked = ProfileParams.model_validate(params)
        return Answer(profile_reply(open_profile(self._opened_profiles(), buffer, name=asked.file)))

    def _look(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import look_reply
        from pycore.tasks.colour import look

        asked = checked_params(LookParams, params)
        picture, profiles = self._opened(), self._opened_profiles()
        tables = yield from look(
            asked.job, picture, profiles, viewing=asked.viewing, screen=asked.screen, fine=asked.fine
        )
        arrays: Arrays = []
        return Answer(look_reply(tables, arrays), arrays)

    def _clip(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import clip_answer
        from pycore.tasks.colour import clip

        job = checked_params(ClipParams, params).job
        return clip_answer((yield from clip(job, self._opened(), self._opened_profiles())))

    def _intents(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import intents_reply
        from pycore.tasks.colour import intents

        job = checked_params(IntentsParams, params).job
        return Answer(intents_reply((yield from intents(job, self._opened(), self._opened_profiles()))))

    def _solid(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import solid_answer
        from pycore.tasks.colour import solid

        job = checked_params(SolidParams, params).job
        return solid_answer((yield from solid(job, self._opened(), self._opened_profiles())))

    def _compare(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import compare_answer
        from pycore.compare.variants import check_count
        from pycore.tasks.compare import compare_variants

        picture = self._opened()
        check_count(len(params["variants"]), field="variants")
        asked = checked_params(CompareParams, params)
        found = yield from compare_variants(asked.variants, picture, self._opened_profiles(), options=asked)
        return compare_answer(found, is_srgb=picture.preview.is_srgb)

    def _edges(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.edges import judge_edges

        yield from ()
        return Answer(judge_edges(checked_params(EdgesParams, params).job, self._opened()))

    def _choices(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.choice_replies import fills_answer, finishes_answer, intents_answer
        from pycore.tasks.choices import fill_choices, finish_choices, intent_choices

        asked = checked_params(ChoicesParams, params)
        picture = self._opened()
        if asked.kind is ChoiceKind.FILLS:
            fills = yield from fill_choices(asked.job, picture, fills=asked.fills, side=asked.side)
            return fills_answer(fills)
        if asked.kind is ChoiceKind.FINISHES:
            return finishes_answer((yield from finish_choices(asked.job, picture)))
        found = yield from intent_choices(asked.job, picture, self._opened_profiles(), viewing=asked.viewing)
        return intents_answer(found)

    def _detail(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.choice_replies import detail_answer
        from pycore.tasks.print_detail import show_detail

        picture = self._opened()
        asked = checked_params(DetailParams, params)
        return detail_answer(
            (yield from show_detail(asked.job, picture, width_px=asked.width_px, height_px=asked.height_px))
        )

    def _model(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.model import write_model

        picture = self._opened()
        asked = checked_params(ModelParams, params)
        file = f"{file_stem(asked.job)}.glb"
        made = yield from write_model(asked.job, picture, self._opened_profiles(), options=asked, file=file)
        arrays: Arrays = []
        parts = parts_of(made.data, arrays)
        return Answer(ModelReply(report=made.report, parts=parts, notes=made.notes), arrays)

    def _client(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.client_page import write_client_page

        picture = self._opened()
        asked = checked_params(ClientParams, params)
        made = yield from write_client_page(
            asked.variants,
            picture,
            self._opened_profiles(),
            viewer=buffer or b"",
            options=asked,
            file=f"{file_stem(asked.variants[0].job)}-client.html",
            photo=None if asked.wall is None else self._wall.photo(),
        )
        arrays: Arrays = []
        parts = parts_of(made.data, arrays)
        return Answer(ClientReply(report=made.report, parts=parts, notes=made.notes), arrays)

    def _ticket(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.ticket import write_ticket

        picture = self._opened()
        asked = checked_params(TicketParams, params)
        file = f"{file_stem(asked.job)}-ticket.pdf"
        made = yield from write_ticket(asked.job, picture, self._opened_profiles(), options=asked, file=file)
        arrays: Arrays = []
        parts = parts_of(made.data, arrays)
        return Answer(TicketReply(report=made.report, parts=parts, notes=made.notes), arrays)

    def _print(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.print_file import print_files

        picture = self._opened()
        asked = checked_params(PrintParams, params)
        job, panel = asked.job, asked.panel
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / f"{panel_stem(job, panel)}{FILE_ENDINGS[asked.kind]}"
            (written,) = yield from print_files(
                job,
                picture,
                self._opened_profiles(),
                kind=asked.kind,
                date=asked.date,
                places={panel: path},
            )
            arrays: Arrays = []
            parts = [attach(part, "file", arrays) for part in file_parts(path)]
        return Answer(PrintReply(report=written.report, parts=parts, notes=written.notes), arrays)

    def _strip(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.strip_messages import StripParams, StripReply
        from pycore.tasks.strip import write_strip

        picture = self._opened()
        asked = checked_params(StripParams, params)
        stem = f"{file_stem(asked.job)}-strip"
        file = io.BytesIO()
        written = yield from write_strip(
            asked.job,
            picture,
            self._opened_profiles(),
            out=file,
            file=f"{stem}.tif",
            values_file=f"{stem}.cgats.txt",
            date=asked.date,
        )
        arrays: Arrays = []
        parts = parts_of(file.getvalue(), arrays)
        reply = StripReply(
            report=written.report, parts=parts, values=written.values.decode(), notes=written.notes
        )
        return Answer(reply, arrays)

    def _opened_profiles(self) -> ProfileStore:
        if self._profiles is None:
            from pycore.proofing.profile_store import ProfileStore

            self._profiles = ProfileStore()
        return self._profiles

    def _opened(self) -> OpenPicture:
        if self._picture is None:
            raise PictureError(
                field="picture.file",
                expected=say("open"),
                got=say("none"),
                remedy=say("open a picture first"),
                said=say("No picture is open."),
            )
        return self._picture
