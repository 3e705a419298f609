"""A profile's two directions: from device values to the connection space, and back, for one intent."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.curves import Curve, read_curve
from pycore.colour.icc.elements import Affine, Curves, InverseCurves, Stage
from pycore.colour.icc.encodings import decode_stage, encode_stage, encoding_of
from pycore.colour.icc.profile import Profile, require_device
from pycore.colour.icc.tables import read_table
from pycore.colour.icc.white import read_xyz
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ
from pycore.contract.job import Intent
from pycore.errors import ProfileError
from pycore.speech import say

CHANNELS: Final = {"GRAY": 1, "RGB": 3, "CMYK": 4}

#: Which table serves which intent; the absolute one starts from the relative (ICC.1:2022, table 25).
_TABLES: Final = {Intent.PERCEPTUAL: 0, Intent.RELATIVE: 1, Intent.SATURATION: 2, Intent.ABSOLUTE: 1}


@dataclass(frozen=True, kw_only=True, slots=True)
class Direction:
    """One way through a profile.

    Attributes
    ----------
    stages : tuple of Stage
        Between device values (0 to 1) and real Lab or XYZ, relative to the media white.
    pcs : str
        "Lab" or "XYZ", whichever the stages speak.
    source : str
        Where it comes from: "A2B1", "B2A0", "matrix" or "grey curve".
    """

    stages: tuple[Stage, ...]
    pcs: str
    source: str


def to_connection(profile: Profile, *, intent: Intent) -> Direction:
    """From device values to the connection space.

    Parameters
    ----------
    profile : Profile
    intent : Intent

    Returns
    -------
    Direction

    Raises
    ------
    ProfileError
        What is needed is missing or damaged.

    References
    ----------
    ICC.1:2022, 9.1, table 25 and annex F: the intent's own table, else A2B0, else matrix or grey curve.
    """
    device = require_device(profile)
    signature = _table_tag(profile, "A2B", intent)
    if signature:
        table, kind = read_table(
            profile.tag(signature), inputs=CHANNELS[device], outputs=3, forward=True, pcs=profile.header.pcs
        )
        pcs = profile.header.pcs
        return Direction(stages=(*table, decode_stage(encoding_of(pcs, kind))), pcs=pcs, source=signature)
    if device == "GRAY":
        return _grey_to_connection(profile)
    _require_matrix(profile, "A2B0")
    return Direction(
        stages=(Curves(curves=_curves(profile)), Affine(matrix=_matrix(profile), offset=np.zeros(3))),
        pcs="XYZ",
        source="matrix",
    )


def from_connection(profile: Profile, *, intent: Intent) -> Direction:
    """From the connection space to device values.

    Parameters
    ----------
    profile : Profile
    intent : Intent

    Returns
    -------
    Direction

    Raises
    ------
    ProfileError
        What is needed is missing or damaged, or the profile has no way back to the device.

    References
    ----------
    ICC.1:2022, 9.1, table 25 and annex F: the intent's own table, else B2A0, else matrix or grey curve.
    """
    device = require_device(profile)
    signature = _table_tag(profile, "B2A", intent)
    if signature:
        table, kind = read_table(
            profile.tag(signature), inputs=3, outputs=CHANNELS[device], forward=False, pcs=profile.header.pcs
        )
        pcs = profile.header.pcs
        return Direction(stages=(encode_stage(encoding_of(pcs, kind)), *table), pcs=pcs, source=signature)
    if device == "GRAY":
        return _grey_from_connection(profile)
    _require_matrix(profile, "B2A0")
    inverse: FloatArray = np.linalg.inv(_matrix(profile)).astype(np.float64)
    return Direction(
        stages=(Affine(matrix=inverse, offset=np.zeros(3)), InverseCurves(curves=_curves(profile))),
        pcs="XYZ",
        source="matrix",
    )


def darkest_value(device: str) -> FloatArray:
    """The device value without any light: no red, green, blue or grey, or full ink.

    Parameters
    ----------
    device : str
        "GRAY", "RGB" or "CMYK".

    Returns
    -------
    (1, channels) float64

    Examples
    --------
    >>> darkest_value("RGB").tolist()
    [[0.0, 0.0, 0.0]]
    """
    return np.ones((1, 4)) if device == "CMYK" else np.zeros((1, CHANNELS[device]))


def _table_tag(profile: Profile, stem: str, intent: Intent) -> str:
    for signature in (f"{stem}{_TABLES[intent]}", f"{stem}0"):
        if signature in profile.tags:
            return signature
    return ""


def _require_matrix(profile: Profile, table: str) -> None:
    """Neither a table nor a matrix: the message names the table, which only such profiles can do without."""
    if profile.header.device != "RGB" or "rXYZ" not in profile.tags:
        way = say("from the device") if table == "A2B0" else say("to the device")
        raise ProfileError(
            field=f"tag {table}",
            expected=say("a table or matrix {way}", way=way),
            got=say("neither"),
            remedy=say("choose a profile that converts in this direction (a printer's has both)"),
        )


def _curves(profile: Profile) -> tuple[Curve, ...]:
    return tuple(read_curve(profile.tag(one))[0] for one in ("rTRC", "gTRC", "bTRC"))


def _matrix(profile: Profile) -> FloatArray:
    matrix = np.stack([read_xyz(profile, one) for one in ("rXYZ", "gXYZ", "bXYZ")], axis=1)
    if abs(float(np.linalg.det(matrix))) < 1e-6:
        raise ProfileError(
            field="tag rXYZ, gXYZ, bXYZ",
            expected=say("three primaries that are not in one plane"),
            got=", ".join(f"{value:g}" for value in matrix.T.ravel()),
            remedy=say("get a fresh copy of the profile"),
        )
    return matrix


def _grey_to_connection(profile: Profile) -> Direction:
    """ICC.1:2022, annex F.2: the curve gives the achromatic channel, times the white of the space."""
    curve, _ = read_curve(profile.tag("kTRC"))
    lab = profile.header.pcs == "Lab"
    column = np.array([[100.0], [0.0], [0.0]]) if lab else np.array(D50_XYZ)[:, None]
    return Direction(
        stages=(Curves(curves=(curve,)), Affine(matrix=column, offset=np.zeros(3))),
        pcs=profile.header.pcs,
        source=say("grey curve"),
    )


def _grey_from_connection(profile: Profile) -> Direction:
    curve, _ = read_curve(profile.tag("kTRC"))
    lab = profile.header.pcs == "Lab"
    row = np.array([[0.01, 0.0, 0.0]]) if lab else np.array([[0.0, 1.0, 0.0]])
    return Direction(
        stages=(Affine(matrix=row, offset=np.zeros(1)), InverseCurves(curves=(curve,))),
        pcs=profile.header.pcs,
        source=say("grey curve"),
    )
