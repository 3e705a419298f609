"""Notes on the bars."""

from __future__ import annotations

import pytest

from pycore.bars.notes import bars_notes
from pycore.bars.report import bars_report
from pycore.contract.check import check_job
from pycore.contract.schema import field_schema
from pycore.tasks.layout import lay_out


@pytest.mark.parametrize(
    ("face", "message"),
    [
        ((600, 500), None),
        ((700, 500), "A span of 700 mm needs a cross-brace"),
        ((500, 900), "A span of 900 mm needs a cross-brace"),
        # Derived: 1300 mm in three stretches and 700 mm in two.
        ((1300, 700), "Bars of 1300 and 700 mm need 3 cross-braces"),
    ],
)
def test_the_note_counts_the_braces_that_the_list_has(face: tuple[int, int], message: str | None) -> None:
    job = check_job({"face": {"width_mm": face[0], "height_mm": face[1]}})
    found = bars_notes(job)
    assert len(found) == (message is not None)
    assert sum(one.count for one in bars_report(job).braces) == (3 if face[0] == 1300 else len(found))
    for note in found:
        assert message is not None
        assert note.message.startswith(message)
        assert field_schema(note.field) is not None
    # Where a person reads it.
    assert [note.message for note in lay_out(job).notes if note.code == "brace"] == [
        one.message for one in found
    ]


@pytest.mark.parametrize(("height_mm", "count"), [(500, "a cross-brace"), (700, "2 cross-braces")])
def test_of_a_group_each_panel_needs_its_braces(height_mm: int, count: str) -> None:
    job = check_job({"face": {"width_mm": 700, "height_mm": height_mm}, "group": {"panels": 3}})
    assert bars_notes(job)[0].message.endswith(f"{count} in each panel (common practice).")


def test_a_turn_over_wider_than_the_bars_is_said_to_hang_loose() -> None:
    def said(turnover_mm: float) -> list[str]:
        job = check_job({"bars": {"width_mm": 38}, "wrap": {"turnover_mm": turnover_mm}})
        return [note.message for note in bars_notes(job) if note.code == "turnover-loose"]

    # Derived: 43 mm reach past bars of 38 mm by 5 mm, which may be unsaid.
    assert said(43) == []
    assert said(44) == [
        "A turn-over of 44 mm is wider than the bars of 38 mm: what reaches past them hangs loose."
    ]
