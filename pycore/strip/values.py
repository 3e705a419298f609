"""A strip's values beside its file: the L*a*b* that the profile promises, as CGATS text, and read again."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.cgats.lab import patch_lab
from pycore.colour.cgats.read import read_cgats
from pycore.colour.cgats.table import CgatsTable, cgats_fault
from pycore.colour.cgats.write import write_cgats
from pycore.colour.spaces.arrays import FloatArray
from pycore.speech import say
from pycore.strip.make import ProofStrip

STRIP_ID: Final = "STRIP_ID"

#: Of device values in the text: percent for ink, 0 to 255 for light, as ISO 28178 has them.
_DEVICE: Final = {
    "L": ("GRAY", ("GRAY",), 100.0),
    "RGB": ("RGB", ("RGB_R", "RGB_G", "RGB_B"), 255.0),
    "CMYK": ("CMYK", ("CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"), 100.0),
}


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class StripValues:
    """What a strip's own text holds.

    Attributes
    ----------
    strip_id : str
        Empty where the text names none.
    ids, names : list of str
    lab_d50 : (patches, 3) float64
    """

    strip_id: str
    ids: list[str]
    names: list[str]
    lab_d50: FloatArray


def values_text(strip: ProofStrip, *, date: str, origin: str) -> str:
    """Write a strip's values as CGATS text.

    Parameters
    ----------
    strip : ProofStrip
    date : str
        Of today, YYYY-MM-DD.
    origin : str
        What made it.

    Returns
    -------
    str
    """
    _, fields, full = _DEVICE[strip.mode]
    device = strip.values * (full / np.iinfo(strip.values.dtype).max)
    rows = tuple(
        (patch_id, name, *(f"{one:.3f}" for one in values), *(f"{one:.3f}" for one in lab))
        for patch_id, name, values, lab in zip(strip.ids, strip.names, device, strip.lab_d50, strict=True)
    )
    return write_cgats(
        CgatsTable(
            keywords={
                "ORIGINATOR": (origin,),
                "DESCRIPTOR": ("Expected values of a proof strip",),
                "CREATED": (date,),
                "PRINT_CONDITIONS": (strip.conditions,),
                "WEIGHTING_FUNCTION": ("ILLUMINANT, D50", "OBSERVER, 2 degree"),
                STRIP_ID: (strip.strip_id,),
            },
            fields=("SAMPLE_ID", "SAMPLE_NAME", *fields, "LAB_L", "LAB_A", "LAB_B"),
            rows=rows,
        )
    )


def read_values(data: bytes, *, name: str) -> StripValues:
    """Read the values of a strip, as they were written or as a device has measured them.

    Parameters
    ----------
    data : bytes
        CGATS text.
    name : str
        What the text is called in a message.

    Returns
    -------
    StripValues

    Raises
    ------
    FieldError
        It is no CGATS text with SAMPLE_ID and with L*a*b* or XYZ for D50, or a patch stands in it twice.
    """
    table = read_cgats(data, name=name)
    if "SAMPLE_ID" not in table.fields:
        raise cgats_fault(
            name,
            say("The CGATS text has no field SAMPLE_ID, which says which patch is which."),
            say("export the patches with their names"),
        )
    ids = table.column("SAMPLE_ID")
    twice = next((one for one, count in Counter(ids).items() if count > 1), None)
    if twice is not None:
        raise cgats_fault(
            name,
            say("The patch {twice:s} stands in the CGATS text twice.", twice=twice[:20]),
            say("keep one measurement of each"),
        )
    return StripValues(
        strip_id=table.keywords.get(STRIP_ID, ("",))[0],
        ids=ids,
        names=table.column("SAMPLE_NAME") if "SAMPLE_NAME" in table.fields else ids,
        lab_d50=patch_lab(table, name=name),
    )
