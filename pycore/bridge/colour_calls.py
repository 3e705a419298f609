"""The answers to the calls about colour. Imported when the first of them comes: a start needs none of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Generator, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.bridge.answer import Arrays, taken
from pycore.bridge.colour_messages import (
    ClipGroup,
    ClipPart,
    ClipReply,
    IntentRow,
    IntentsReply,
    LookParams,
    LookReply,
    ProfileParams,
    ProfileReply,
    Screen,
    SolidReply,
)
from pycore.bridge.progress import Progress
from pycore.colour.gamut.intent_advice import intent_advice, name_of
from pycore.colour.gamut.intent_comparison import CHOICES
from pycore.colour.gamut.solid import gamut_solid, picture_points
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile_report import profile_report
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.device_link import CLIP_FULL_DE
from pycore.colour.link.display import rgb_nodes
from pycore.contract.job import Intent, Job
from pycore.layout.grid import PixelGrid
from pycore.proofing.canvas_profile import CanvasProfile, read_canvas_profile
from pycore.proofing.clip_scale import SCALE_FULL_DE, clip_scale
from pycore.proofing.print_colours import PrintColours, print_colours
from pycore.proofing.profile_store import Desk
from pycore.proofing.proof_input import Subject, make_subject, picture_space
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.preview import PreviewSource

#: Pixels of the flat canvas that figures and labels are taken from: the preview's own.
_SUBJECT_PX = 2_000_000

#: Points of the picture's colours in the gamut's solid.
_POINTS = 1500


class ColourWork:
    """The canvas profiles that are open, and the picture as it lies on the flat canvas."""

    def __init__(self) -> None:
        self._desk = Desk()
        self._subject: tuple[object, Subject, PixelGrid] | None = None

    @property
    def desk(self) -> Desk:
        """The canvas profiles that are open."""
        return self._desk

    def profile(self, params: Mapping[str, Any], data: bytes | None) -> ProfileReply:
        """Open a canvas profile, or the invented one where no bytes came, and describe it.

        Parameters
        ----------
        params : mapping
            As `ProfileParams`.
        data : bytes or None
            The file.

        Returns
        -------
        ProfileReply

        Raises
        ------
        FieldError, ProfileError
            Not a printer's profile, damaged, or not open.
        """
        asked = ProfileParams.model_validate(params)
        if data is None:
            return _described(self._desk.profile(asked.file))
        profile = read_canvas_profile(data, name=asked.file)
        # Only now, when nothing can fail any more, does it take the place of another of its name.
        reply = _described(profile)
        self._desk.keep(profile)
        return reply

    def subject(
        self, job: Job, preview: PreviewSource, picture: int
    ) -> Generator[Progress, None, tuple[Subject, PixelGrid]]:
        """The picture on the flat canvas, or on all panels', kept until something that it depends on changes.

        Parameters
        ----------
        job : Job
        preview : PreviewSource
            The open picture.
        picture : int
            Which picture it is.

        Yields
        ------
        Progress

        Returns
        -------
        Subject, PixelGrid
        """
        key = (picture, job.picture, job.face, job.bars, job.group, job.wrap, job.sides, job.canvas)
        if self._subject is None or self._subject[0] != key:
            grid = panel_grid(job, preview_px=_SUBJECT_PX)
            canvas = yield from stacked_canvas(preview, job, grid)
            pixels = np.ascontiguousarray(canvas[..., :3])
            subject = make_subject(pixels, picture_space(preview.source), grid)
            self._subject = (key, subject, grid)
        return self._subject[1], self._subject[2]

    def look(
        self, job: Job, on: tuple[Subject, PixelGrid], params: Mapping[str, Any], *, is_srgb: bool
    ) -> tuple[LookReply, Arrays]:
        """The tables for the screen.

        Parameters
        ----------
        job : Job
        on : Subject, PixelGrid
        params : mapping
            As `LookParams`.
        is_srgb : bool
            The subject's values are sRGB.

        Returns
        -------
        LookReply, list of arrays

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        asked = LookParams.model_validate({**params, "job": {}})
        wide = asked.screen is Screen.DISPLAY_P3
        arrays: Arrays = []
        link = self._desk.link(
            on[0],
            job.colour,
            viewing=asked.viewing,
            screen=Standard.DISPLAY_P3 if wide else Standard.SRGB,
        )
        filed = None
        if wide or not is_srgb:
            filed = taken(_filed_table(on[0], link.nodes, wide=wide), "half_floats", arrays)
        reply = LookReply(
            nodes=link.nodes,
            printed=taken(link.halves(), "half_floats", arrays),
            filed=filed,
            clip_full_de=CLIP_FULL_DE,
            scale=taken(clip_scale(), "srgb_encoded", arrays),
            scale_full_de=SCALE_FULL_DE,
        )
        return reply, arrays

    def clip(self, job: Job, on: tuple[Subject, PixelGrid]) -> tuple[ClipReply, Arrays]:
        """What clips on the face and on each side, in groups, and the group of every pixel."""
        found = self._desk.clipped(on[0], job.colour, on[1])
        arrays: Arrays = []
        reply = ClipReply(
            threshold_de=found.report.threshold_de,
            parts=[
                ClipPart(**dataclasses.asdict(now), share_before=before.share)
                for now, before in zip(found.report.regions, found.before.regions, strict=True)
            ],
            groups=[ClipGroup(**dataclasses.asdict(group)) for group in found.report.groups],
            labels=taken(found.labels, "index", arrays),
        )
        return reply, arrays

    def intents(self, job: Job, on: tuple[Subject, PixelGrid]) -> Generator[Progress, None, IntentsReply]:
        """Every intent's figures on the picture as filed, with a recommendation, in steps."""
        figures = []
        for one in self._desk.intents_in_turn(on[0], job.colour):
            figures.append(one)
            yield Progress(done=len(figures) / len(CHOICES), label="Comparing the intents")
        advice = intent_advice(figures)
        rows = []
        for one in figures:
            plain = dataclasses.asdict(one)
            del plain["harm"]
            rows.append(IntentRow(label=name_of(one), **plain))
        chosen = (advice.intent, advice.black_point_compensation)
        return IntentsReply(
            rows=rows,
            recommended=[(one.intent, one.black_point_compensation) for one in figures].index(chosen),
            reason=advice.reason,
        )

    def solid(self, job: Job, on: tuple[Subject, PixelGrid]) -> tuple[SolidReply, Arrays]:
        """The canvas's gamut and the picture's colours in it, after bringing in."""
        canvas = self._desk.profile(job.colour.profile).canvas
        subject = self._desk.brought(on[0], job.colour, on[1])
        solid = gamut_solid(canvas)
        points = picture_points(
            subject.colours,
            subject.space,
            canvas,
            intent=job.colour.intent,
            black_point_compensation=job.colour.black_point_compensation,
            most=_POINTS,
        )
        arrays: Arrays = []
        reply = SolidReply(
            lab=taken(solid.lab_d50.astype(np.float32), "lab_d50", arrays),
            colours=taken(_bytes(solid.srgb_encoded), "srgb_encoded", arrays),
            triangles=taken(solid.triangles.astype(np.uint32), "index", arrays),
            point_lab=taken(points.lab_d50.astype(np.float32), "lab_d50", arrays),
            point_printed_lab=taken(points.printed_lab.astype(np.float32), "lab_d50", arrays),
            point_colours=taken(_bytes(points.srgb_encoded), "srgb_encoded", arrays),
            point_share=taken(points.share.astype(np.float32), "fraction", arrays),
            point_difference=taken(points.difference.astype(np.float32), "fraction", arrays),
            volume=canvas.mesh.volume,
        )
        return reply, arrays

    def print_colours(
        self, job: Job, preview: PreviewSource
    ) -> Generator[Progress, None, PrintColours | None]:
        """What a job does to the colours of its print file."""
        return (yield from print_colours(job, self._desk, preview))


def _described(profile: CanvasProfile) -> ProfileReply:
    report = profile_report(profile.canvas.profile)
    return ProfileReply(
        file=profile.name,
        description=profile.description,
        illustration=profile.illustration,
        device=report.device,
        version=report.version,
        white_lab=report.white_lab,
        black_lab=report.black_lab,
        gamut_volume=report.gamut_volume,
        notes=profile.notes,
    )


def _filed_table(subject: Subject, nodes: int, *, wide: bool) -> NDArray[np.uint16]:
    to_screen = make_transform(
        subject.space,
        Standard.DISPLAY_P3_UNBOUNDED if wide else Standard.SRGB_UNBOUNDED,
        intent=Intent.RELATIVE,
        black_point_compensation=True,
    )
    table = np.zeros((nodes**3, 4))
    table[:, :3] = to_screen(rgb_nodes(nodes))
    return table.astype(np.float16).view(np.uint16).reshape(nodes, nodes, nodes, 4)


def _bytes(srgb_encoded: NDArray[np.float64]) -> NDArray[np.uint8]:
    return np.rint(np.clip(srgb_encoded, 0.0, 1.0) * 255.0).astype(np.uint8)
