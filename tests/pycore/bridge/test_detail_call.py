"""A part of the print file over the bridge: two pictures, for a grey and a CMYK picture too."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.choice_messages import DetailReply
from pycore.bridge.session import Session
from pycore.errors import PictureError
from pycore.progress import run_to_end

JOB = {
    "face": {"width_mm": 200, "height_mm": 150},
    "bars": {"depth_mm": 20},
    "print": {"sharpening": 0.5},
}


@pytest.mark.parametrize("mode", ["RGB", "L", "CMYK"])
def test_two_pictures_come_as_large_as_asked_for(mode: str) -> None:
    out = io.BytesIO()
    Image.effect_noise((640, 480), 60).convert(mode).save(out, "TIFF")
    session = Session()
    run_to_end(session.call("open", {"file": "noise.tif"}, out.getvalue()))
    answer = run_to_end(session.call("detail", {"job": JOB, "width_px": 152, "height_px": 120}))
    assert isinstance(answer.reply, DetailReply)
    plain, sharpened = (np.asarray(one) for one in answer.buffers)
    assert answer.reply.plain.shape == list(plain.shape) == [120, 152, 4]
    assert (plain[..., 3] == 255).all()
    # Sharpening strengthens the noise.
    assert sharpened[..., :3].std() > 1.05 * plain[..., :3].std()


def test_a_group_shows_its_first_panel() -> None:
    out = io.BytesIO()
    Image.effect_noise((900, 300), 60).save(out, "PNG")
    session = Session()
    run_to_end(session.call("open", {"file": "noise.png"}, out.getvalue()))
    job = JOB | {"group": {"panels": 3, "across_gap": "joined"}}
    answer = run_to_end(session.call("detail", {"job": job, "width_px": 64, "height_px": 64}))
    assert [one.shape for one in answer.buffers] == [(64, 64, 4)] * 2


def test_it_needs_a_picture() -> None:
    with pytest.raises(PictureError):
        run_to_end(Session().call("detail", {"job": JOB, "width_px": 64, "height_px": 64}))
