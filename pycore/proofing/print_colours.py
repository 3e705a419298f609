"""What is done to the colours of a print file: kept, brought in, or turned into the canvas's own."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.same_profile import is_same_profile
from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.link.convert import Converter
from pycore.colour.link.dither import codes_of, words_to_bytes
from pycore.colour.mapping.bring_in import BringIn
from pycore.colour.mapping.bring_pixels import PixelBringer
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import FieldError
from pycore.picture.deep_tones import widened
from pycore.picture.source import DeepPicture, SourcePicture
from pycore.picture.tones import U16
from pycore.progress import Progress
from pycore.proofing.adjust import fitted, pixel_bringer, shift
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import flat_proof_input
from pycore.render.preview import PreviewSource
from pycore.render.screen import to_screen
from pycore.speech import say


@dataclass(frozen=True, kw_only=True, eq=False)
class PrintColours:
    """What a print file's colours become.

    Attributes
    ----------
    source : SourcePicture
        What is rendered: the picture; CMYK without a profile as RGB, since its inks are unknown.
    mode : str
        Of the file: L, RGB or CMYK.
    profile : bytes or None
        Embedded in the file.
    notes : list of Note
    printer_values : bool
        The file is for the canvas profile alone, which is then the one embedded.
    """

    source: SourcePicture
    mode: str
    profile: bytes | None
    notes: list[Note]
    printer_values: bool
    _bring: PixelBringer | None
    _converter: Converter | None

    @property
    def changes(self) -> bool:
        """Whether any colour becomes another one."""
        return self._bring is not None or self._converter is not None

    @property
    def rendered_bits(self) -> int:
        """How deep the canvas is rendered for a file of 8 bits: 16 where they are dithered to 8."""
        return 16 if self.changes and self.source.deep is not None else 8

    def convert(self, pixels: NDArray[Any], *, bits: int, row: int, column: int) -> NDArray[Any]:
        """Turn inked pixels of `source` into the file's.

        Parameters
        ----------
        pixels : (rows, columns, channels of `source`) uint8, uint16 or float32
            float32 is 0 to 1.
        bits : int
            Of the file: 8 or 16.
        row, column : int
            Where on the canvas the first pixel lies. Pixels of more than 8 bits are dithered to 8 by a
            pattern that depends on the place alone, so strips of any size join without a seam.

        Returns
        -------
        (rows, columns, channels of the file) uint8 or uint16
        """
        if self._converter is not None:
            if bits == 8:
                return self._converter.to_bytes(pixels, row=row, column=column)
            return self._converter.to_words(pixels)
        codes = codes_of(pixels) if self._bring is None else self._bring(pixels)
        if bits == 8 and codes.dtype != np.uint8:
            return words_to_bytes(codes, row=row, column=column)
        if bits == 16 and codes.dtype == np.uint8:
            return widened(codes)
        return codes


def print_colours(
    job: Job, profiles: ProfileStore, preview: PreviewSource
) -> Generator[Progress, None, PrintColours | None]:
    """Find out what a job does to the colours of its print file.

    Parameters
    ----------
    job : Job
    profiles : ProfileStore
        Holds the canvas profiles.
    preview : PreviewSource
        The open picture.

    Yields
    ------
    Progress

    Returns
    -------
    PrintColours or None
        None where the picture's colours are kept as they are and nothing is to be said of them.

    Raises
    ------
    FieldError
        The profile is not open, or a grey or CMYK picture is to be brought in without being converted.
    ProfileError
        A profile lacks what is needed.
    """
    source, colour = preview.source, job.colour
    converts = job.print.convert is Convert.CONVERT
    if not converts and colour.bring_in == 0:
        notes = _kept_notes(source, colour.profile, profiles)
        return _kept(source, notes) if notes else None
    yield Progress(done=0, label=say("Preparing the colours"))
    profile = profiles.profile(colour.profile)
    own = None if source.profile is None else parse_profile(source.profile)
    if own is not None and is_same_profile(own, profile.gamut.profile):
        notes = [_already_converted(profile)]
        notes += _no_canvas_notes(profile) if converts else [_not_brought_in(profile)]
        return replace(_kept(source, notes), printer_values=converts)
    if not converts and source.image.mode != "RGB":
        raise FieldError(
            field="colour.bring_in",
            expected=say("0 for a picture that is not RGB, unless print.convert is convert"),
            got=say(
                "{bring_in:g} with a picture of mode {mode}", bring_in=colour.bring_in, mode=source.image.mode
            ),
            remedy=say("convert to the canvas profile, or start from an RGB picture"),
        )
    bring_in: BringIn | None = None
    if colour.bring_in > 0:
        # Of a group all panels at once, so that they match one another.
        proof_input, _ = yield from flat_proof_input(job, preview)
        bring_in = fitted(proof_input, profile.gamut, colour)
        if not converts:
            bring = pixel_bringer(bring_in, proof_input, profile.gamut, colour)
            return replace(_kept(source, []), _bring=bring)
    rendered, space = _rendered(source)
    converter = Converter(
        space,
        profile.gamut.profile,
        intent=colour.intent,
        black_point_compensation=colour.black_point_compensation,
        shift=None if bring_in is None else shift(bring_in, space, profile.gamut, colour),
    )
    return PrintColours(
        source=rendered,
        mode="RGB" if converter.channels == 3 else "CMYK",
        profile=profile.data,
        notes=_converted_notes(profile),
        printer_values=True,
        _bring=None,
        _converter=converter,
    )


def _kept(source: SourcePicture, notes: list[Note]) -> PrintColours:
    """The picture's values and profile as they are."""
    return PrintColours(
        source=source,
        mode=source.image.mode,
        profile=source.file_profile,
        notes=notes,
        printer_values=False,
        _bring=None,
        _converter=None,
    )


