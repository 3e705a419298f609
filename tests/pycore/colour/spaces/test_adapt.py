"""Chromatic adaptation and RGB matrices."""

import numpy as np

from pycore.colour.spaces.adapt import bradford, rgb_matrix, xy_to_xyz
from pycore.colour.spaces.lab import D50_XYZ


def test_d65_to_d50() -> None:
    matrix = bradford(source_white=xy_to_xyz((0.3127, 0.3290)), target_white=np.array(D50_XYZ))
    # published: the `chad` tag that ICC.1:2022, annex E, gives for D65; its whites are rounded otherwise
    expected = [[1.04788, 0.02292, -0.05022], [0.02963, 0.99046, -0.01707], [-0.00925, 0.01508, 0.75168]]
    assert np.abs(matrix - np.array(expected)).max() < 1e-4


def test_srgb_primaries() -> None:
    matrix = rgb_matrix(
        primaries=((0.64, 0.33), (0.30, 0.60), (0.15, 0.06)),
        white=(0.3127, 0.3290),
        pcs_white=np.array(D50_XYZ),
    )
    # published: the colorants of the ICC's own sRGB profile (sRGB2014), to half of 1/1000
    expected = [[0.4361, 0.3851, 0.1431], [0.2225, 0.7169, 0.0606], [0.0139, 0.0971, 0.7141]]
    assert np.abs(matrix - np.array(expected)).max() < 5e-4
    assert np.abs(matrix.sum(axis=1) - np.array(D50_XYZ)).max() < 1e-12
