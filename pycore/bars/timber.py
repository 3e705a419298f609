"""How dense the wood of bars is."""

from __future__ import annotations

from typing import Final

from pycore.contract.job import Bars, Wood
from pycore.contract.record import Pair
from pycore.speech import say

#: Moisture at which the table's specific gravities hold, percent of the oven-dry mass.
MOISTURE_PERCENT: Final = 12.0

#: Specific gravity: oven-dry mass by the volume at 12 percent moisture, lowest and highest. Published:
#: Forest Products Laboratory, Wood Handbook (FPL-GTR-282), chapter 5, strength properties of woods grown in
#: the United States. Subalpine fir 0.32, Engelmann spruce 0.35, Sitka spruce 0.40, loblolly pine 0.51,
#: basswood 0.37, American beech 0.64 were compared with tables that quote the handbook; eastern white pine
#: 0.35 and yellow-poplar 0.42 are quoted from memory.
SPECIFIC_GRAVITY: Final[dict[Wood, Pair]] = {
    Wood.UNKNOWN: (0.32, 0.64),
    Wood.SOFTWOOD: (0.32, 0.51),
    Wood.HARDWOOD: (0.37, 0.64),
    Wood.SPRUCE: (0.35, 0.40),
    Wood.PINE: (0.35, 0.51),
    Wood.BASSWOOD: (0.37, 0.37),
    Wood.YELLOW_POPLAR: (0.42, 0.42),
    Wood.BEECH: (0.64, 0.64),
}

#: What each is called within a sentence.
WOOD_NAMES: Final[dict[Wood, str]] = {
    Wood.UNKNOWN: say("unknown wood"),
    Wood.SOFTWOOD: say("softwood"),
    Wood.HARDWOOD: say("hardwood"),
    Wood.SPRUCE: say("spruce"),
    Wood.PINE: say("pine"),
    Wood.BASSWOOD: say("basswood"),
    Wood.YELLOW_POPLAR: say("yellow-poplar"),
    Wood.BEECH: say("beech"),
}

#: Woods of which an end of the range is quoted from memory.
FROM_MEMORY: Final = frozenset({Wood.PINE, Wood.YELLOW_POPLAR})


def density_kg_m3(bars: Bars) -> Pair:
    """The lowest and the highest density that the bars may have, at 12 percent moisture.

    Parameters
    ----------
    bars : Bars
        A checked job's.

    Returns
    -------
    (low, high)
        kg/m3; equal where the density is known.

    References
    ----------
    Forest Products Laboratory, Wood Handbook (FPL-GTR-282), chapter 4: density is 1000 G (1 + M / 100),
    with the specific gravity G at the moisture M.

    Examples
    --------
    >>> [round(one, 1) for one in density_kg_m3(Bars(wood=Wood.SPRUCE))]
    [392.0, 448.0]
    """
    if bars.density_kg_m3 is not None:
        return bars.density_kg_m3, bars.density_kg_m3
    low, high = SPECIFIC_GRAVITY[bars.wood]
    moist = 1000 * (1 + MOISTURE_PERCENT / 100)
    return low * moist, high * moist
