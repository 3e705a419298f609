"""Where nodes stand."""

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.axes import nodes_of, source_axes
from pycore.colour.link.lattice import CODES
from pycore.contract.job import Intent


def test_nodes_of_light_stand_at_even_steps_of_lightness(profiles: dict[str, bytes]) -> None:
    for source in (Standard.SRGB, parse_profile(profiles["grey-v2"])):
        axes = source_axes(source, intent=Intent.RELATIVE, nodes=11)
        encoded = np.stack([axis.encoded for axis in axes], axis=1)
        lightness = make_transform(
            source, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
        )(encoded)[:, 0]
        # derived: tenths of 100, from the source's own black on; a thousandth of a straight line is mixed in
        expected = np.maximum(np.linspace(0.0, 100.0, 11), lightness[0])
        assert np.abs(lightness - expected).max() < 0.15


def test_a_table_s_own_nodes_are_among_them(profiles: dict[str, bytes]) -> None:
    """Derived: tables of 7 nodes, and of 6, 7 and 8; as many between each two as 25 and 65 allow."""
    inks = source_axes(parse_profile(profiles["cmyk-v2"]), intent=Intent.RELATIVE)
    assert [len(axis.encoded) for axis in inks] == [25, 25, 25, 25]
    uneven = source_axes(parse_profile(profiles["curves-lab-v4"]), intent=Intent.RELATIVE)
    assert [len(axis.encoded) for axis in uneven] == [61, 61, 64]


def test_places_rise_from_the_first_node_to_the_last(profiles: dict[str, bytes]) -> None:
    for name in ("cmyk-v2", "curves-xyz-v4", "matrix-v4", "grey-v2"):
        for axis in source_axes(parse_profile(profiles[name]), intent=Intent.PERCEPTUAL):
            assert np.diff(axis.places).min() > 0.0
            assert 0.0 <= axis.places[0] < axis.places[-1] <= 1.0
            steps = np.linspace(0.0, 1.0, len(axis.encoded))
            at_nodes = np.interp(axis.encoded, np.linspace(0.0, 1.0, CODES), axis.places)
            # A node beyond the curve's ends stands at its end.
            assert at_nodes == pytest.approx(np.clip(steps, axis.places[0], axis.places[-1]), abs=1e-9)


def test_the_last_channel_is_the_fastest() -> None:
    axes = source_axes(Standard.SRGB, intent=Intent.RELATIVE, nodes=2)
    assert nodes_of(axes)[:2].tolist() == [[0.0, 0.0, 0.0], [0.0, 0.0, 1.0]]
