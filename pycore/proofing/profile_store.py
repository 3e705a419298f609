"""The open canvas profile and what is worked out with it, kept as long as it stays true."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pycore.colour.gamut.bring_in import BringIn
from pycore.colour.gamut.clip_report import ClipReport, clip_report
from pycore.colour.gamut.device_gamut import Canvas
from pycore.colour.gamut.intent_advice import IntentAdvice, intent_advice
from pycore.colour.gamut.intent_comparison import IntentFigures, intents_in_turn
from pycore.colour.gamut.picture_colours import label_pixels
from pycore.colour.icc.endpoints import Standard
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.colour.link.device_link import DeviceLink, make_link
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Colour
from pycore.errors import FieldError
from pycore.layout.grid import PixelGrid
from pycore.proofing.adjust import brought_in, fitted, mover
from pycore.proofing.canvas_profile import CanvasProfile, illustrative_canvas
from pycore.proofing.proof_input import Subject, canvas_tops


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Clipped:
    """What clips, after bringing in; what clipped before; and the group of every pixel.

    Attributes
    ----------
    report, before : ClipReport
        The same object where nothing is brought in.
    labels : (rows, columns) uint8
    """

    report: ClipReport
    before: ClipReport
    labels: NDArray[np.uint8]


class Desk:
    """The canvas profiles that were opened, by name, and the invented one."""

    def __init__(self) -> None:
        self._profiles: dict[str, CanvasProfile] = {}
        self._fit: tuple[tuple[Subject, Canvas, Colour], BringIn] | None = None

    def keep(self, profile: CanvasProfile) -> None:
        """Keep a profile that was opened; one of the same name makes way for it."""
        self._profiles[profile.name] = profile

    def profile(self, name: str) -> CanvasProfile:
        """The profile that a job names.

        Parameters
        ----------
        name : str
            `colour.profile`.

        Returns
        -------
        CanvasProfile

        Raises
        ------
        FieldError
            No profile of that name was opened.
        """
        if name == ILLUSTRATIVE_NAME and name not in self._profiles:
            self.keep(illustrative_canvas())
        found = self._profiles.get(name)
        if found is None:
            raise FieldError(
                field="colour.profile",
                expected="a canvas profile that is open",
                got=repr(name),
                remedy="open that profile again, or take the illustrative one",
            )
        return found

    def link(self, subject: Subject, colour: Colour, *, viewing: Viewing, screen: Standard) -> DeviceLink:
        """The table from the subject's values to the proof on the screen, with what is brought in.

        Parameters
        ----------
        subject : Subject
            As filed.
        colour : Colour
            Of the job.
        viewing : Viewing
        screen : Standard
            SRGB or DISPLAY_P3.

        Returns
        -------
        DeviceLink

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        canvas = self.profile(colour.profile).canvas
        first = None
        if colour.bring_in > 0:
            first = mover(self._fitted(subject, colour), subject, canvas, colour)
        return make_link(
            subject.space,
            canvas,
            screen,
            intent=colour.intent,
            black_point_compensation=colour.black_point_compensation,
            viewing=viewing,
            first=first,
        )

    def brought(self, subject: Subject, colour: Colour, grid: PixelGrid) -> Subject:
        """The subject after bringing in; itself where nothing is."""
        if colour.bring_in == 0:
            return subject
        canvas = self.profile(colour.profile).canvas
        return brought_in(subject, self._fitted(subject, colour), canvas, colour, grid)

    def report(self, subject: Subject, colour: Colour) -> ClipReport:
        """What clips of a subject as it stands.

        Parameters
        ----------
        subject : Subject
        colour : Colour
            Of the job.

        Returns
        -------
        ClipReport

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        return clip_report(
            subject.pixels,
            subject.colours,
            subject.space,
            self.profile(colour.profile).canvas,
            intent=colour.intent,
            black_point_compensation=colour.black_point_compensation,
            threshold_de=colour.clip_threshold_de,
        )

    def _fitted(self, subject: Subject, colour: Colour) -> BringIn:
        """The bring-in fitted to a subject; the last is kept: a proof and its figures ask for the same."""
        canvas = self.profile(colour.profile).canvas
        key = (subject, canvas, colour)
        if self._fit is None or self._fit[0] != key:
            self._fit = (key, fitted(subject, canvas, colour))
        return self._fit[1]

    def clipped(self, subject: Subject, colour: Colour, grid: PixelGrid) -> Clipped:
        """What clips on the face and on each side.

        Parameters
        ----------
        subject : Subject
            As filed.
        colour : Colour
            Of the job.
        grid : PixelGrid
            Of one of the subject's canvases.

        Returns
        -------
        Clipped

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        before = after = self.report(subject, colour)
        if colour.bring_in > 0:
            subject = self.brought(subject, colour, grid)
            after = self.report(subject, colour)
        labels = label_pixels(subject.pixels, subject.colours, after.labels)
        # Only ink clips: bare canvas round the picture may share a colour with it.
        inked = np.zeros_like(labels)
        for top in canvas_tops(labels, grid):
            rows = slice(top + grid.rows[1], top + grid.rows[4])
            inside = (rows, slice(grid.columns[1], grid.columns[4]))
            inked[inside] = labels[inside]
        return Clipped(report=after, before=before, labels=inked)

    def intents(self, subject: Subject, colour: Colour) -> tuple[tuple[IntentFigures, ...], IntentAdvice]:
        """Every intent's figures on the subject as filed, and a recommendation.

        Parameters
        ----------
        subject : Subject
        colour : Colour
            Of the job.

        Returns
        -------
        figures, advice

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        figures = tuple(self.intents_in_turn(subject, colour))
        return figures, intent_advice(figures)

    def intents_in_turn(self, subject: Subject, colour: Colour) -> Iterator[IntentFigures]:
        """The figures of `intents`, one intent after the other.

        Parameters
        ----------
        subject : Subject
        colour : Colour
            Of the job.

        Returns
        -------
        iterator of IntentFigures

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        canvas = self.profile(colour.profile).canvas
        return intents_in_turn(subject.colours, subject.space, canvas, threshold_de=colour.clip_threshold_de)
