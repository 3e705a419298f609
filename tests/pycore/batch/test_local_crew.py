"""Processes on this machine: memory is shared out, and one that ends is told and replaced."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from pycore.batch.crew import News
from pycore.batch.inputs import job_text, read_pieces
from pycore.batch.kinds import Choices
from pycore.batch.local_crew import LocalCrew
from pycore.batch.making import Order
from pycore.batch.memory import budget_bytes, free_bytes, picture_size, piece_bytes
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.speech import speaking

from .making_jobs import make_jobs

pytestmark = pytest.mark.native


def order(folder: Path, number: int, *, need_bytes: int = 1) -> Order:
    """One that fails at once: its picture is another by now."""
    piece = read_pieces([make_jobs(folder / "jobs", 3)])[number]
    assert piece.job is not None
    assert piece.picture is not None
    return Order(
        name=piece.name,
        job_text=job_text(piece.job),
        picture=piece.picture,
        picture_sha256="0" * 64,
        profile=None,
        keys={},
        choices=Choices(date="2031-04-30"),
        folder=str(folder),
        need_bytes=need_bytes,
    )


@pytest.fixture
def crew() -> Iterator[LocalCrew]:
    crew = LocalCrew(workers=2, budget_bytes=100)
    yield crew
    crew.close()


def waited(crew: LocalCrew) -> News:
    """The next piece that has ended."""
    until = time.monotonic() + 60
    while time.monotonic() < until:
        for one in crew.news():
            if one.outcome is not None or one.lost:
                return one
    raise TimeoutError("no news")


def test_no_more_pieces_at_once_than_fit(crew: LocalCrew, tmp_path: Path) -> None:
    huge, half, more = (order(tmp_path, number, need_bytes=need) for number, need in enumerate((101, 50, 51)))
    assert crew.takes(huge)  # Alone, whatever it takes: there is no other way to make it.
    crew.give(half)
    assert not crew.takes(huge)
    assert not crew.takes(more)
    assert crew.takes(order(tmp_path, 2, need_bytes=50))
    news = waited(crew)
    assert news.outcome is not None
    assert "has changed since the batch began" in news.outcome.error
    assert crew.takes(more)


def test_a_worker_speaks_the_language_of_its_order(crew: LocalCrew, tmp_path: Path) -> None:
    with speaking("de"):
        crew.give(order(tmp_path, 0))
    outcome = waited(crew).outcome
    assert outcome is not None
    # Derived: the catalogue's own sentence.
    assert "hat sich seit Beginn des Stapels geändert" in outcome.error
    assert outcome.refusal is not None
    assert (outcome.refusal.code, outcome.refusal.values["picture"]) == ("output", "ramp.png")


def test_a_worker_that_is_killed_is_told(crew: LocalCrew, tmp_path: Path) -> None:
    crew.give(order(tmp_path, 0))
    (worker,) = crew._workers
    assert worker.process.pid is not None
    os.kill(worker.process.pid, signal.SIGKILL)
    news = waited(crew)
    assert (news.name, news.lost) == ("piece-000", "it was ended by SIGKILL")
    crew.give(order(tmp_path, 1))
    assert waited(crew).outcome is not None


def test_memory_rises_with_picture_canvas_and_depth(tmp_path: Path) -> None:
    least = piece_bytes(Job(), 6_000_000, is_deep=False)
    for more in (
        piece_bytes(Job(), 24_000_000, is_deep=False),
        piece_bytes(Job(), 6_000_000, is_deep=True),
        piece_bytes(check_job({"print": {"ppi": 600}}), 6_000_000, is_deep=False),
        piece_bytes(check_job({"sides": {"fill": "continued"}}), 6_000_000, is_deep=False),
        piece_bytes(check_job({"sides": {"left": {"fill": "fade"}}}), 6_000_000, is_deep=False),
    ):
        assert more > least
    # regression: the peaks of whole runs on 64-bit Linux, in MiB; the estimate is never less.
    canvas = {"face": {"width_mm": 900, "height_mm": 600}}
    for job, megapixels, peak in (
        ({"print": {"ppi": 72}}, 6, 117),
        ({}, 6, 190),
        ({"print": {"convert": "convert"}}, 6, 301),
        ({"sides": {"fill": "continued"}}, 6, 425),
        ({"sides": {"fill": "continued"}}, 24, 515),
        ({"print": {"bits": 16, "convert": "convert"}}, 24, 423),
        ({"print": {"ppi": 72}}, 60, 529),
    ):
        estimate = piece_bytes(check_job({**canvas, **job}), megapixels * 1_000_000, is_deep=False) / 2**20
        assert peak <= estimate < 3 * peak
    assert picture_size((make_jobs(tmp_path, 0) / "ramp.png").read_bytes()) == (120 * 90, True)
    assert 0 < budget_bytes() <= free_bytes()
