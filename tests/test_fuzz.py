"""Mutants of every kind of file end in a result or in one of the core's own errors, soon."""

from __future__ import annotations

import io
import logging
import struct
import subprocess
import sys
import warnings
from pathlib import Path

import numpy as np
import pytest
import tifffile

from pycore.batch.table import read_table
from pycore.contract.check import open_job
from pycore.errors import BundleError, FieldError, PictureError
from tests.fuzz import MOST_S, Tally, fault_of, run
from tests.fuzzing.kinds import KINDS, made

pytestmark = pytest.mark.native

#: Of each kind; `python3 tests/fuzz.py` reads 10,000.
MUTANTS = 500


@pytest.mark.parametrize("kind", list(KINDS))
def test_mutants_end_well(kind: str) -> None:
    tally = run(kind, range(MUTANTS))
    assert tally.faults == []
    assert tally.results + sum(tally.refusals.values()) == MUTANTS
    # Mutants that are all refused at the door, or all read, would find nothing.
    assert tally.results >= MUTANTS // 50
    assert sum(tally.refusals.values()) >= MUTANTS // 10


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_mutant_is_made_from_its_number_alone(kind: str) -> None:
    seeds, again = KINDS[kind].seeds(), KINDS[kind].seeds()
    found = [made(kind, number, seeds) for number in range(40)]
    assert found == [made(kind, number, again) for number in range(40)]
    # derived: one of a few changes rarely leaves a file as it is, or makes what another has made.
    assert len(set(found) - set(seeds)) > 30


def _raises(data: bytes) -> None:
    raise KeyError(data)


def _warns(data: bytes) -> None:
    warnings.warn("hm", stacklevel=1)


def _logs(data: bytes) -> None:
    logging.getLogger("tests.fuzz").warning("a line")


def _tells_little(data: bytes) -> None:
    raise FieldError(field="x", expected="", got="", remedy="")


def _talks(data: bytes) -> None:
    raise FieldError(field="x", expected="y\nz", got="a", remedy="b")


@pytest.mark.parametrize(
    ("read", "said"),
    [
        (_raises, "KeyError"),
        (_warns, "UserWarning"),
        (_tells_little, "tells too little"),
        (_talks, "several lines"),
    ],
)
def test_a_fault_is_seen(read: object, said: str) -> None:
    assert said in fault_of(read, b"", Tally())


def test_a_file_without_an_end_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.fuzz.MOST_S", 0.05)

    def endless(data: bytes) -> None:
        while True:
            pass

    assert MOST_S > 0.05
    assert "not ended after" in fault_of(endless, b"", Tally())


def test_a_log_line_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(KINDS, "csv", type(KINDS["csv"])(seeds=list, read=_logs, mutant=lambda *_: b""))
    assert "error stream" in run("csv", [0]).faults[0][1]


def test_a_long_key_is_cut_in_the_message() -> None:
    # regression: the message had 5,000 characters.
    with pytest.raises(FieldError) as wrong:
        open_job('{"version": 2, "' + "a" * 5000 + '": 1}')
    assert len(str(wrong.value)) < 300


def test_a_cell_that_nests_deep_is_refused() -> None:
    # regression: RecursionError.
    (row,) = read_table(b"face.width_mm\n" + b"[" * 3000 + b"\n", file="a.csv", base={}, edits=[])
    assert isinstance(row.job, FieldError)
    assert row.job.field == "face.width_mm"


def test_a_damaged_tiff_is_refused_without_a_line_of_the_decoders_log() -> None:
    # regression: tifffile's log came before the error on the command line.
    seeds, kind = KINDS["pictures"].seeds(), KINDS["pictures"]
    damaged = seeds[-1][:60]
    ended = subprocess.run(
        [sys.executable, "-c", "import sys\nfrom pycore.picture.read import read_picture\n"
         "read_picture(sys.stdin.buffer.read(), file='a.tif')"],
        input=damaged, capture_output=True, check=False, cwd=Path(__file__).resolve().parents[1],
    )  # fmt: skip
    assert b"PictureError" in ended.stderr
    assert b"TiffTag" not in ended.stderr.split(b"Traceback")[0]
    with pytest.raises(PictureError):
        kind.read(damaged)


def test_an_archive_that_contradicts_itself_is_refused_in_a_short_sentence() -> None:
    # regression: the reason quoted 6,000 bytes of the archive.
    bundle = KINDS["bundles"].seeds()[0]
    at = bundle.index(b"bundle.json")
    longer = bundle[: at - 4] + (4000).to_bytes(2, "little") + bundle[at - 2 :]
    with pytest.raises(BundleError, match="The file is no bundle") as wrong:
        KINDS["bundles"].read(longer)
    assert len(str(wrong.value)) < 300


def test_a_tiff_with_other_bits_in_every_channel_is_refused_in_a_short_sentence() -> None:
    # regression: a damaged count made the message name hundreds of them.
    out = io.BytesIO()
    tifffile.imwrite(out, np.zeros((3, 4, 6), np.uint16), photometric="minisblack", planarconfig="contig")
    same, other = (struct.pack("<6H", *bits) for bits in ([16] * 6, [16, 9, 8, 7, 6, 5]))
    assert same in out.getvalue()
    with pytest.raises(PictureError, match="channels of many different numbers of bits"):
        KINDS["pictures"].read(out.getvalue().replace(same, other))
