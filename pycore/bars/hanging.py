"""What one panel hangs by: rings, hooks, wire, and the force that each must carry."""

from __future__ import annotations

import math
from enum import StrEnum

from pycore.bars import rules
from pycore.bars.frame import Frame
from pycore.contract.record import Record
from pycore.errors import GeometryError
from pycore.speech import say

#: Published: standard acceleration of free fall, 3rd General Conference on Weights and Measures (1901).
GRAVITY_M_S2 = 9.80665


class Wire(Record):
    """The wire between the rings, drawn up at its hooks."""

    span_mm: float
    """From ring to ring."""
    rise_mm: float
    """Of the hooks above the rings."""
    length_mm: float
    """Under load, without the ends that are wound round."""
    tension_n: float
    """From the heaviest that the panel may be, before the safety factor."""


class NoWire(StrEnum):
    """Why a panel hangs from its rings, without a wire."""

    HEAVY = "heavy"
    FLAT = "flat"


class Hanging(Record):
    """What one panel hangs by; forces from the heaviest that it may be."""

    hooks: int
    hooks_mm: list[tuple[float, float]]
    """Of each hook: right of the panel's middle, and below its top edge."""
    rings_mm: list[tuple[float, float]]
    """Of the two rings, measured alike."""
    wire: Wire | None = None
    """Absent where the panel is too heavy for one by the rule, or where one would lie too flat."""
    no_wire: NoWire | None = None
    """Why there is none."""
    safety_factor: float
    ring_carries_kg: float
    """What each ring must be rated for, the safety factor included."""
    hook_carries_kg: float
    """What each hook with its wall plug must be rated for, alike."""
    wire_carries_kg: float
    """What the wire must be rated for, alike; 0 without one."""

    @property
    def hooks_apart_mm(self) -> float:
        """From the first hook to the last; 0 where there is one."""
        return self.hooks_mm[-1][0] - self.hooks_mm[0][0]

    @property
    def rings_apart_mm(self) -> float:
        """From one ring to the other."""
        return self.rings_mm[1][0] - self.rings_mm[0][0]


def wire_tension_n(*, weight_n: float, run_mm: float, rise_mm: float) -> float:
    """The pull in a wire between two rings, hung on one hook or on two at one height.

    Parameters
    ----------
    weight_n : float
        Of what hangs on it.
    run_mm : float
        From a ring to its nearest hook, level; 0 and more.
    rise_mm : float
        From the rings up to the hooks; above 0.

    Returns
    -------
    float
        In newtons.

    Raises
    ------
    GeometryError
        The wire is straight: no pull however strong holds a weight.

    References
    ----------
    Statics: each ring bears half the weight, 2 T sin(a) = W with tan(a) = rise / run.

    Examples
    --------
    >>> wire_tension_n(weight_n=10, run_mm=0, rise_mm=50), wire_tension_n(weight_n=6, run_mm=40, rise_mm=30)
    (5.0, 5.0)
    """
    if rise_mm <= 0:
        raise GeometryError(
            field="wire",
            expected=say("drawn up at its hook"),
            got=say("{rise_mm:g} mm", rise_mm=rise_mm),
            remedy=say("give it some slack"),
            said=say("A straight wire holds no weight."),
        )
    return weight_n * math.hypot(run_mm, rise_mm) / (2 * rise_mm)


def hanging_of(frame: Frame, *, heaviest_g: float) -> Hanging:
    """Place rings, hooks and wire, and say what each must carry.

    Parameters
    ----------
    frame : Frame
        Of one panel.
    heaviest_g : float
        The most that the panel may weigh.

    Returns
    -------
    Hanging

    Examples
    --------
    >>> from pycore.bars.frame import frame_of
    >>> from pycore.contract.job import Job
    >>> hanging_of(frame_of(Job()), heaviest_g=500).hooks
    1
    """
    weight_n = heaviest_g / 1000 * GRAVITY_M_S2
    inwards = frame.width_mm / 2 - rules.RING_IN_SHARE * frame.bar_width_mm
    down = rules.RING_DOWN_SHARE * frame.height_mm
    rings = [(-inwards, down), (inwards, down)]
    span = 2 * inwards
    rise = max(
        rules.LEAST_WIRE_RISE_MM,
        min(rules.WIRE_RISE_SHARE * span, down - frame.bar_width_mm - rules.WIRE_BELOW_BAR_MM),
    )
    hooks = 1 if frame.width_mm <= rules.ONE_HOOK_MOST_MM else 2
    apart = 0.0 if hooks == 1 else rules.HOOKS_APART_SHARE * span
    run = (span - apart) / 2
    tension = wire_tension_n(weight_n=weight_n, run_mm=run, rise_mm=rise)
    no_wire = None
    if heaviest_g > rules.WIRE_MOST_KG * 1000:
        no_wire = NoWire.HEAVY
    elif tension > rules.WIRE_PULL_MOST * weight_n:
        no_wire = NoWire.FLAT
    if no_wire is not None:
        each_kg = rules.SAFETY_FACTOR * heaviest_g / 2000
        return Hanging(
            hooks=2,
            hooks_mm=rings,
            rings_mm=rings,
            no_wire=no_wire,
            safety_factor=rules.SAFETY_FACTOR,
            ring_carries_kg=each_kg,
            hook_carries_kg=each_kg,
            wire_carries_kg=0.0,
        )
    pulled_kg = rules.SAFETY_FACTOR * tension / GRAVITY_M_S2
    # One hook bears the weight. Of two each bears half of it, and sideways what the level part of the wire
    # between them pulls more than the part that slopes: T (1 - cos a).
    sideways_n = 0.0 if hooks == 1 else tension * (1 - run / math.hypot(run, rise))
    borne_kg = math.hypot(weight_n / hooks, sideways_n) / GRAVITY_M_S2
    places = [(0.0, down - rise)] if hooks == 1 else [(-apart / 2, down - rise), (apart / 2, down - rise)]
    return Hanging(
        hooks=hooks,
        hooks_mm=places,
        rings_mm=rings,
        wire=Wire(span_mm=span, rise_mm=rise, length_mm=2 * math.hypot(run, rise) + apart, tension_n=tension),
        safety_factor=rules.SAFETY_FACTOR,
        ring_carries_kg=pulled_kg,
        hook_carries_kg=rules.SAFETY_FACTOR * borne_kg,
        wire_carries_kg=pulled_kg,
    )
