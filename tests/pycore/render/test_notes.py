"""Notes about how a picture becomes the canvas's pixels."""

from __future__ import annotations

import io
from typing import Any

import pytest
from PIL import Image

from pycore.contract.check import check_job
from pycore.progress import run_to_end
from pycore.tasks.layout import lay_out
from pycore.tasks.open_picture import OpenPicture, open_picture


def _picture(mode: str) -> OpenPicture:
    out = io.BytesIO()
    Image.linear_gradient("L").convert(mode).save(out, "TIFF")
    return run_to_end(open_picture(out.getvalue(), file="ramp.tif"))


@pytest.mark.parametrize(
    ("mode", "sides", "said"),
    [
        ("L", {"fill": "plain", "colour": "#ff2080"}, "the top, right, bottom and left sides prints grey."),
        (
            "L",
            {"fill": "mirror", "left": {"fill": "fade", "colour": "#ff2080"}},
            "the left side prints grey.",
        ),
        # Derived: equal amounts of red, green and blue are grey; an edge's own colour is the picture's.
        ("L", {"fill": "plain", "colour": "#404040"}, None),
        ("L", {"fill": "plain"}, None),
        ("L", {"fill": "mirror", "colour": "#ff2080"}, None),
        ("RGB", {"fill": "plain", "colour": "#ff2080"}, None),
    ],
)
def test_a_colour_that_prints_grey_is_said_to(mode: str, sides: dict[str, Any], said: str | None) -> None:
    found = lay_out(check_job({"sides": sides}), _picture(mode)).notes
    notes = [note.message for note in found if note.code == "colour-turns-grey"]
    assert notes == ([] if said is None else [f"The picture is grey, so the colour of {said}"])
