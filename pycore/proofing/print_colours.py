"""What is done to the colours of a print file: kept, brought in, or turned into the canvas's own."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image, ImageFilter

from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.link.convert import Converter
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import FieldError
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8, U16, Values
from pycore.progress import Progress
from pycore.proofing.adjust import fitted, table
from pycore.proofing.canvas_profile import CanvasProfile
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import flat_proof_input, picture_space
from pycore.render.preview import PreviewSource
from pycore.render.screen import to_screen


@dataclass(frozen=True, kw_only=True, eq=False)
class PrintColours:
    """What a print file's colours become.

    Attributes
    ----------
    source : SourcePicture
        What is rendered: the picture, as RGB where it is to be converted.
    mode : str
        Of the file: L, RGB or CMYK.
    profile : bytes or None
        Embedded in the file.
    notes : list of Note
    """

    source: SourcePicture
    mode: str
    profile: bytes | None
    notes: list[Note]
    _bring: ImageFilter.Color3DLUT | None
    _converter: Converter | None

    def convert(self, pixels: Values, *, bits: int) -> Values:
        """Change the colours of some rows of the inked canvas.

        Parameters
        ----------
        pixels : (rows, columns, channels) uint8 or uint16
            Of `source`.
        bits : int
            8 or 16, of the file.

        Returns
        -------
        (rows, columns, channels) uint8 or uint16
            The file's.
        """
        if self._bring is not None:
            pixels = _brought_in(pixels, self._bring)
        if self._converter is None:
            return pixels
        if bits == 8:
            return self._converter.bytes(np.ascontiguousarray(pixels))
        return self._converter.words(np.ascontiguousarray(pixels))


def _brought_in(pixels: Values, table: ImageFilter.Color3DLUT) -> Values:
    if pixels.dtype == np.uint8:
        moved: U8 = np.asarray(Image.fromarray(pixels).filter(table))
        return moved
    across, down, deep = (int(one) for one in table.size)
    # Red varies fastest in Pillow's table.
    grid = np.array(table.table, np.float64).reshape(deep, down, across, 3)
    found = interpolate(grid, pixels.reshape(-1, 3)[:, ::-1] / 65535.0, method=Interpolation.TETRAHEDRAL)
    wide: U16 = np.rint(np.clip(found, 0.0, 1.0) * 65535.0).astype(np.uint16)
    return wide.reshape(pixels.shape)


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
        None where the picture's colours are kept as they are.

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
        return None
    if not converts and source.image.mode != "RGB":
        raise FieldError(
            field="colour.bring_in",
            expected="0, or an RGB picture, or print.convert = convert",
            got=f"{colour.bring_in:g} with a picture of mode {source.image.mode}",
            remedy="convert to the canvas profile, or start from an RGB picture",
        )
    yield Progress(done=0, label="Preparing the colours")
    profile = profiles.profile(colour.profile)
    bring = None
    if colour.bring_in > 0:
        # Of a group all panels at once, so that they match one another.
        proof_input, _ = yield from flat_proof_input(job, preview)
        bring = table(fitted(proof_input, profile.gamut, colour), proof_input, profile.gamut, colour)
    if not converts:
        return PrintColours(
            source=source, mode="RGB", profile=source.profile, notes=[], _bring=bring, _converter=None
        )
    rgb = _as_rgb(source)
    converter = Converter(
        picture_space(source),
        profile.gamut.profile,
        intent=colour.intent,
        black_point_compensation=colour.black_point_compensation,
    )
    return PrintColours(
        source=rgb,
        mode="RGB" if converter.channels == 3 else "CMYK",
        profile=profile.data,
        notes=_converted_notes(profile),
        _bring=bring,
        _converter=converter,
    )


def _as_rgb(source: SourcePicture) -> SourcePicture:
    """The picture itself, or as sRGB where it is grey or CMYK."""
    if source.image.mode == "RGB":
        return source
    pixels = np.asarray(source.image)
    pixels = pixels if pixels.ndim == 3 else pixels[..., np.newaxis]
    return replace(
        source, image=to_screen(pixels, source), profile=None, linear=decode_table(None), deep=None
    )


def _converted_notes(profile: CanvasProfile) -> list[Note]:
    notes = [
        Note(
            code="file-converted",
            severity=Severity.WATCH,
            place=Place.PICTURE,
            message=f"The file's colours are converted for “{profile.description}” "
            "and hold that printer's own values.",
            remedy="Switch colour conversion off in the printing program: it must not convert them again.",
            field="print.convert",
        )
    ]
    if profile.illustration:
        notes.append(
            Note(
                code="file-for-no-canvas",
                severity=Severity.STOP,
                place=Place.PICTURE,
                message="It is converted for the illustrative canvas, which is invented: "
                "no printer has these values.",
                remedy="Open the profile of your canvas on your printer, or keep the picture's colours.",
                field="colour.profile",
            )
        )
    return notes
