"""What the profile promises for the values in a strip's file: their L*a*b* on the canvas."""

from __future__ import annotations

import numpy as np

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.profile import Profile, parse_profile
from pycore.colour.icc.same_profile import is_same_profile
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Colour, Intent
from pycore.errors import FieldError
from pycore.picture.tones import Values
from pycore.speech import say


def promised_lab(
    values: Values, *, profile: bytes | None, mode: str, canvas: Profile, colour: Colour, printer_values: bool
) -> FloatArray:
    """Find the colours that values of the file have in print.

    A file with the printer's own values goes through the profile alone. Any other is converted once by the
    printing program, with the job's intent, as the printing steps say.

    Parameters
    ----------
    values : (n, channels) uint8 or uint16
        As they stand in the file.
    profile : bytes or None
        The file's own.
    mode : str
        Of the file: L, RGB or CMYK.
    canvas : Profile
        The canvas's.
    colour : Colour
        Of the job.
    printer_values : bool
        The file holds the printer's own values.

    Returns
    -------
    (n, 3) float64
        Lab for D50, absolute: of bare canvas it is the canvas's white.

    Raises
    ------
    FieldError
        The file is CMYK without a profile, whose colours nobody knows.
    ProfileError
        A profile lacks what is needed.

    References
    ----------
    ICC.1:2022, 6.3.2 (absolute colorimetry); ISO 13655 for the light, D50.
    """
    device: FloatArray = values / float(np.iinfo(values.dtype).max)
    to_lab = make_transform(canvas, Standard.LAB, intent=Intent.ABSOLUTE, black_point_compensation=False)
    if printer_values:
        return to_lab(device)
    source: Endpoint = Standard.SRGB
    if profile is not None:
        source = parse_profile(profile)
        if is_same_profile(source, canvas):
            return to_lab(device)
    elif mode == "CMYK":
        raise FieldError(
            field="print.convert",
            expected=say("convert for a CMYK picture without a profile"),
            got=say("keep"),
            remedy=say("convert to the canvas profile, or use a picture with its profile"),
            said=say(
                "The picture is CMYK without a profile, so nobody knows which colours a strip of it has."
            ),
        )
    elif mode == "L":
        device = np.repeat(device, 3, axis=1)
    to_canvas = make_transform(
        source,
        canvas,
        intent=colour.intent,
        black_point_compensation=colour.black_point_compensation,
    )
    return to_lab(to_canvas(device))
