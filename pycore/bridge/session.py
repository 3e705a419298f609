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
    TurntableParams,
    TurntableReply,
)
from pycore.contract.check import open_job
from pycore.contract.job import Job
from pycore.errors import PictureError
from pycore.printing.file_names import file_stem, panel_stem
from pycore.printing.report import FILE_ENDINGS
from pycore.progress import Progress
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
            Method.TURNTABLE: self._turntable,
            Method.CLIENT: self._client,
            Method.OPEN_BUNDLE: self._open_bundle,
            Method.SAVE_BUNDLE: self._save_bundle,
            Method.TICKET: self._ticket,
            Method.PLAN: self._plan,
            Method.STRIP: self._strip,
            Method.MEASURE_STRIP: self._measure_strip,
            Method.ANSWER: self._answer,
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
        yield Progress(done=0, label="Reading the profile")
        from pycore.bridge.colour_replies import profile_reply
        from pycore.tasks.colour import open_profile

        asked = ProfileParams.model_validate(params)
        return Answer(profile_reply(open_profile(self._opened_profiles(), buffer, name=asked.file)))

    def _look(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.colour_replies import look_reply
        from pycore.tasks.colour import look

        asked = checked_params(LookParams, params)
        tables = yield from look(
            asked.job, self._opened(), self._opened_profiles(), viewing=asked.viewing, screen=asked.screen
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

    def _turntable(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.tasks.turntable import make_turntable

        asked = TurntableParams.model_validate(params)
        made = yield from make_turntable(buffer or b"", options=asked)
        arrays: Arrays = []
        return Answer(TurntableReply(report=made.report, parts=parts_of(made.data, arrays)), arrays)

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

    def _plan(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.plan_messages import PlanParams
        from pycore.plan.check import check_copies, check_options
        from pycore.plan.options import PlanJob
        from pycore.tasks.plan import plan_jobs

        yield from ()
        # A person types these, so that what is wrong with them is said in a sentence.
        options = check_options(params["options"])
        copies = check_copies(params.get("copies", 1))
        job = checked_params(PlanParams, {**params, "options": {}}).job
        return Answer(plan_jobs([PlanJob(name=job.name, job=job, copies=copies)], options=options))

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

    def _measure_strip(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.strip_messages import MeasureStripParams
        from pycore.tasks.strip import measure_strip

        yield from ()
        asked = MeasureStripParams.model_validate(params)
        return Answer(measure_strip(expected=asked.expected.encode(), measured=buffer or b""))

    def _answer(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.answer_messages import AnswerParams, AnswerReply
        from pycore.tasks.client_answer import take_answer

        yield from ()
        asked = checked_params(AnswerParams, params)
        taken = take_answer(asked.job, asked.text)
        return Answer(
            AnswerReply(job=taken.job, chosen=taken.chosen, changed=taken.changed, notes=taken.notes)
        )

    def _open_bundle(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.bundle_replies import open_bundle_answer
        from pycore.tasks.bundle import read_bundle

        yield Progress(done=0, label="Reading the bundle")
        return open_bundle_answer(read_bundle(buffer or b""))

    def _save_bundle(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.bundle_messages import SaveBundleParams
        from pycore.bridge.bundle_replies import given_files, save_bundle_answer
        from pycore.tasks.bundle import save_bundle

        asked = checked_params(SaveBundleParams, params)
        yield Progress(done=0, label="Saving the bundle")
        files = given_files(asked.files, buffer or b"")
        return save_bundle_answer(save_bundle(asked.job, files, file=f"{file_stem(asked.job)}.zip"))

    def _opened_profiles(self) -> ProfileStore:
        if self._profiles is None:
            from pycore.proofing.profile_store import ProfileStore

            self._profiles = ProfileStore()
        return self._profiles

    def _opened(self) -> OpenPicture:
        if self._picture is None:
            raise PictureError(
                field="picture.file",
                expected="open",
                got="none",
                remedy="open a picture first",
                said="No picture is open.",
            )
        return self._picture
