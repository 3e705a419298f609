"""Sides judged from their own pixels: a mirror's chevrons and twins, streaks, stubs."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.edges.continued import LaidSide, judge_laid, severed
from pycore.edges.things import CutThing
from pycore.fill.facing import U8

_DEPTH = 36


def stripes(*, slope: float, outwards: bool) -> U8:
    """Bars that run on with a slope; rows are counted away from the edge."""
    rows, columns = np.mgrid[0:80, 0:240]
    at = (columns - (slope if outwards else -slope) * (rows + 0.5)) % 48
    values = np.where(at < 24, 70, 190).astype(np.uint8)
    return np.repeat(values[..., np.newaxis], 3, axis=2)


def laid(side: U8, face: U8) -> LaidSide:
    return LaidSide(side=side[:_DEPTH], face=face, depth_px=_DEPTH, band_px=3)


def test_slanted_bars_are_chevrons_in_a_mirror_and_straight_when_they_go_on() -> None:
    inside, onwards = stripes(slope=0.8, outwards=False), stripes(slope=0.8, outwards=True)
    found = judge_laid(laid(onwards, inside), busy=0.2)
    assert found.chevrons > 0.7
    assert found.bent < 0.2
    assert judge_laid(laid(inside, inside), busy=0.2).bent > 0.6


def test_a_thing_further_in_is_repeated_over_plain_ground() -> None:
    rows, columns = np.mgrid[0:80, 0:240]
    face = np.full((80, 240, 3), 120, np.uint8)
    face[(rows - 45) ** 2 + (columns - 120) ** 2 < 30**2] = (220, 40, 40)
    found = judge_laid(laid(face, face), busy=0.05)
    assert found.repeated > 0.5
    # derived: where much is going on, (1 - busy)**2 of it is seen.
    assert judge_laid(laid(face, face), busy=0.9).repeated < 0.1
    deeper = np.concatenate([np.full((40, 240, 3), 120, np.uint8), face])[:80]
    assert judge_laid(laid(deeper, deeper), busy=0.05).repeated == 0


def test_detail_hides_slanted_lines_and_not_the_outlines_of_shapes() -> None:
    rows, columns = np.mgrid[0:80, 0:240]
    fine, coarse = (
        np.where((rows + columns) % wide < wide // 2, 60, 180).astype(np.uint8)[..., np.newaxis].repeat(3, 2)
        for wide in (8, 48)
    )
    grains = np.random.default_rng(5).integers(-50, 51, (80, 240, 1))
    quiet, busy_shapes = (np.clip(coarse + part, 0, 255).astype(np.uint8) for part in (0, grains))
    assert judge_laid(laid(quiet, quiet), busy=0.1).chevrons > 0.7
    assert judge_laid(laid(busy_shapes, busy_shapes), busy=0.8).chevrons > 0.5
    # derived: of fine lines 0.3 of the busyness is taken off.
    lines = [judge_laid(laid(fine, fine), busy=busy).chevrons for busy in (0.1, 0.8)]
    assert lines[0] - lines[1] == pytest.approx(0.3 * 0.7, abs=0.002)


def test_drawn_out_texture_is_smeared_and_a_mirror_is_not() -> None:
    grains = np.random.default_rng(3).integers(0, 256, (40, 120, 3), np.uint8)
    face = grains.repeat(2, axis=0).repeat(2, axis=1)
    assert judge_laid(laid(np.repeat(face[:1], _DEPTH, axis=0), face), busy=0.6).smeared > 0.8
    assert judge_laid(laid(face, face), busy=0.6).smeared == 0


@pytest.mark.parametrize(("widths", "expected"), [((), 0.0), ((18,), 0.5), ((18, 36), 0.75)])
def test_severed_is_the_width_of_what_is_cut(widths: tuple[int, ...], expected: float) -> None:
    things = tuple(CutThing(begin=0, end=width, inwards=5, outwards=None) for width in widths)
    # derived: width over width and half of 36.
    assert severed(things, depth_px=36) == pytest.approx(expected)
