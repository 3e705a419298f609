"""The part of a canvas that printing changes most, through each rendering intent."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.proof import proof_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.picture_colours import BINS, bins_of
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Colour, Intent
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput
from pycore.render.box_sums import box_sums

#: The picture's size.
WIDTH_PX: Final = 168
HEIGHT_PX: Final = 140

#: How much of the face's shorter side the part is high.
_SHARE: Final = 0.4

#: The face is searched on about so many pixels along its longer side.
_SEARCHED_PX: Final = 160


def part_changed_most(proof_input: ProofInput, grid: PixelGrid, colour: Colour, profiles: ProfileStore) -> U8:
    """Find the part of the face that printing changes most, as few pixels.

    Parameters
    ----------
    proof_input : ProofInput
        As filed.
    grid : PixelGrid
        Of one canvas; of a group the part is the first panel's.
    colour : Colour
        Of the job; its intent does not count.
    profiles : ProfileStore

    Returns
    -------
    (HEIGHT_PX, WIDTH_PX, 3) uint8
        Values of the input's space.

    Raises
    ------
    FieldError, ProfileError
        The profile is not open, or lacks what is needed.
    """
    face = proof_input.pixels[grid.rows[2] : grid.rows[3], grid.columns[2] : grid.columns[3]]
    left, top, right, bottom = changed_most(face, _change(proof_input, colour, profiles))
    part = Image.fromarray(np.ascontiguousarray(face[top:bottom, left:right]))
    small: U8 = np.asarray(part.resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.BICUBIC))
    return small


def intent_pictures(
    part: U8, space: Endpoint, colour: Colour, profiles: ProfileStore, *, viewing: Viewing
) -> Iterator[tuple[Intent, U8]]:
    """Show a part of a picture through each intent, one after the other.

    Parameters
    ----------
    part : (rows, columns, 3) uint8
    space : Profile or Standard
        Whose values they are.
    colour : Colour
        Of the job; its intent does not count.
    profiles : ProfileStore
    viewing : Viewing
        What of the canvas the screen shows.

    Yields
    ------
    Intent, (rows, columns, 4) uint8
        srgb_encoded, alpha 255.

    Raises
    ------
    FieldError, ProfileError
        The profile is not open, or lacks what is needed.
    """
    gamut = profiles.profile(colour.profile).gamut
    # A photograph repeats its colours; each is worked out once.
    codes = part.reshape(-1, 3).astype(np.int32) @ np.array([65536, 256, 1], np.int32)
    met, where = np.unique(codes, return_inverse=True)
    rgb_encoded = np.stack([met >> 16, met >> 8 & 255, met & 255], axis=1) / 255.0
    for intent in Intent:
        proof = proof_transform(
            space,
            gamut,
            Standard.SRGB,
            intent=intent,
            black_point_compensation=colour.black_point_compensation and intent is not Intent.ABSOLUTE,
            viewing=viewing,
        )
        shown = np.full((*part.shape[:2], 4), 255, np.uint8)
        seen = np.rint(np.clip(proof(rgb_encoded), 0.0, 1.0) * 255).astype(np.uint8)
        shown[..., :3] = seen[where.ravel()].reshape(part.shape)
        yield intent, shown


def _change(proof_input: ProofInput, colour: Colour, profiles: ProfileStore) -> NDArray[np.float32]:
    """By how much the relative intent changes each colour that was met: CIEDE2000 for every bin's code."""
    colours, gamut = proof_input.colours, profiles.profile(colour.profile).gamut
    filed = make_transform(
        proof_input.space, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )(colours.rgb_encoded)
    printed = proof_transform(
        proof_input.space,
        gamut,
        Standard.LAB,
        intent=Intent.RELATIVE,
        black_point_compensation=colour.black_point_compensation,
        viewing=Viewing.BLACK,
    )(colours.rgb_encoded)
    table = np.zeros(BINS, np.float32)
    table[colours.bins] = delta_e_2000(filed, printed)
    return table


def changed_most(face: U8, change: NDArray[np.float32]) -> tuple[int, int, int, int]:
    """Find the part of a face, of the picture's shape, whose colours change most on the whole.

    Parameters
    ----------
    face : (rows, columns, 3) uint8
    change : (BINS,) float32
        For every code of `bins_of`.

    Returns
    -------
    (left, top, right, bottom) : tuple of int
        Pixels, right and bottom excluded.

    Examples
    --------
    >>> face = np.zeros((100, 200, 3), np.uint8)
    >>> face[60:, 150:] = 255
    >>> change = np.zeros(BINS, np.float32)
    >>> change[-1] = 10
    >>> changed_most(face, change)
    (150, 60, 198, 100)
    """
    rows, columns = face.shape[:2]
    high = max(1.0, _SHARE * min(rows, columns))
    wide = min(high * WIDTH_PX / HEIGHT_PX, float(columns))
    step = max(1, max(rows, columns) // _SEARCHED_PX)
    coarse = change[bins_of(face[::step, ::step])].astype(np.float64)
    windows = box_sums(coarse, max(1, int(high / step)), max(1, int(wide / step)))
    top, left = np.unravel_index(int(windows.argmax()), windows.shape)
    return (
        int(left) * step,
        int(top) * step,
        min(columns, int(left) * step + round(wide)),
        min(rows, int(top) * step + round(high)),
    )
