"""The open canvas profile and what is worked out with it, kept as long as it stays true."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Standard
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.colour.link.device_link import FINE_NODES, LINK_NODES, DeviceLink, make_link
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.bring_in import BringIn
from pycore.colour.mapping.clip_report import ClipReport, clip_report
from pycore.colour.mapping.intent_comparison import CHOICES, IntentFigures, intents_in_turn
from pycore.colour.mapping.picture_colours import label_pixels
from pycore.contract.job import Colour, Intent
from pycore.errors import FieldError
from pycore.layout.grid import PixelGrid
from pycore.proofing.adjust import brought_in, fitted, shift
from pycore.proofing.canvas_profile import CanvasProfile, illustrative_canvas
from pycore.proofing.proof_input import ProofInput, inked_parts
from pycore.speech import say


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


#: The table without bringing in is the same for every picture: screen, client page and model share it.
_kept_link: Final = lru_cache(maxsize=2)(make_link)


class ProfileStore:
    """The canvas profiles that were opened, by name, and the invented one."""

    def __init__(self) -> None:
        self._profiles: dict[str, CanvasProfile] = {}
        self._fit: tuple[tuple[ProofInput, DeviceGamut, Colour], BringIn] | None = None

    def keep(self, profile: CanvasProfile) -> None:
        """Keep an opened profile; it replaces one of the same name.

        Parameters
        ----------
        profile : CanvasProfile
        """
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
                expected=say("a profile that is open"),
                got=repr(name),
                remedy=say("open that profile again, or use the illustrative one"),
            )
        return found

    def link(
        self,
        proof_input: ProofInput,
        colour: Colour,
        *,
        viewing: Viewing,
        screen: Standard,
        fine: bool = True,
    ) -> DeviceLink:
        """The table from the subject's values to the proof on the screen, with what is brought in.

        Parameters
        ----------
        proof_input : ProofInput
            As filed.
        colour : Colour
            Of the job.
        viewing : Viewing
        screen : Standard
            SRGB or DISPLAY_P3.
        fine : bool, optional
            With as many nodes as the print file's table has, where colours are brought in.

        Returns
        -------
        DeviceLink

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        gamut = self.profile(colour.profile).gamut
        if colour.bring_in == 0:
            return _kept_link(
                proof_input.space,
                gamut,
                screen,
                intent=colour.intent,
                black_point_compensation=colour.black_point_compensation,
                viewing=viewing,
            )
        moves = shift(self._fitted(proof_input, colour), proof_input.space, gamut, colour)
        return make_link(
            proof_input.space,
            gamut,
            screen,
            intent=colour.intent,
            black_point_compensation=colour.black_point_compensation,
            viewing=viewing,
            shift=moves,
            nodes=FINE_NODES if fine and moves is not None else LINK_NODES,
        )

    def brought(self, proof_input: ProofInput, colour: Colour, grid: PixelGrid) -> ProofInput:
        """Bring a picture's colours in; without bringing in, the input comes back as it is.

        Parameters
        ----------
        proof_input : ProofInput
        colour : Colour
            The job's choices.
        grid : PixelGrid
            That of one canvas.

        Returns
        -------
        ProofInput

        Raises
        ------
        FieldError
            The profile is not open.
        """
        if colour.bring_in == 0:
            return proof_input
        gamut = self.profile(colour.profile).gamut
        return brought_in(proof_input, self._fitted(proof_input, colour), gamut, colour, grid)

    def report(self, proof_input: ProofInput, colour: Colour) -> ClipReport:
        """What clips of a subject as it stands.

        Parameters
        ----------
        proof_input : ProofInput
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
            proof_input.pixels,
            proof_input.colours,
            proof_input.space,
            self.profile(colour.profile).gamut,
            intent=colour.intent,
            black_point_compensation=colour.black_point_compensation,
            threshold_de=colour.clip_threshold_de,
        )

    def _fitted(self, proof_input: ProofInput, colour: Colour) -> BringIn:
        """The bring-in fitted to a subject; the last is kept, for a proof, its figures and any strength."""
        gamut = self.profile(colour.profile).gamut
        whole = colour.model_copy(update={"bring_in": 1.0})
        key = (proof_input, gamut, whole)
        if self._fit is None or self._fit[0] != key:
            self._fit = (key, fitted(proof_input, gamut, whole))
        return replace(self._fit[1], strength=colour.bring_in)

    def clipped(self, proof_input: ProofInput, colour: Colour, grid: PixelGrid) -> Clipped:
        """What clips on the face and on each side.

        Parameters
        ----------
        proof_input : ProofInput
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
        before = after = self.report(proof_input, colour)
        if colour.bring_in > 0:
            proof_input = self.brought(proof_input, colour, grid)
            after = self.report(proof_input, colour)
        labels = label_pixels(proof_input.pixels, proof_input.colours, after.labels)
        # Only ink clips: bare canvas round the picture may share a colour with it.
        inked = np.zeros_like(labels)
        for inside in inked_parts(labels, grid):
            inked[inside] = labels[inside]
        return Clipped(report=after, before=before, labels=inked)

    def intents_in_turn(
        self,
        proof_input: ProofInput,
        colour: Colour,
        *,
        among: Sequence[tuple[Intent, bool]] = CHOICES,
    ) -> Iterator[IntentFigures]:
        """Every intent's figures on the subject as filed, one after the other.

        Parameters
        ----------
        proof_input : ProofInput
        colour : Colour
            Of the job.
        among : sequence of (Intent, bool)
            Which intents, with or without black point compensation.

        Returns
        -------
        iterator of IntentFigures

        Raises
        ------
        FieldError, ProfileError
            The profile is not open, or lacks what is needed.
        """
        gamut = self.profile(colour.profile).gamut
        return intents_in_turn(
            proof_input.colours,
            proof_input.space,
            gamut,
            threshold_de=colour.clip_threshold_de,
            among=among,
        )
