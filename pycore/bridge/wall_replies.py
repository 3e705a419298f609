"""A measured wall as a message."""

from __future__ import annotations

from pycore.bridge.wall_messages import MeasureWallReply, WallLight
from pycore.contract.record import Pair, Triple
from pycore.wall.light import MOST_FACTOR
from pycore.wall.measure import MeasuredWall


def measure_reply(wall: MeasuredWall) -> MeasureWallReply:
    """Put a measured wall into plain numbers.

    Parameters
    ----------
    wall : MeasuredWall

    Returns
    -------
    MeasureWallReply
    """
    rows = [tuple(float(one) for one in row) for row in wall.fit.camera]
    white: Triple = tuple(float(one) for one in wall.light.white)  # type: ignore[assignment]  # three channels
    fall: Pair = (float(wall.light.fall[0]), float(wall.light.fall[1]))
    return MeasureWallReply.model_validate(
        {
            "report": wall.report,
            "camera": rows,
            "light": WallLight(
                white=white, middle_mm=wall.light.middle_mm, fall=fall, most_factor=MOST_FACTOR
            ),
            "notes": wall.notes,
        }
    )
