"""The print file of a job, of a group one for each panel: written, opened again and measured."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass
from pathlib import Path

from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note
from pycore.layout.group import panel_of, panel_words
from pycore.layout.printable import panel_areas
from pycore.printing.report import FileKind, FileReport
from pycore.printing.write import PrintRun
from pycore.progress import Progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.tasks.open_picture import OpenPicture


@dataclass(frozen=True, kw_only=True, slots=True)
class PrintedFile:
    """A written print file.

    Attributes
    ----------
    panel : int
        Which of the panels, from 1.
    report : FileReport
        What was found when it was opened again.
    notes : list of Note
        About this file.
    """

    panel: int
    report: FileReport
    notes: list[Note]


def print_files(
    job: Job,
    picture: OpenPicture,
    profiles: ProfileStore,
    *,
    kind: FileKind,
    date: str,
    places: Mapping[int, Path],
) -> Generator[Progress, None, list[PrintedFile]]:
    """Write the print files of some panels, each with the colours that the whole group gets.

    Their marks are drawn for the places at which the plan of the group lays the canvases.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    kind : FileKind
    date : str
        Of today, YYYY-MM-DD, for the text among the marks; the core has no clock of its own.
    places : mapping from int to Path
        Where the file of each panel goes, by the panel's number from 1.

    Yields
    ------
    Progress

    Returns
    -------
    list of PrintedFile
        In the order of the places.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The job cannot be rendered or converted, has no such panel, or asks for more than the format holds.
    OutputError
        A file cannot be written, memory is short, or what was re-read is not what was meant.
    """
    width_px, height_px = picture.size_px
    panels = {number: panel_of(job, number, width_px=width_px, height_px=height_px) for number in places}
    colours = None
    is_changed = job.print.convert is Convert.CONVERT or job.colour.bring_in > 0
    if is_changed or _may_be_converted(picture.source.profile):
        # Few jobs change colours, or have a picture that is converted already, and only they load what does.
        from pycore.proofing.print_colours import print_colours

        colours = yield from print_colours(job, profiles, picture.preview)
    areas = panel_areas(job)
    written = []
    for place, (number, out) in enumerate(places.items()):
        run = PrintRun(
            picture.source,
            panels[number],
            kind=kind,
            out=out,
            date=date,
            colours=colours,
            printable=areas[number - 1],
            panel=panel_words(number, job.group.panels),
        )
        yield from part_of(run.steps(), begin=place / len(places), share=1 / len(places))
        written.append(PrintedFile(panel=number, report=run.report, notes=run.notes))
    return written


def _may_be_converted(profile: bytes | None) -> bool:
    """Whether a picture's values are a printer's own (ICC.1:2022, 7.2.5), which may be the canvas's."""
    return profile is not None and profile[12:16] == b"prtr"
