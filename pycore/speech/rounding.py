"""Numbers written with a given count of decimals: a half goes away from zero, as on the page."""

from __future__ import annotations

import math
import re
from typing import Final

_FIXED: Final = re.compile(r"\.(\d+)f$")


def written(value: float, spec: str) -> str:
    """A number in Python's format, but that of two numbers equally near the one further from zero is taken.

    So JavaScript rounds too (ECMA-262, Number.prototype.toFixed): the page, the files and the command line
    say one figure of a length that lies in the middle, as a quarter of a millimetre does.

    Parameters
    ----------
    value : float
    spec : str
        Python's format.

    Returns
    -------
    str

    Examples
    --------
    >>> written(1560.25, ".1f"), format(1560.25, ".1f"), written(0.15, ".1f")
    ('1560.3', '1560.2', '0.1')
    """
    fixed = _FIXED.search(spec)
    if fixed is None or not isinstance(value, float) or not math.isfinite(value):
        return format(value, spec)
    numerator, denominator = value.as_integer_ratio()
    if 2 * (numerator * 10 ** int(fixed[1]) % denominator) == denominator:
        value = math.nextafter(value, math.copysign(math.inf, value))
    return format(value, spec)
