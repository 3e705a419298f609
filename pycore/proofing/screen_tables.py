"""The tables that turn the flat canvas's values into what the screen shows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.axes import Axis, nodes_of
from pycore.colour.link.device_link import DeviceLink, half_texture
from pycore.colour.link.viewing import Screen, Viewing
from pycore.contract.job import Colour, Intent
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ScreenTables:
    """What the screen needs to go from view to view without another question.

    Attributes
    ----------
    printed : DeviceLink
        The proof on the screen, and by how much each colour clips.
    filed : (nodes, nodes, nodes, 4) uint16 or None
        The bits of half floats, blue slowest, at the same nodes: the picture's own colours on the screen;
        None where its values are the screen's.
    """

    printed: DeviceLink
    filed: NDArray[np.uint16] | None


def screen_tables(
    proof_input: ProofInput,
    colour: Colour,
    profiles: ProfileStore,
    *,
    viewing: Viewing,
    screen: Screen,
    is_srgb: bool,
    fine: bool,
) -> ScreenTables:
    """Make the tables of a flat canvas.

    Parameters
    ----------
    proof_input : ProofInput
        As filed.
    colour : Colour
        Of the job.
    profiles : ProfileStore
    viewing : Viewing
    screen : Screen
    is_srgb : bool
        The canvas's values are sRGB.
    fine : bool
        With as many nodes as the print file's table has, where colours are brought in.

    Returns
    -------
    ScreenTables

    Raises
    ------
    FieldError, ProfileError
        The profile is not open, or lacks what is needed.
    """
    is_wide = screen is Screen.DISPLAY_P3
    link = profiles.link(
        proof_input,
        colour,
        viewing=viewing,
        screen=Standard.DISPLAY_P3 if is_wide else Standard.SRGB,
        fine=fine,
    )
    needs_own = is_wide or not is_srgb
    filed = _filed_table(proof_input.space, link.axes, is_wide=is_wide) if needs_own else None
    return ScreenTables(printed=link, filed=filed)


def _filed_table(space: Endpoint, axes: tuple[Axis, ...], *, is_wide: bool) -> NDArray[np.uint16]:
    to_screen = make_transform(
        space,
        Standard.DISPLAY_P3_UNBOUNDED if is_wide else Standard.SRGB_UNBOUNDED,
        intent=Intent.RELATIVE,
        black_point_compensation=True,
    )
    encoded = nodes_of(axes)
    table = np.zeros((len(encoded), 4))
    table[:, :3] = to_screen(encoded)
    return half_texture(table.reshape(*(len(axis.encoded) for axis in axes), 4))
