"""Every kind of fault has its words: field, what was expected, what came, what to do."""

from __future__ import annotations

import pytest

from pycore.contract.check import read_job
from pycore.errors import FieldError

# Derived from the contract: the first bound is that of `picture.crop.y`, a fraction.
FAULTS = [
    ('{"face": 3}', "face", "an object with fields of its own", "3"),
    ('{"face": null}', "face", "an object with fields of its own", "nothing (null)"),
    ('{"picture": {"crop": {"x": 0.1}}}', "picture.crop.y", "0 to 1", "nothing"),
    ('{"sheet": {"margin_mm": [1, 2, 3]}}', "sheet.margin_mm.3", "0 to 100 mm", "nothing"),
    ('{"sheet": {"margin_mm": [1, 2, 3, 4, 5]}}', "sheet.margin_mm", "4 numbers", "[1, 2, 3, 4, 5]"),
    ('{"sheet": {"margin_mm": 3}}', "sheet.margin_mm", "a list of numbers", "3"),
    ('{"face": {"width_mm": true}}', "face.width_mm", "50 to 5000 mm", "true"),
    ('{"name": 3}', "name", "text", "3"),
    ('{"version": 0}', "version", "2", "0"),
    ('{"name": "\\ud800"}', "job", "text that is Unicode", "half of a character"),
    ('{"face":\n  }', "job", "a JSON object", "text that is not JSON (line 2, column 3)"),
    ('{"": 1}', "''", "a field of the job", "an unknown key"),
    ('{"a\\u001b[31m": 1}', r"'a\x1b[31m'", "a field of the job", "an unknown key"),
]


@pytest.mark.parametrize(("text", "field", "expected", "got"), FAULTS)
def test_a_fault_is_told_in_the_words_of_a_job_file(text: str, field: str, expected: str, got: str) -> None:
    with pytest.raises(FieldError) as caught:
        read_job(text)
    assert (caught.value.field, caught.value.expected, caught.value.got) == (field, expected, got)
    assert caught.value.remedy
