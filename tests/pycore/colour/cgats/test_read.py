"""CGATS text read and refused, each fault in one sentence."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.colour.cgats.lab import patch_lab
from pycore.colour.cgats.read import LARGEST_BYTES, read_cgats
from pycore.colour.cgats.table import CgatsTable
from pycore.colour.cgats.write import write_cgats
from pycore.errors import FieldError

GOOD = """CGATS.17
ORIGINATOR "a device"
# a remark
WEIGHTING_FUNCTION "ILLUMINANT, D50"
WEIGHTING_FUNCTION "OBSERVER, 2 degree"
NUMBER_OF_FIELDS 5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS 2
BEGIN_DATA
A1 "bare canvas" 95.5 -0.5 1.5
A2\tred\t45.0\t6.0e1\t40
END_DATA
"""


def read(text: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return patch_lab(read_cgats(text.encode(), name="measured"), name="measured")


def test_a_good_text_is_read() -> None:
    table = read_cgats(GOOD.encode(), name="measured")
    assert table.column("SAMPLE_NAME") == ["bare canvas", "red"]
    assert read(GOOD).tolist() == [[95.5, -0.5, 1.5], [45.0, 60.0, 40.0]]


def test_what_is_written_is_read_again() -> None:
    table = CgatsTable(
        fields=("SAMPLE_ID", "SAMPLE_NAME", "LAB_L"),
        rows=(("A1", 'the "first" one, früh', "95.000"), ("A2", "", "1")),
        keywords={"DESCRIPTOR": ("one",), "OWN_WORD": ("of a strip",)},
    )
    again = read_cgats(write_cgats(table).encode(), name="expected")
    assert again.fields == table.fields
    assert again.rows == (("A1", "the 'first' one, früh", "95.000"), ("A2", "", "1"))
    assert again.keywords["OWN_WORD"] == ("of a strip",)


def test_xyz_of_the_white_is_white() -> None:
    text = GOOD.replace("LAB_L LAB_A LAB_B", "XYZ_X XYZ_Y XYZ_Z").replace("95.5 -0.5 1.5", "96.42 100 82.49")
    # published: ISO 13655 has the perfect diffuser at Y 100, ICC.1 the D50 white 0.9642, 1, 0.8249
    assert np.abs(read(text)[0] - [100, 0, 0]).max() < 1e-9


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("LAB_L", "LAB_C", "LAB_L is missing"),
        ("NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3", "has 2 rows and says NUMBER_OF_SETS '3'"),
        ("NUMBER_OF_FIELDS 5", "NUMBER_OF_FIELDS 4", "has 5 fields and says NUMBER_OF_FIELDS '4'"),
        ("-0.5 1.5", "-0.5", "has 4 values in row 1 of the data and names 5 fields"),
        ("95.5", "1,095,5", "is '1,095,5', which is no number"),
        ("95.5", "nan", "is 'nan', which is no number"),
        ("95.5", "1e999", "which is no number"),
        ("95.5", "955", r"Row 1 of the data \('A1'\) is L\*a\*b\* 955"),
        ("D50", "D65", "for the illuminant D65"),
        ("2 degree", "10 degree", "for the 10 degree observer"),
        ('WEIGHTING_FUNCTION "ILLUMINANT, D50"', 'MEASUREMENT_SOURCE "Illumination=D65"', "D65"),
        ("END_DATA\n", "", "ends before END_DATA"),
        ("BEGIN_DATA_FORMAT", "", "names no fields|before it names their fields"),
        ("SAMPLE_NAME LAB_L", "LAB_L LAB_L", "names the field 'LAB_L' twice"),
    ],
)
def test_a_fault_is_said_in_one_sentence(old: str, new: str, said: str) -> None:
    # An ending is taken off the text's end, not off END_DATA_FORMAT.
    text = GOOD[: -len(old)] + new if old == "END_DATA\n" else GOOD.replace(old, new, 1)
    with pytest.raises(FieldError, match=said) as wrong:
        read(text)
    assert wrong.value.field == "measured"
    assert wrong.value.message.count(". ") == 0


def test_a_decimal_comma_is_read() -> None:
    """Common practice, no source: programs of countries with one write it into such texts too."""
    assert read(GOOD.replace("95.5 -0.5 1.5", "95,5 -0,5 1,5"))[0].tolist() == [95.5, -0.5, 1.5]


def test_a_name_may_be_missing_between_tabs() -> None:
    lines = GOOD.splitlines()
    begins = lines.index("BEGIN_DATA") + 1
    lines[begins] = "A1\t\t95.5\t-0.5\t1.5"
    assert read("\n".join(lines))[0].tolist() == [95.5, -0.5, 1.5]


@pytest.mark.parametrize("data", [b"", b"\x00\xff\xfe" * 1000, b'"' * 100_000, b"BEGIN_DATA\n" * 1000])
def test_other_bytes_are_refused(data: bytes) -> None:
    with pytest.raises(FieldError):
        read_cgats(data, name="measured")


def test_a_huge_text_is_refused_before_it_is_read() -> None:
    with pytest.raises(FieldError, match="at most 4 MB"):
        read_cgats(b" " * (LARGEST_BYTES + 1), name="measured")


def test_too_many_rows_are_refused() -> None:
    rows = b"A1 x 1 1 1\n" * 20_001
    head = GOOD[: GOOD.index("NUMBER_OF_SETS")].encode()
    with pytest.raises(FieldError, match="more than 20000 patches"):
        read_cgats(head + b"BEGIN_DATA\n" + rows + b"END_DATA\n", name="measured")
