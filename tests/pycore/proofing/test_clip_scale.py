"""The clip map's scale: even steps, falling lightness, readable by every kind of colour vision."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.proofing.clip_scale import SCALE_FULL_DE, clip_scale, paint_clip_map

TO_LAB = make_transform(Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)


def test_lightness_falls_all_the_way() -> None:
    """Lightness alone tells the steps apart, whatever hues an eye sees; 8 bits round by 0.2 of L*."""
    lightness = TO_LAB(clip_scale() / 255.0)[:, 0]
    assert np.all(np.diff(lightness) < 0.25)
    assert lightness[0] - lightness[-1] > 60


def test_steps_are_even() -> None:
    lab = TO_LAB(clip_scale() / 255.0)
    steps = delta_e_2000(lab[:-1], lab[1:])
    # 8-bit rounding moves each end by up to about half a unit of dE00.
    assert steps.max() < 2 * np.median(steps)
    assert steps.min() > np.median(steps) / 3


def test_the_map_is_grey_where_nothing_clips_and_scaled_where_it_does() -> None:
    proofed = np.zeros((1, 4, 4), np.uint8)
    proofed[..., :3] = 100
    # 255 stands for 51 dE00: 10 is 2, 25 is 5, 75 is 15, 255 is 51.
    proofed[0, :, 3] = (10, 25, 75, 255)
    painted = paint_clip_map(proofed, clip_full_de=51.0, threshold_de=2.0)
    assert len(set(painted[0, 0].tolist())) == 1
    at_five = round(5 / SCALE_FULL_DE * 63)
    assert painted[0, 1].tolist() == clip_scale()[at_five].tolist()
    assert painted[0, 2].tolist() == painted[0, 3].tolist() == clip_scale()[-1].tolist()


def test_what_prints_true_is_a_pale_grey_by_its_luma() -> None:
    """Published: Rec. ITU-R BT.709's weights. Derived: black is 150 and white 250; green counts 0.7152."""
    proofed = np.zeros((1, 3, 4), np.uint8)
    proofed[0, 1:, 1] = 255
    proofed[0, 2, :3] = 255
    painted = paint_clip_map(proofed, clip_full_de=51.0, threshold_de=2.0)
    assert painted[0].tolist() == [[150] * 3, [222] * 3, [250] * 3]


def test_threshold_is_exclusive() -> None:
    proofed = np.zeros((1, 1, 4), np.uint8)
    proofed[..., 3] = 10
    below = paint_clip_map(proofed, clip_full_de=51.0, threshold_de=1.99)
    at = paint_clip_map(proofed, clip_full_de=51.0, threshold_de=2.0)
    assert below[0, 0].tolist() != at[0, 0].tolist()
    assert at[0, 0].tolist() == pytest.approx([150, 150, 150])
