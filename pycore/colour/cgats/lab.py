"""The L*a*b* of a table's patches, from its L*a*b* or its XYZ, for D50 and the 2 degree observer."""

from __future__ import annotations

import re
from typing import Final

import numpy as np

from pycore.colour.cgats.table import CgatsTable, cgats_fault
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import xyz_to_lab
from pycore.errors import shown
from pycore.speech import say

_LAB: Final = ("LAB_L", "LAB_A", "LAB_B")
_XYZ: Final = ("XYZ_X", "XYZ_Y", "XYZ_Z")

#: Where a text may say for which light and observer its values are.
_ABOUT: Final = (
    "WEIGHTING_FUNCTION",
    "COMPUTATIONAL_PARAMETER",
    "MEASUREMENT_SOURCE",
    "ILLUMINANT",
    "ILLUMINATION_NAME",
    "OBSERVER",
    "OBSERVER_ANGLE",
)
_LIGHT = re.compile(r"ILLUM\w*\W+(D\d\d|[AC]|F\d{1,2})\b")
_DECIMAL_COMMA = re.compile(r"[+-]?\d*,\d+")
_OBSERVER = re.compile(r"OBSERVER\w*\W+(\d+)\b")

#: What no patch of ink on canvas has; room is left for errors of measurement.
_LOWEST: Final = np.array([-5.0, -200.0, -200.0])
_HIGHEST: Final = np.array([120.0, 200.0, 200.0])


def patch_lab(table: CgatsTable, *, name: str) -> FloatArray:
    """Find the L*a*b* of every patch of a table.

    Parameters
    ----------
    table : CgatsTable
    name : str
        What the text is called in a message.

    Returns
    -------
    (n, 3) float64
        Lab for D50, as it is (not relative to the canvas's white).

    Raises
    ------
    FieldError
        It has neither L*a*b* nor XYZ, is for another light or observer, or a value is no number that a patch
        can have.

    References
    ----------
    ISO 13655:2017: D50, the 2 degree observer; XYZ of the perfect diffuser has Y 100.

    Examples
    --------
    >>> table = CgatsTable(fields=("SAMPLE_ID", "XYZ_X", "XYZ_Y", "XYZ_Z"),
    ...                    rows=(("A1", "96.42", "100.0", "82.49"),))
    >>> abs(patch_lab(table, name="measured").round(6)).tolist()
    [[100.0, 0.0, 0.0]]
    """
    _check_light(table, name)
    if all(one in table.fields for one in _LAB):
        lab = _numbers(table, _LAB, name)
    elif all(one in table.fields for one in _XYZ):
        lab = xyz_to_lab(_numbers(table, _XYZ, name) / 100.0)
    else:
        missing = [one for one in _LAB if one not in table.fields]
        raise cgats_fault(
            name,
            say(
                "The CGATS text has neither L*a*b* (LAB_L, LAB_A, LAB_B) nor XYZ (XYZ_X, XYZ_Y, "
                "XYZ_Z); {missing0} is missing.",
                missing0=missing[0],
            ),
            say("export L*a*b* for D50 from the measuring program"),
        )
    for row, (one, patch) in enumerate(zip(lab, table.rows, strict=True), start=1):
        if np.any(one < _LOWEST) or np.any(one > _HIGHEST):
            found = ", ".join(f"{value:.6g}" for value in one)
            raise cgats_fault(
                name,
                say(
                    "Row {row} of the data ({patch0}) is L*a*b* {found}, which no print can have.",
                    row=row,
                    patch0=shown(patch[0], limit=20),
                    found=found,
                ),
                say("export L*a*b*, or XYZ in which white has Y 100"),
            )
    return lab


def _numbers(table: CgatsTable, fields: tuple[str, str, str], name: str) -> FloatArray:
    values = np.empty((len(table.rows), 3))
    for place, field in enumerate(fields):
        for row, text in enumerate(table.column(field)):
            values[row, place] = _number(text, field, row + 1, name)
    return values


def _number(text: str, field: str, row: int, name: str) -> float:
    # Programs of countries with a decimal comma write one here too; values have no thousands to part.
    plain = text.replace(",", ".") if _DECIMAL_COMMA.fullmatch(text) else text
    try:
        # Python reads 1_000 and many scripts' digits too, which are no numbers in such a text.
        value = float(plain) if re.fullmatch(r"[0-9.eE+-]+", plain) else float("nan")
    except ValueError:
        value = float("nan")
    if not np.isfinite(value) or abs(value) > 1e6:
        raise cgats_fault(
            name,
            say(
                "{field} in row {row} of the data is {words}, which is no number.",
                field=field,
                row=row,
                words=shown(text, limit=20),
            ),
            say("measure that patch again"),
        )
    return value


def _check_light(table: CgatsTable, name: str) -> None:
    for keyword in _ABOUT:
        for value in table.keywords.get(keyword, ()):
            said = f"{keyword} {value}".upper()
            light, observer = _LIGHT.search(said), _OBSERVER.search(said)
            what = ""
            if light and light[1] != "D50":
                what = say("the illuminant {light1}", light1=light[1])
            elif observer and observer[1] != "2":
                what = say("the {observer1} degree observer", observer1=observer[1])
            if what:
                raise cgats_fault(
                    name,
                    say(
                        "The values are for {what}; the profile's are for D50 and the 2 degree observer.",
                        what=what,
                    ),
                    say("export them for D50 and 2 degrees"),
                )
