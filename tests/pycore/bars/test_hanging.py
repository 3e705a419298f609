"""Wire, rings and hooks against statics by hand."""

from __future__ import annotations

import math

import pytest

from pycore.bars import rules
from pycore.bars.frame import frame_of
from pycore.bars.hanging import NoWire, hanging_of, wire_tension_n
from pycore.contract.check import check_job
from pycore.errors import GeometryError


def test_wire_tension_by_hand() -> None:
    # derived: triangle 3-4-5. Each half of the wire runs 400 mm level and 300 mm up: sin a = 3/5. 2 T x 3/5
    # = 12 N gives T = 10 N.
    assert wire_tension_n(weight_n=12, run_mm=400, rise_mm=300) == pytest.approx(10, abs=1e-12)
    # derived: at 30 degrees the pull is the weight; hanging straight down, half of it.
    assert wire_tension_n(weight_n=7, run_mm=math.sqrt(3), rise_mm=1) == pytest.approx(7, abs=1e-12)
    assert wire_tension_n(weight_n=7, run_mm=0, rise_mm=1) == pytest.approx(3.5, abs=1e-12)


def test_a_straight_wire_carries_nothing() -> None:
    with pytest.raises(GeometryError, match="A straight wire holds no weight") as wrong:
        wire_tension_n(weight_n=7, run_mm=100, rise_mm=0)
    assert wrong.value.field == "wire"


def test_one_hook() -> None:
    # derived: 500 x 600 mm, bars 40 mm: rings 0.62 x 40 = 24.8 mm in, 200 mm down; span 450.4 mm, risen by
    # 9 percent: 40.536 mm; the hook is 159.464 mm down. tan a = 40.536 / 225.2 = 0.18, so sin a = 0.18 /
    # sqrt(1.0324) = 0.177153. 2 kg weigh 19.6133 N: T = 19.6133 / (2 x 0.177153) = 55.357 N, which is
    # 5.6449 kg; four times that 22.579 kg.
    frame = frame_of(check_job({"face": {"width_mm": 500, "height_mm": 600}}))
    found = hanging_of(frame, heaviest_g=2000)
    assert found.wire is not None
    assert found.hooks == 1
    ((right, down),) = found.hooks_mm
    assert (right, down) == pytest.approx((0, 159.464), abs=5e-4)
    assert found.rings_mm == [(-225.2, 200.0), (225.2, 200.0)]
    assert found.rings_apart_mm == pytest.approx(450.4, abs=1e-9)
    assert found.wire.tension_n == pytest.approx(55.357, abs=5e-4)
    assert found.wire.length_mm == pytest.approx(450.4 * math.sqrt(1.0324), abs=1e-9)
    assert found.ring_carries_kg == found.wire_carries_kg == pytest.approx(22.579, abs=2e-3)
    # derived: the hook bears all: 4 x 2 kg.
    assert found.hook_carries_kg == pytest.approx(8.0, abs=1e-9)


def test_two_hooks_balance_the_weight() -> None:
    frame = frame_of(check_job({"face": {"width_mm": 1000, "height_mm": 900}}))
    found = hanging_of(frame, heaviest_g=5000)
    wire = found.wire
    assert wire is not None
    assert found.hooks == 2
    left, right = found.hooks_mm
    # derived: a third of the span apart, even about the middle.
    assert right[0] - left[0] == found.hooks_apart_mm == pytest.approx(wire.span_mm / 3, abs=1e-9)
    assert left[0] == -right[0]
    # derived: forces at a ring: up T sin a is half of 5 kg x 9.80665 m/s2 = 24.516625 N.
    run = found.rings_mm[1][0] - right[0]
    rise = found.rings_mm[1][1] - right[1]
    slope = math.atan2(rise, run)
    # derived: from ring to hook on either hand, and the third between the hooks.
    assert wire.length_mm == pytest.approx(2 * math.hypot(run, rise) + wire.span_mm / 3, abs=1e-9)
    assert wire.tension_n * math.sin(slope) == pytest.approx(24.516625, abs=1e-6)
    # derived: at a hook the level and the sloping part of the wire pull with T each: 2 T sin(a / 2) together.
    borne_n = found.hook_carries_kg / found.safety_factor * 9.80665
    assert borne_n == pytest.approx(2 * wire.tension_n * math.sin(slope / 2), abs=1e-9)


def test_heavy_panels_hang_without_a_wire() -> None:
    frame = frame_of(check_job({"face": {"width_mm": 1500, "height_mm": 1200}}))
    just = hanging_of(frame, heaviest_g=10_000)
    heavy = hanging_of(frame, heaviest_g=10_001)
    assert just.wire is not None
    assert (heavy.wire, heavy.no_wire) == (None, NoWire.HEAVY)
    # derived: each ring on its own hook bears half: 4 x 10.001 / 2 = 20.002 kg.
    assert (heavy.hooks, heavy.hooks_mm, heavy.wire_carries_kg) == (2, heavy.rings_mm, 0.0)
    assert heavy.ring_carries_kg == heavy.hook_carries_kg == pytest.approx(20.002, abs=1e-9)


@pytest.mark.parametrize("face", [(50, 50), (50, 5000), (5000, 5000)])
def test_extreme_faces_have_a_wire_that_carries(face: tuple[float, float]) -> None:
    frame = frame_of(check_job({"face": {"width_mm": face[0], "height_mm": face[1]}}))
    found = hanging_of(frame, heaviest_g=1000)
    assert found.wire is not None
    # derived: the wire stays inside the panel, and its pull is never less than half the weight of 9.80665 N.
    assert all(0 < down < face[1] for _, down in found.hooks_mm)
    assert found.wire.rise_mm >= rules.LEAST_WIRE_RISE_MM
    assert found.wire.tension_n >= 9.80665 / 2


@pytest.mark.parametrize("face", [(600, 100), (1200, 200), (5000, 50)])
def test_a_wire_that_would_lie_too_flat_is_left_out(face: tuple[float, float]) -> None:
    # derived: 600 x 100 mm with bars of 22 mm leave 33.3 - 22 - 6 = 5.3 mm for the wire's rise over a run of
    # 286.4 mm: it would pull with 27 times the weight. 1200 x 200 mm: 20.7 mm over 383.5 mm, 9 times.
    frame = frame_of(check_job({"face": {"width_mm": face[0], "height_mm": face[1]}}))
    found = hanging_of(frame, heaviest_g=1000)
    assert (found.wire, found.no_wire) == (None, NoWire.FLAT)
    # derived: each ring on its own hook bears half: 4 x 1 / 2 = 2 kg.
    assert (found.hooks, found.hooks_mm) == (2, found.rings_mm)
    assert (found.ring_carries_kg, found.hook_carries_kg) == (2.0, 2.0)
    assert hanging_of(frame, heaviest_g=10_001).no_wire is NoWire.HEAVY
