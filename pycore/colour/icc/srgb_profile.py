"""sRGB as a profile of our own making, for files whose values are meant as sRGB and must say so."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from pycore.colour.icc.endpoints import Standard, leave
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import curve_tag, description_tag, text_tag, xyz_tag
from pycore.colour.spaces.lab import D50_XYZ
from pycore.colour.spaces.srgb import srgb_decode
from pycore.contract.job import Intent

#: Entries of its curve. Between two of them a straight line misses the standard's by 4e-7 of full scale.
_ENTRIES: Final = 1024

_SAID: Final = {"RGB": "sRGB", "GRAY": "Grey with sRGB's curve"}
_RIGHTS: Final = "In the public domain."


@lru_cache(maxsize=2)
def srgb_profile(device: str) -> bytes:
    """Make the profile, version 2, which every program reads.

    Parameters
    ----------
    device : str
        "RGB", or "GRAY" for one channel with the same curve.

    Returns
    -------
    bytes
        Always the same.

    References
    ----------
    IEC 61966-2-1:1999 (primaries, white and curve); ICC.1:2001-04, 6.3.1.1 and 6.3.2.1 (the tags that it must
    have); ICC.1:2022, annex E (the primaries under D50).

    Examples
    --------
    >>> from pycore.colour.icc.profile import description
    >>> description(srgb_profile("RGB")), len(srgb_profile("RGB")) < 3000
    ('sRGB', True)
    """
    curve = curve_tag(srgb_decode(np.linspace(0.0, 1.0, _ENTRIES, dtype=np.float64)))
    tags = {
        "desc": description_tag(_SAID[device]),
        "cprt": text_tag(_RIGHTS),
        "wtpt": xyz_tag(D50_XYZ),
    }
    if device == "GRAY":
        tags["kTRC"] = curve
    else:
        to_xyz = leave(Standard.SRGB, Intent.RELATIVE).stages[-1]
        for name, one in zip("rgb", to_xyz(np.eye(3)), strict=True):
            tags[f"{name}XYZ"] = xyz_tag(one.tolist())
            tags[f"{name}TRC"] = curve
    return write_profile(
        version=(2, 4),
        profile_class=ProfileClass.DISPLAY,
        device=device,
        pcs="XYZ",
        made=date(2026, 1, 1),
        tags=tags,
    )
