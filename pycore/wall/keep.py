"""The copy of a photograph that is kept: not larger than a screen can use, without any metadata."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import PurePath
from typing import Final

from pycore.wall.photograph import WallPhoto, is_stripped, open_photograph, stripped_copy

#: Pixels of its longer side.
KEPT_PX: Final = 4000


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class KeptPhoto:
    """A photograph as it is kept.

    Attributes
    ----------
    photo : WallPhoto
        The copy, opened; places are in pixels of the copy.
    data : bytes
        The copy's bytes, a JPEG in sRGB without metadata.
    was_px : (int, int)
        Width and height of the upright photograph that it is a copy of.
    """

    photo: WallPhoto
    data: bytes
    was_px: tuple[int, int]


def keep_photograph(data: bytes, *, file: str, focal_px: float | None = None) -> KeptPhoto:
    """Open a photograph and make the copy that is kept, or take a kept copy up again.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name.
    focal_px : float, optional
        In pixels of a kept copy, which tells it no more itself.

    Returns
    -------
    KeptPhoto

    Raises
    ------
    PictureError
        It is no JPEG, PNG, TIFF or WebP picture, is damaged or too large.
    """
    photo = open_photograph(data, file=file)
    if is_stripped(data, longest_px=KEPT_PX):
        taken = photo if focal_px is None else replace(photo, focal_px=focal_px)
        return KeptPhoto(photo=taken, data=data, was_px=photo.size_px)
    copy = stripped_copy(photo, longest_px=KEPT_PX)
    kept = open_photograph(copy, file=f"{PurePath(file).stem}.jpg")
    share = kept.size_px[0] / photo.size_px[0]
    filed = None if photo.focal_px is None else photo.focal_px * share
    return KeptPhoto(photo=replace(kept, focal_px=filed), data=copy, was_px=photo.size_px)
