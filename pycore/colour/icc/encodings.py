"""How colours of the connection space stand in a profile's tables, as fractions of full scale."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.icc.elements import Affine
from pycore.colour.spaces.arrays import FloatArray

#: A u1Fixed15Number at full scale: 1 + 32767/32768. Published: ICC.1:2022, 6.3.4.2.
XYZ_FULL: Final = 1.0 + 32767.0 / 32768.0

#: In the 16-bit encoding of version 2, L* 100 is 0xFF00, and a* counts 256 steps from -128.
#: Published: ICC.1:2022, 10.10, table 42 (legacy 16-bit PCSLAB encoding), which `mft2` keeps in version 4.
_LEGACY: Final = 65535.0 / 65280.0

_SCALES: Final[dict[str, tuple[FloatArray, FloatArray]]] = {
    # ICC.1:2022, tables 12 and 13: L* = 100 x; a* = 255 x - 128, in 8 and in 16 bits alike.
    "Lab": (np.array([100.0, 255.0, 255.0]), np.array([0.0, -128.0, -128.0])),
    "Lab legacy": (np.array([100.0, 255.0, 255.0]) * _LEGACY, np.array([0.0, -128.0, -128.0])),
    "XYZ": (np.full(3, XYZ_FULL), np.zeros(3)),
}


def decode_stage(encoding: str) -> Affine:
    """The stage from fractions of full scale to Lab, or to XYZ with Y of the white 1.

    Parameters
    ----------
    encoding : str
        "Lab", "Lab legacy" or "XYZ".

    Returns
    -------
    Affine

    Examples
    --------
    >>> decode_stage("Lab legacy")(np.array([[0xFF00, 0x8000, 0x8000]]) / 65535).round(9).tolist()
    [[100.0, 0.0, 0.0]]
    """
    scale, offset = _SCALES[encoding]
    return Affine(matrix=np.diag(scale), offset=offset)


def encode_stage(encoding: str) -> Affine:
    """The stage from Lab or XYZ to fractions of full scale; nothing is clipped to 0 to 1 yet.

    Parameters
    ----------
    encoding : str
        "Lab", "Lab legacy" or "XYZ".

    Returns
    -------
    Affine
    """
    scale, offset = _SCALES[encoding]
    return Affine(matrix=np.diag(1.0 / scale), offset=-offset / scale)


def encoding_of(pcs: str, tag_type: str) -> str:
    """Which encoding the tables of a tag type use.

    Parameters
    ----------
    pcs : str
        "Lab" or "XYZ".
    tag_type : str
        "mft1", "mft2", "mAB " or "mBA ".

    Returns
    -------
    str
    """
    return "Lab legacy" if pcs == "Lab" and tag_type == "mft2" else pcs
