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
