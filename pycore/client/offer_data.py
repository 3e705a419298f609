"""What the viewer's program reads: textures, folds and variants as JSON that is safe inside a page."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from pycore.bars.weight import whole_g
from pycore.client.markup import LETTERS, showable
from pycore.client.offer import Offer
from pycore.client.packing import packed_array
from pycore.client.surroundings import Surroundings
from pycore.client.viewer_words import VIEWER_WORDS
from pycore.client.wall import OfferedWall, wall_data
from pycore.client.words import answer_lines
from pycore.speech import language, template_in_use


def offer_json(
    offer: Offer, addresses: Sequence[str], surroundings: Surroundings, wall: OfferedWall | None = None
) -> str:
    """Write down what the viewer's program reads.

    Parameters
    ----------
    offer : Offer
    addresses : sequence of str
        The data addresses of its textures, in order.
    surroundings : Surroundings
    wall : OfferedWall, optional
        A photographed wall.

    Returns
    -------
    str
        JSON in ASCII without `<`, `>` and `&`.
    """
    alone = len(offer.variants) == 1
    spoken = (
        {}
        if language() == "en"
        else {"language": language(), "words": {one: template_in_use(one) for one in VIEWER_WORDS}}
    )
    data: dict[str, Any] = {
        **spoken,
        "textures": list(addresses),
        "folds": [
            {
                "positions": packed_array(one.positions),
                "uv": packed_array(one.uv),
                "triangles": packed_array(one.triangles),
            }
            for one in offer.folds
        ],
        "surroundings": surroundings.model_dump(mode="json"),
        **({} if wall is None else {"wall": wall_data(wall)}),
        "variants": [
            {
                "letter": "" if alone else LETTERS[number],
                "label": showable(one.label.strip()),
                "answer": [showable(line) for line in answer_lines(one, letter=LETTERS[number], alone=alone)],
                "texture": one.texture,
                "fold": one.fold,
                "sizes": {
                    "faceWidthMm": one.job.face.width_mm,
                    "faceHeightMm": one.job.face.height_mm,
                    "depthMm": one.job.bars.depth_mm,
                    "turnoverMm": one.job.wrap.turnover_mm,
                    "weighsG": round(whole_g(one.job)[1] / one.job.group.panels, 1),
                    # Absent: the viewer's rule, which is the core's.
                    **({} if one.job.bars.width_mm is None else {"barWidthMm": one.job.bars.width_mm}),
                },
                "panels": [
                    {
                        "centreMm": panel.centre_mm,
                        # In shares of the texture, whose pixels may become fewer.
                        "top": panel.top_px / len(offer.textures[one.texture].pixels),
                        "bottom": panel.bottom_px / len(offer.textures[one.texture].pixels),
                    }
                    for panel in one.panels
                ],
            }
            for number, one in enumerate(offer.variants)
        ],
    }
    # ASCII alone, and no character that means anything to HTML: no text can end the element.
    text = json.dumps(data, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
