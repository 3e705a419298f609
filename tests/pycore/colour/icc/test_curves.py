"""Curves: each function of the standard, sampled ones, and their inverses."""

import struct

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.icc.block import Block
from pycore.colour.icc.curves import SampledCurve, read_curve
from pycore.colour.spaces.power_curve import PowerCurve
from pycore.errors import ProfileError

from ..make_profiles import curve_tag, parametric_tag


def read(data: bytes) -> tuple[PowerCurve | SampledCurve, int]:
    return read_curve(Block(name="tag rTRC", data=memoryview(data)))


@pytest.mark.parametrize(
    ("parameters", "value", "expected"),
    [
        # derived by hand from ICC.1:2022, table 68
        ([2.0], 0.5, 0.25),
        ([2.0, 0.5, 0.25], 0.5, 0.25),  # (0.25 + 0.25)^2
        ([2.0, 1.0, -0.5], 0.25, 0.0),  # below -b / a
        ([2.0, 2.0, -0.5], 0.5, 0.25),  # (1 - 0.5)^2, above 0.5 / 2
        ([2.0, 2.0, -0.5, 0.125], 0.5, 0.375),
        ([2.0, 0.5, 0.25, 0.125], 0.5, 0.375),  # 0.25 + 0.125
        ([2.0, 1.0, -0.5, 0.125], 0.25, 0.125),
        ([2.0, 0.5, 0.25, 0.5, 0.25], 0.5, 0.25),
        ([2.0, 0.5, 0.25, 0.5, 0.25], 0.125, 0.0625),  # 0.5 x 0.125
        ([2.0, 0.5, 0.25, 0.5, 0.25, 0.125, 0.0625], 0.5, 0.375),
        ([2.0, 0.5, 0.25, 0.5, 0.25, 0.125, 0.0625], 0.125, 0.125),
    ],
)
def test_parametric_functions(parameters: list[float], value: float, expected: float) -> None:
    curve, size = read(parametric_tag(parameters))
    assert float(curve(np.array(value))) == pytest.approx(expected, abs=1e-12)
    assert size == 12 + 4 * len(parameters)


def test_counts_of_sampled_curves() -> None:
    # derived: no entry is the identity, one a gamma in u8Fixed8, more are samples
    identity, _ = read(b"curv" + bytes(8))
    gamma, _ = read(b"curv" + bytes(4) + struct.pack(">IH", 1, 0x0200))
    samples, size = read(curve_tag(np.array([0.0, 0.2, 1.0])) + b"more")
    assert float(identity(np.array(0.3))) == 0.3
    assert float(gamma(np.array(0.3))) == pytest.approx(0.09)
    assert float(samples(np.array(0.75))) == pytest.approx(0.6, abs=1e-5)
    assert size == 18


def test_sampled_curves_are_held_at_their_ends() -> None:
    curve = SampledCurve(samples=np.array([0.1, 0.9]))
    assert curve(np.array([-5.0, 0.5, 7.0])).tolist() == pytest.approx([0.1, 0.5, 0.9])


@given(st.lists(st.floats(0.001, 1.0), min_size=2, max_size=40), st.booleans())
def test_inverse_of_strictly_monotonic_samples(steps: list[float], falling: bool) -> None:
    heights = np.concatenate([[0.0], np.cumsum(steps)])
    heights = heights / heights[-1]
    curve = SampledCurve(samples=heights[::-1] if falling else heights)
    places = np.linspace(0.0, 1.0, 57, dtype=np.float64)
    assert np.abs(curve.inverse(curve(places)) - places).max() < 1e-9


def test_inverse_of_flat_stretches() -> None:
    # derived: at the ends the inner edge, between them the middle
    curve = SampledCurve(samples=np.array([0.0, 0.0, 0.5, 0.5, 1.0, 1.0]))
    assert curve.inverse(np.array([0.0, 0.5, 1.0])).tolist() == pytest.approx([0.2, 0.5, 0.8])
    assert SampledCurve(samples=np.array([0.4, 0.4])).inverse(np.array([0.7])).tolist() == [0.5]


@pytest.mark.parametrize(
    "parameters", [[2.4], [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045], [2.0, 0.9, 0.1, 0.1]]
)
def test_inverse_of_functions(parameters: list[float]) -> None:
    curve, _ = read(parametric_tag(parameters))
    places = np.linspace(0.0, 1.0, 101, dtype=np.float64)
    # 1e-4: s15Fixed16 parameters leave a step of that size at the joint of the second.
    assert np.abs(curve.inverse(curve(places)) - places).max() < 1e-4


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"curv" + bytes(4) + struct.pack(">I", 2**32 - 1), "at most 65536 entries"),
        (b"curv" + bytes(4) + struct.pack(">I", 60000) + bytes(50), "120000 bytes from byte 12"),
        (b"curv" + bytes(4) + struct.pack(">IH", 1, 0), "a gamma above 0"),
        (b"para" + bytes(4) + struct.pack(">HH", 5, 0) + bytes(40), "function type 0 to 4, and has 5"),
        (parametric_tag([-1.0]), "an exponent above 0"),
        (parametric_tag([2.0, 0.0, 0.1]), "a parameter a above 0"),
        (parametric_tag([2.0, 1.0, 0.1])[:16], "12 bytes from byte 12"),
        (b"text" + bytes(20), "type 'curv' or 'para'"),
    ],
)
def test_lies_are_named(data: bytes, message: str) -> None:
    with pytest.raises(ProfileError, match=message) as caught:
        read(data)
    assert caught.value.field == "tag rTRC"


def test_absurd_exponents_stay_finite() -> None:
    curve, _ = read(parametric_tag([32767.0, 2.0, 0.0]))
    places = np.linspace(0.0, 1.0, 11, dtype=np.float64)
    assert np.all(np.isfinite(curve(places)))
    assert np.all(np.isfinite(curve.inverse(places)))