def _rendered(source: SourcePicture) -> tuple[SourcePicture, Endpoint]:
    """What is rendered and in which space it is: the picture in its own, or in sRGB where it names none."""
    if source.profile is not None:
        return source, parse_profile(source.profile)
    if source.image.mode == "RGB":
        return source, Standard.SRGB
    # Grey is light of sRGB's curve; of inks that are not named a plain formula makes RGB.
    pixels = np.asarray(source.image)
    pixels = pixels if pixels.ndim == 3 else pixels[..., np.newaxis]
    rendered = replace(
        source,
        image=to_screen(pixels, source),
        profile=None,
        linear=decode_table(None),
        deep=None if source.deep is None else _DeepRgb(source.deep),
    )
    return rendered, Standard.SRGB


@dataclass(frozen=True)
class _DeepRgb:
    """16 bits of grey or of inks that no profile names, as sRGB by the same rules as the 8 of the screen."""

    deep: DeepPicture

    def read(self) -> U16:
        values = self.deep.read()
        if values.shape[2] == 1:
            return np.repeat(values, 3, axis=2)
        # What cyan, magenta or yellow leaves of what black leaves.
        left = ~values.astype(np.uint16)
        black = left[..., 3].astype(np.uint32)
        rgb = np.empty((*values.shape[:2], 3), np.uint16)
        for channel in range(3):
            rgb[..., channel] = (left[..., channel] * black + np.uint32(32767)) // np.uint32(65535)
        return rgb


def _kept_notes(source: SourcePicture, name: str, profiles: ProfileStore) -> list[Note]:
    """What is said of colours that are kept as they are: whether they are the canvas's own values already."""
    own = None if source.profile is None else parse_profile(source.profile)
    if own is None or own.header.profile_class is not ProfileClass.OUTPUT:
        return []
    try:
        profile = profiles.profile(name)
    except FieldError:
        # The file needs no canvas profile.
        return []
    return [_already_converted(profile)] if is_same_profile(own, profile.gamut.profile) else []


def _already_converted(profile: CanvasProfile) -> Note:
    message = say(
        "The picture is in “{description}” already; the file keeps its values as they are.",
        description=profile.description,
    )
    return _printer_note("already-converted", message)


def _not_brought_in(profile: CanvasProfile) -> Note:
    return Note(
        code="nothing-to-bring-in",
        severity=Severity.HINT,
        place=Place.PICTURE,
        message=say(
            "The picture is in “{description}” already: its colours lie inside the gamut. None "
            "is brought in.",
            description=profile.description,
        ),
        remedy=say("Nothing is to be done."),
        field="colour.bring_in",
    )


def _converted_notes(profile: CanvasProfile) -> list[Note]:
    message = say(
        "The file's colours are converted for “{description}” and hold that printer's own values.",
        description=profile.description,
    )
    # An invented printer has no values of its own: nobody prints that file.
    return _no_canvas_notes(profile) or [_printer_note("file-converted", message)]


def _printer_note(code: str, message: str) -> Note:
    """What is said of a file that holds a printer's own values."""
    return Note(
        code=code,
        severity=Severity.WATCH,
        place=Place.PICTURE,
        message=message,
        remedy=say("Switch colour conversion off in the printing program: it must not convert them again."),
        field="print.convert",
    )


def _no_canvas_notes(profile: CanvasProfile) -> list[Note]:
    if not profile.illustration:
        return []
    return [
        Note(
            code="file-for-no-canvas",
            severity=Severity.STOP,
            place=Place.PICTURE,
            message=say(
                "The file is converted for the illustrative canvas, which is invented: no printer "
                "has these values."
            ),
            remedy=say("Open the profile of your canvas on your printer, or keep the picture's colours."),
            field="colour.profile",
        )
    ]
