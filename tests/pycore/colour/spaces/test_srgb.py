"""The sRGB curve."""

import numpy as np
import pytest

from pycore.colour.spaces.srgb import srgb_decode, srgb_encode, srgb_encode_unbounded


def test_known_values() -> None:
    # derived from IEC 61966-2-1: 0.5 decodes to ((0.5 + 0.055) / 1.055)^2.4 = 0.21404
    assert float(srgb_decode(np.array(0.5))) == pytest.approx(0.21404, abs=5e-6)
    assert float(srgb_decode(np.array(0.04045))) == pytest.approx(0.04045 / 12.92, abs=1e-6)


def test_there_and_back() -> None:
    levels = np.arange(256) / 255
    # 1e-7: the standard's two joints, 0.04045 and 0.0031308, are rounded.
    assert np.abs(srgb_encode(srgb_decode(levels)) - levels).max() < 1e-7


def test_bounds() -> None:
    assert srgb_encode(np.array([-1.0, 2.0])).tolist() == pytest.approx([0.0, 1.0])
    mirrored = srgb_encode_unbounded(np.array([-0.2, 0.2, 1.5]))
    assert mirrored[0] == -mirrored[1]
    assert mirrored[2] > 1.0
