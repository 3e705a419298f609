"""The numbers that the client page is held to are the core's."""

from __future__ import annotations

import json

import numpy as np
import pytest

from tests.pycore.wall.write_page_walls import FILE, page_walls

pytestmark = pytest.mark.native


def test_the_file_holds_what_the_core_measures() -> None:
    kept = json.loads(FILE.read_text(encoding="utf-8"))
    made = json.loads(json.dumps(page_walls()))
    assert len(kept) == len(made)
    for one, other in zip(kept, made, strict=True):
        assert one.keys() == other.keys()
        for name in one:
            # Machines round a little differently.
            assert np.array(one[name]) == pytest.approx(np.array(other[name]), rel=1e-7, abs=1e-9)
