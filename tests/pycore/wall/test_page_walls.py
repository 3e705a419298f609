"""The numbers that the client page is held to are the core's."""

from __future__ import annotations

import base64
import json

import numpy as np
import pytest

from pycore.wall.exif import filed_focal_px
from tests.pycore.wall.write_page_exif import FILE as EXIF_FILE
from tests.pycore.wall.write_page_exif import SIZE_PX
from tests.pycore.wall.write_page_walls import FILE, page_walls

pytestmark = pytest.mark.native


def test_the_file_holds_what_the_core_measures() -> None:
    kept = json.loads(FILE.read_text(encoding="utf-8"))
    made = json.loads(json.dumps(page_walls()))
    assert len(kept) == len(made)
    for one, other in zip(kept, made, strict=True):
        assert one.keys() == other.keys()
        for name in one:
            if name == "focal_from":
                assert one[name] == other[name]
                continue
            # Machines round a little differently.
            assert np.array(one[name]) == pytest.approx(np.array(other[name]), rel=1e-7, abs=1e-9)


def test_the_focal_lengths_are_those_that_the_core_reads() -> None:
    for one in json.loads(EXIF_FILE.read_text(encoding="utf-8")):
        data = base64.b64decode(one["data"])
        assert filed_focal_px(data, width_px=SIZE_PX[0], height_px=SIZE_PX[1]) == one.get("focal_px")
