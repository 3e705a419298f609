"""The rules of thumb for bars and fittings, each once; the stage draws by the same numbers.

All are common practice without a source, unless their text says from memory.
"""

from __future__ import annotations

from typing import Final

#: A bar is about this wide, and on a small face no more than this share of its shorter side.
BAR_WIDTH_MM: Final = 40.0
BAR_SHARE: Final = 0.22

#: No stretch of a bar longer than this goes without a brace.
LONGEST_SPAN_MM: Final = 600.0

#: A brace's section; where the bars are shallow it is no deeper than this share of them.
BRACE_WIDTH_MM: Final = 35.0
BRACE_DEPTH_MM: Final = 18.0
BRACE_DEPTH_SHARE: Final = 0.55

#: Staples stand no further apart; below this turn-over there is no room for one.
STAPLES_EVERY_MM: Final = 50.0
LEAST_STAPLED_MM: Final = 8.0

#: Length of a usual staple's crown (from memory), and its distance from the folded corner.
STAPLE_CROWN_MM: Final = 10.0
STAPLE_CLEAR_MM: Final = 3.0

#: The rings sit this share of the height below the top, and this share of a bar's width in from the bar's
#: outer side.
RING_DOWN_SHARE: Final = 1 / 3
RING_IN_SHARE: Final = 0.62

#: How far the wire is drawn up at its hook, as a share of its span; its top stays this far below the bar.
WIRE_RISE_SHARE: Final = 0.09
WIRE_BELOW_BAR_MM: Final = 6.0
LEAST_WIRE_RISE_MM: Final = 4.0

#: A piece wider than this hangs on two hooks.
ONE_HOOK_MOST_MM: Final = 600.0

#: Two hooks under one wire stand this share of its span apart.
HOOKS_APART_SHARE: Final = 1 / 3

#: A piece heavier than this hangs without a wire, each ring on a hook of its own.
WIRE_MOST_KG: Final = 10.0

#: Where the bars leave room only for a wire so flat that it pulls harder than so many times the weight, each
#: ring hangs on a hook of its own too.
WIRE_PULL_MOST: Final = 5.0

#: Each fitting is rated for so many times the force on it.
SAFETY_FACTOR: Final = 4.0

#: The numbers that the stage draws by.
DRAWN: Final = {
    "bar_width_mm": BAR_WIDTH_MM,
    "bar_share": BAR_SHARE,
    "longest_span_mm": LONGEST_SPAN_MM,
    "brace_width_mm": BRACE_WIDTH_MM,
    "brace_depth_mm": BRACE_DEPTH_MM,
    "brace_depth_share": BRACE_DEPTH_SHARE,
    "staples_every_mm": STAPLES_EVERY_MM,
    "least_stapled_mm": LEAST_STAPLED_MM,
    "staple_crown_mm": STAPLE_CROWN_MM,
    "staple_clear_mm": STAPLE_CLEAR_MM,
    "ring_down_share": RING_DOWN_SHARE,
    "ring_in_share": RING_IN_SHARE,
    "wire_rise_share": WIRE_RISE_SHARE,
    "wire_below_bar_mm": WIRE_BELOW_BAR_MM,
    "least_wire_rise_mm": LEAST_WIRE_RISE_MM,
    "wire_most_kg": WIRE_MOST_KG,
    "wire_pull_most": WIRE_PULL_MOST,
    "one_hook_most_mm": ONE_HOOK_MOST_MM,
    "hooks_apart_share": HOOKS_APART_SHARE,
}
