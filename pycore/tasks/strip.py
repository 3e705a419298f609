"""The proof strip: written with its values, and a measured one compared with them."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import BinaryIO

from pycore import __version__
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import OutputError
from pycore.printing.encoders import check_format, encode_file
from pycore.printing.output_notes import untagged_notes
from pycore.printing.report import FileKind
from pycore.printing.reread import ExpectedFile, reread
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import say
from pycore.strip.make import ProofStrip, make_strip
from pycore.strip.measured import check_strip
from pycore.strip.report import StripCheck, StripPatch, StripReport
from pycore.strip.values import read_values, values_text
from pycore.tasks.open_picture import OpenPicture


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenStrip:
    """A written strip.

    Attributes
    ----------
    report : StripReport
        What was found when it was opened again.
    values : bytes
        The expected values, CGATS text.
    notes : list of Note
    """

    report: StripReport
    values: bytes
    notes: list[Note]


def write_strip(
    job: Job,
    picture: OpenPicture,
    profiles: ProfileStore,
    *,
    out: BinaryIO,
    file: str,
    values_file: str,
    date: str,
) -> Generator[Progress, None, WrittenStrip]:
    """Write the proof strip of a job as a TIFF, open it again and measure it.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    out : binary file
        Empty; can be written, read and sought.
    file, values_file : str
        The names of the strip and of its values, for the report.
    date : str
        Of today, YYYY-MM-DD.

    Yields
    ------
    Progress

    Returns
    -------
    WrittenStrip

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, the profile is not open or lacks what is needed, or nobody knows the
        picture's colours.
    OutputError
        Memory is short, or what was re-read is not what was meant.
    """
    try:
        making = make_strip(job, picture.preview, profiles, date=date)
        strip = yield from part_of(making, begin=0.0, share=0.95)
    except MemoryError as short:
        raise OutputError(
            field="print.ppi",
            expected=say("lower, so that the strip fits in memory"),
            got=say("{ppi:g} pixels per inch", ppi=job.print.ppi),
            remedy=say("lower the resolution"),
        ) from short
    yield Progress(done=0.95, label=say("Saving the strip"))
    expected = _write(strip, job, out)
    found = reread(out, name=file, expected=expected)
    report = StripReport(
        **found.model_dump(),
        strip_id=strip.strip_id,
        values_file=values_file,
        patches=[
            StripPatch(id=patch_id, name=name, lab=(float(lab[0]), float(lab[1]), float(lab[2])))
            for patch_id, name, lab in zip(strip.ids, strip.names, strip.lab_d50, strict=True)
        ],
    )
    values = values_text(strip, date=date, origin=f"Tuckfold {__version__}").encode()
    untagged = untagged_notes() if strip.profile is None else []
    return WrittenStrip(report=report, values=values, notes=[*strip.notes, *untagged])


def measure_strip(*, expected: bytes, measured: bytes) -> StripCheck:
    """Compare the values that a device measured on a strip with those that the profile promised.

    Parameters
    ----------
    expected, measured : bytes
        CGATS text: as it was written beside the strip, and the device's.

    Returns
    -------
    StripCheck

    Raises
    ------
    FieldError
        One of them is damaged, for another light, or of another strip.
    """
    return check_strip(read_values(expected, name="expected"), read_values(measured, name="measured"))


def _write(strip: ProofStrip, job: Job, out: BinaryIO) -> ExpectedFile:
    height, width, channels = strip.pixels.shape
    bits = job.print.bits
    check_format(FileKind.TIFF, strip.mode, width_px=width, height_px=height, bits=bits)
    for _ in encode_file(
        [strip.pixels],
        out,
        kind=FileKind.TIFF,
        mode=strip.mode,
        shape=(height, width, channels),
        bits=bits,
        ppi=job.print.ppi,
        profile=strip.profile,
    ):
        pass
    out.flush()
    return ExpectedFile(
        kind=FileKind.TIFF,
        mode=strip.mode,
        width_px=width,
        height_px=height,
        ppi=job.print.ppi,
        profile=strip.profile,
        bits=bits,
    )
