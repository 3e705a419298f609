"""A table of pieces: its first error is named by row and column."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from pycore.batch.inputs import read_pieces
from pycore.batch.table import read_table
from pycore.bundle.content import BundledFile, Role
from pycore.bundle.write import bundle_bytes
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import FieldError

from .making_jobs import make_jobs

GOOD = """\ufeffname,picture.file,face.width_mm,face.height_mm,sides.left.fill
Low tide,ramp.png,240,180,plain
"Tide, high",ramp.png,300,,

,ramp.png,310,200,fade
"""


@pytest.mark.native
def test_every_row_is_a_piece(tmp_path: Path) -> None:
    jobs = make_jobs(tmp_path, 0)
    (jobs / "spring.csv").write_text(GOOD, encoding="utf-8")
    low, high, third = read_pieces([jobs / "spring.csv"], edits=["print.ppi=72"])
    assert (low.name, low.source, low.error) == ("Low-tide", "spring.csv, row 2", "")
    assert low.picture is not None
    assert low.picture.path == str((jobs / "ramp.png").resolve())
    assert low.job is not None
    assert high.job is not None
    assert low.job.sides.left is not None
    assert (low.job.face.width_mm, low.job.sides.left.fill) == (240, "plain")
    # An empty cell leaves the default.
    assert (high.name, high.job.name, high.job.face.height_mm, high.job.sides.left) == (
        "Tide-high",
        "Tide, high",
        200,
        None,
    )
    assert (third.name, third.source) == ("spring-5", "spring.csv, row 5")
    assert {one.job.print.ppi for one in (low, high, third) if one.job} == {72}


@pytest.mark.native
def test_rows_begin_from_a_job_or_a_bundle(tmp_path: Path) -> None:
    jobs, base = make_jobs(tmp_path / "jobs", 0), tmp_path / "base.zip"
    job = check_job({"face": {"height_mm": 180}})
    base.write_bytes(bundle_bytes(job, {Role.PICTURE: BundledFile(name="tide.jpg", data=b"its bytes")}))
    table = jobs / "spring.csv"
    table.write_text("face.width_mm,picture.file\n240,\n300,ramp.png\n", encoding="utf-8")
    first, second = read_pieces([table], base=base)
    assert first.picture is not None
    assert second.picture is not None
    assert first.picture.read() == b"its bytes"
    assert second.picture.read() == (jobs / "ramp.png").read_bytes()
    assert [one.job.face.height_mm for one in (first, second) if one.job] == [180, 180]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "it is empty"),
        ("name\n", "no piece below"),
        ("name,width\nTide,240\n", "row 1, column 2: the job has no field 'width'"),
        (
            "name,bars.depth\nTide,20\n",
            r"column 2: the job has no field 'bars.depth'; did you mean bars.depth_mm\?",
        ),
        ("name,face\nTide,1\n", "row 1, column 2: the job has no field 'face'"),
        ("name,,client\nTide,1,A\n", "row 1, column 2: the column has no name"),
        ("name,name\nTide,Ebb\n", "row 1, column 2: the field name stands twice"),
        ('name\n"Tide\n', "it is no CSV"),
        ("version\n2\n", "no field 'version'"),
    ],
)
def test_the_first_error_is_named_by_row_and_column(text: str, said: str) -> None:
    with pytest.raises(FieldError, match=said) as caught:
        read_table(text.encode(), file="a.csv", base={}, edits=[])
    assert "\n" not in str(caught.value)
    assert "a.csv" in str(caught.value)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_tables_are_read_as_spreadsheets_save_them(mark: str, encoding: str) -> None:
    """Common practice, no source: semicolons where numbers have a decimal comma, tabs in UTF-16."""
    rows = [["name", "face.width_mm", "client"], ["Flut, früh", "240,5", "1,5"], ["Ebbe", "300", ""]]
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=mark).writerows(rows)
    first, second = read_table(text.getvalue().encode(encoding), file="a.csv", base={}, edits=[])
    assert isinstance(first.job, Job)
    assert isinstance(second.job, Job)
    assert (first.job.name, first.job.face.width_mm, first.job.client) == ("Flut, früh", 240.5, "1,5")
    assert first.cells["face.width_mm"] == "240.5"
    assert (second.job.name, second.job.face.width_mm) == ("Ebbe", 300)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("name,face.width_mm\nEbb,wide\n", "Face width must be 50 to 5000 mm; you gave 'wide'"),
        ("name,face.width_mm\nEbb,2\n", "Face width must be 50 to 5000 mm; you gave 2"),
        ("name;face.width_mm\nEbb;2,5\n", "you gave 2.5"),
        ("name;face.width_mm\nEbb;1,2,3\n", "you gave '1,2,3'"),
        ("name,wrap.ink_over_mm\nEbb,30\n", "Bleed on to the back must"),
        ("name,face.width_mm\nTide, high,240\n", "There is a value in column 3, where no field is named"),
    ],
)
def test_a_row_that_is_no_job_stops_no_other(text: str, said: str) -> None:
    usual = text.splitlines()[0].count(",") * ","
    (wrong, good) = read_table(f"{text}Tide{usual}\n".encode(), file="a.csv", base={}, edits=[])
    assert wrong.number == 2
    assert isinstance(wrong.job, FieldError)
    assert said in str(wrong.job)
    assert isinstance(good.job, Job)


def test_a_table_that_is_not_text_is_told() -> None:
    with pytest.raises(FieldError, match="not text in UTF-8"):
        read_table(b"name\n\xff\xfe", file="a.csv", base={}, edits=[])
