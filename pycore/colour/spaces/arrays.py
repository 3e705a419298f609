"""The array types of the colour core: every colour is a float64 row, every pixel an unsigned integer."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

#: Colours and coordinates while they are computed.
FloatArray = NDArray[np.float64]

#: Pixels and file bytes.
ByteArray = NDArray[np.uint8]

#: True where a condition holds.
BoolArray = NDArray[np.bool_]

#: Positions in other arrays.
IndexArray = NDArray[np.intp]
