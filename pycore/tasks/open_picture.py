"""Opening a picture, and what is kept of it from one task to the next."""

from __future__ import annotations

from collections.abc import Generator
from functools import cached_property
from typing import TYPE_CHECKING

from pycore.contract.dependencies import Result, dependence_key
from pycore.contract.job import Job
from pycore.conventions import Side
from pycore.edges.rims import picture_rims
from pycore.picture.info import PictureInfo
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.progress import Progress
from pycore.render.preview import PreviewSource
from pycore.speech import say

if TYPE_CHECKING:
    from pycore.layout.grid import PixelGrid
    from pycore.proofing.proof_input import ProofInput


class OpenPicture:
    """An opened picture with its reduced copies and the flat canvas that was last proofed.

    Parameters
    ----------
    source : SourcePicture
        As it was read.
    """

    def __init__(self, source: SourcePicture) -> None:
        self.source = source
        self._proofed: tuple[str, tuple[ProofInput, PixelGrid]] | None = None

    @cached_property
    def preview(self) -> PreviewSource:
        """The picture reduced for the screen; made when it is first needed."""
        return PreviewSource(self.source)

    @cached_property
    def rims(self) -> dict[Side, int]:
        """Thin rims of another colour at the edges of the upright picture, pixels."""
        return picture_rims(self.source.image)

    @property
    def info(self) -> PictureInfo:
        """What is known of it, notes included."""
        return self.source.info

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height, upright, before the job's turn."""
        return self.source.width_px, self.source.height_px

    def proof_input(self, job: Job) -> Generator[Progress, None, tuple[ProofInput, PixelGrid]]:
        """The picture on the job's flat canvas; kept until something that it depends on changes.

        Parameters
        ----------
        job : Job
            A checked job.

        Yields
        ------
        Progress

        Returns
        -------
        ProofInput, PixelGrid

        Raises
        ------
        FieldError, GeometryError, ProfileError
            The canvas cannot be filled, or the picture's profile cannot be used.
        """
        key = dependence_key(job, Result.TEXTURE)
        if self._proofed is None or self._proofed[0] != key:
            self._proofed = key, (yield from self.proof_input_aside(job))
        return self._proofed[1]

    def proof_input_aside(self, job: Job) -> Generator[Progress, None, tuple[ProofInput, PixelGrid]]:
        """The same for a job that is looked at beside another one, whose canvas stays the one that is kept.

        Parameters
        ----------
        job : Job
            A checked job.

        Yields
        ------
        Progress

        Returns
        -------
        ProofInput, PixelGrid

        Raises
        ------
        FieldError, GeometryError, ProfileError
            The canvas cannot be filled, or the picture's profile cannot be used.
        """
        from pycore.proofing.proof_input import flat_proof_input

        if self._proofed is not None and self._proofed[0] == dependence_key(job, Result.TEXTURE):
            return self._proofed[1]
        return (yield from flat_proof_input(job, self.preview))


def open_picture(data: bytes, *, file: str) -> Generator[Progress, None, OpenPicture]:
    """Open a picture file and reduce it for the screen.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name.

    Yields
    ------
    Progress

    Returns
    -------
    OpenPicture

    Raises
    ------
    PictureError
        The file is not a picture that can be used.
    """
    yield Progress(done=0, label=say("Reading the picture"))
    picture = OpenPicture(read_picture(data, file=file))
    yield Progress(done=0.5, label=say("Preparing the picture for the screen"))
    # Made here, so that whoever opens a picture learns of a lack of memory at once.
    _ = picture.preview
    return picture
