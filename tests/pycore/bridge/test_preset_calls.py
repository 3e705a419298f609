"""The calls for presets as the page makes them."""

from __future__ import annotations

from typing import Any

import pytest

from pycore.bridge.session import Session
from pycore.contract.check import check_job
from pycore.errors import FieldError

from .test_session import A4, answer


def test_a_kept_sheet_is_taken_and_its_file_opened() -> None:
    session = Session()
    asked = {"job": A4, "presets": {"version": 1}, "kind": "sheet", "name": "Mine", "price": 12.5}
    kept: Any = answer(session, "keep_preset", asked).reply
    text = kept.presets.model_dump_json(exclude_none=True)
    opened: Any = answer(session, "open_presets", {"text": text, "presets": {"version": 1}}).reply
    assert (opened.presets, opened.added, opened.replaced) == (kept.presets, 1, 0)
    tree = opened.presets.model_dump(mode="json", exclude_none=True)
    other = {**A4, "sheet": {"width_mm": 610}}
    again = {"job": other, "presets": tree, "kind": "sheet", "name": "Mine"}
    taken: Any = answer(session, "take_preset", again).reply
    assert taken.job.sheet == check_job(A4).sheet


def test_a_wrong_file_is_refused_in_a_sentence() -> None:
    with pytest.raises(FieldError, match="The width of the roll 'Wide' must be 50 to 5000 mm; you gave 0"):
        answer(
            Session(),
            "open_presets",
            {"text": '{"version": 1, "rolls": [{"name": "Wide", "width_mm": 0}]}', "presets": {"version": 1}},
        )
