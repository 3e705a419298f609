"""Bringing a job's colours in: fitted to the picture on its canvas, for proofs, figures and print files."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageFilter

from pycore.colour.gamut.bring_in import BringIn, Mover, bring_in_mover, bring_in_table, fit_bring_in
from pycore.colour.gamut.device_gamut import Canvas
from pycore.contract.job import Colour, Intent
from pycore.layout.grid import PixelGrid
from pycore.proofing.proof_input import Subject, make_subject


def fitted(subject: Subject, canvas: Canvas, colour: Colour) -> BringIn:
    """Fit the bring-in to a subject as it is filed.

    The perceptual and the saturation intent bring colours in by rules of their own; what is fitted for them
    is what the relative intent would need.

    Parameters
    ----------
    subject : Subject
    canvas : Canvas
    colour : Colour
        Of the job.

    Returns
    -------
    BringIn

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    return fit_bring_in(
        subject.colours,
        subject.space,
        canvas,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
        threshold_de=colour.clip_threshold_de,
        strength=colour.bring_in,
    )


def mover(bring_in: BringIn, subject: Subject, canvas: Canvas, colour: Colour) -> Mover:
    """What moves single colours, for tables that begin with it."""
    return bring_in_mover(
        bring_in,
        subject.space,
        canvas,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )


def table(bring_in: BringIn, subject: Subject, canvas: Canvas, colour: Colour) -> ImageFilter.Color3DLUT:
    """The table that moves a picture's pixels."""
    return bring_in_table(
        bring_in,
        subject.space,
        canvas,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )


def brought_in(
    subject: Subject, bring_in: BringIn, canvas: Canvas, colour: Colour, grid: PixelGrid
) -> Subject:
    """A subject as it is after bringing in.

    Parameters
    ----------
    subject : Subject
        As filed.
    bring_in : BringIn
        Fitted to it.
    canvas : Canvas
    colour : Colour
        Of the job.
    grid : PixelGrid
        Of the subject's pixels.

    Returns
    -------
    Subject

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    moved = Image.fromarray(subject.pixels).filter(table(bring_in, subject, canvas, colour))
    return make_subject(np.asarray(moved), subject.space, grid)


def _kind(intent: Intent) -> Intent:
    return Intent.ABSOLUTE if intent is Intent.ABSOLUTE else Intent.RELATIVE
