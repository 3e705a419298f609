"""What people read for each side fill."""

from __future__ import annotations

from typing import Final

from pycore.contract.job import Fill
from pycore.speech import say

FILL_NAMES: Final = {
    Fill.RUN_ON: say("Picture runs on"),
    Fill.MIRROR: say("Mirror"),
    Fill.DRAWN_OUT: say("Edge drawn out"),
    Fill.PLAIN: say("Plain colour"),
    Fill.FADE: say("Mirror into plain"),
    Fill.CONTINUED: say("Lines continued"),
}
