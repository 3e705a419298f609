"""Where nodes stand."""

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.standard_profiles import adobe_rgb_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.axes import moved_axes, nodes_of, source_axes
from pycore.colour.link.lattice import CODES
from pycore.contract.job import Intent

from ..make_profiles import xyz_table_profile


def test_nodes_of_light_stand_at_even_steps_of_lightness(profiles: dict[str, bytes]) -> None:
    for source in (Standard.SRGB, parse_profile(profiles["grey-v2"])):
        axes = source_axes(source, intent=Intent.RELATIVE, nodes=11)
        encoded = np.stack([axis.encoded for axis in axes], axis=1)
        lightness = make_transform(
            source, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
        )(encoded)[:, 0]
        # derived: tenths of the way from the source's own black to its white; a thousandth of a straight
        # line is mixed in
        expected = np.linspace(lightness[0], lightness[-1], 11)
        assert np.abs(lightness - expected).max() < 0.15


def test_a_table_s_own_nodes_are_among_them(profiles: dict[str, bytes]) -> None:
    """Derived: tables of 7 nodes, and of 6, 7 and 8; on all channels as many between each two as fit."""
    inks = source_axes(parse_profile(profiles["cmyk-v2"]), intent=Intent.RELATIVE)
    assert [len(axis.encoded) for axis in inks] == [25, 25, 25, 25]
    uneven = source_axes(parse_profile(profiles["curves-lab-v4"]), intent=Intent.RELATIVE)
    # derived: 51 x 61 x 71 is below 65^3, 56 x 67 x 78 is not
    assert [len(axis.encoded) for axis in uneven] == [51, 61, 71]
    # Its third channel has a straight curve.
    assert uneven[2].encoded[::10] == pytest.approx(np.linspace(0.0, 1.0, 8), abs=1e-9)


def test_between_nodes_of_a_table_of_xyz_lightness_counts(profiles: dict[str, bytes]) -> None:
    """Evenly divided, the first of two cells of light would have steps of ten L* where it is darkest."""
    source = parse_profile(xyz_table_profile(3))
    axes = source_axes(source, intent=Intent.RELATIVE)
    encoded = np.stack([axis.encoded for axis in axes], axis=1)
    to_lab = make_transform(source, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)
    # derived: 64 steps of 100, rounded to whole ones in each cell
    assert np.diff(to_lab(encoded)[:, 0]).max() < 1.7
    assert np.abs(axes[0].encoded - 0.5).min() < 1e-9


def test_places_rise_from_the_first_node_to_the_last(profiles: dict[str, bytes]) -> None:
    for name in ("cmyk-v2", "curves-xyz-v4", "matrix-v4", "grey-v2"):
        for axis in source_axes(parse_profile(profiles[name]), intent=Intent.PERCEPTUAL):
            assert np.diff(axis.places).min() > 0.0
            assert [axis.places[0], axis.places[-1]] == [0.0, 1.0]
            steps = np.linspace(0.0, 1.0, len(axis.encoded))
            at_nodes = np.interp(axis.encoded, np.linspace(0.0, 1.0, CODES), axis.places)
            # derived: between two codes a curve may have a corner
            assert at_nodes == pytest.approx(steps, abs=1e-6)


def test_nodes_for_moves_stand_closely_where_a_power_of_light_begins() -> None:
    adobe = parse_profile(adobe_rgb_profile("RGB"))
    axis = moved_axes(adobe, intent=Intent.RELATIVE)[0]
    usual = source_axes(adobe, intent=Intent.RELATIVE)[0]
    assert len(axis.encoded) == len(usual.encoded) == 65
    # derived: the first step of lightness has 0.056 of the codes, half a step of codes 0.031
    assert usual.encoded[1] > 0.05
    assert axis.encoded[1] < 0.032
    for places in (axis.places, axis.even_places):
        at_nodes = np.interp(axis.encoded, np.linspace(0.0, 1.0, CODES), places)
        assert at_nodes == pytest.approx(np.linspace(0.0, 1.0, 65), abs=1e-6)
    # sRGB begins with a straight line and needs no other nodes.
    for moved, own in zip(
        moved_axes(Standard.SRGB, intent=Intent.RELATIVE),
        source_axes(Standard.SRGB, intent=Intent.RELATIVE),
        strict=True,
    ):
        assert np.array_equal(moved.encoded, own.encoded)
        assert np.array_equal(moved.places, own.places)


def test_the_last_channel_is_the_fastest() -> None:
    axes = source_axes(Standard.SRGB, intent=Intent.RELATIVE, nodes=2)
    assert nodes_of(axes)[:2].tolist() == [[0.0, 0.0, 0.0], [0.0, 0.0, 1.0]]
