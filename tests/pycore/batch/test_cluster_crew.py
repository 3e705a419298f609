"""A batch on a cluster of worker processes: one is killed, one is of another version, nobody is there."""

from __future__ import annotations

import hashlib
import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import pycore
from pycore.batch.cluster_crew import ANSWER_S, ClusterCrew, cluster_crew
from pycore.batch.crew import News
from pycore.batch.inputs import read_pieces
from pycore.batch.kinds import Choices
from pycore.batch.making import Order
from pycore.batch.run import BatchOptions, run_batch
from pycore.errors import FieldError
from pycore.progress import run_to_end

from .making_jobs import make_jobs

if TYPE_CHECKING:
    from distributed import LocalCluster

pytestmark = [pytest.mark.native, pytest.mark.slow]

PRINTS = BatchOptions(kinds=("print",), whole_kinds=(), choices=Choices(date="2031-04-30"))


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    """A scheduler and two worker processes; one that ends is started again."""
    from distributed import LocalCluster

    with LocalCluster(
        n_workers=2,
        threads_per_worker=1,
        processes=True,
        host="127.0.0.1",
        dashboard_address="127.0.0.1:0",
        silence_logs=50,
    ) as running:
        yield running


def hashes(folder: Path) -> dict[str, str]:
    """The prints of a batch, by name."""
    return {one.name: hashlib.sha256(one.read_bytes()).hexdigest() for one in folder.glob("*/*.tif")}


@pytest.mark.parametrize("is_shared", [False, True])
def test_a_worker_that_is_killed_costs_no_piece(
    cluster: LocalCluster, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, is_shared: bool
) -> None:
    pieces, out = read_pieces([make_jobs(tmp_path / "jobs", 6)]), tmp_path / "out"
    killed: list[str] = []
    lost: list[str] = []
    give, news = ClusterCrew.give, ClusterCrew.news

    def give_and_kill(crew: ClusterCrew, order: Order) -> None:
        give(crew, order)
        if not killed:
            address, name = next(iter(crew.busy.items()))
            pid = next(one.pid for one in cluster.workers.values() if one.worker_address == address)
            os.kill(pid, signal.SIGKILL)
            killed.append(name)

    def news_and_note(crew: ClusterCrew) -> list[News]:
        found = news(crew)
        lost.extend(one.name for one in found if one.lost)
        return found

    monkeypatch.setattr(ClusterCrew, "give", give_and_kill)
    monkeypatch.setattr(ClusterCrew, "news", news_and_note)

    def crew() -> ClusterCrew:
        return cluster_crew(cluster.scheduler_address, share=out if is_shared else None)

    report = run_to_end(run_batch(pieces, out, options=PRINTS, crew=crew))
    assert killed[0] in lost
    assert (report.done, report.failed, [one.error for one in report.jobs]) == (6, 0, [""] * 6)
    assert len(hashes(out)) == 6
    assert [one.name for one in out.rglob(".making-*")] == []
    again = run_to_end(run_batch(pieces, out, options=PRINTS, crew=crew))
    assert (again.done, again.skipped) == (0, 6)


def test_a_worker_of_another_version_is_refused(cluster: LocalCluster) -> None:
    from distributed import Client

    with Client(cluster, set_as_default=False) as client:
        client.wait_for_workers(2, timeout=20)
        one = next(iter(client.scheduler_info()["workers"]))
        client.run(call_itself, "0.0.9", workers=[one])
        with pytest.raises(FieldError, match=rf"whose worker {one} runs version 0\.0\.9") as caught:
            cluster_crew(cluster.scheduler_address)
        client.run(call_itself, pycore.__version__, workers=[one])
    assert caught.value.remedy == "install the same version on all machines"


def call_itself(version: str) -> None:
    """Run by a worker: it is of that version from here on."""
    import pycore

    pycore.__version__ = version


def test_a_scheduler_that_is_not_there_is_told_within_seconds() -> None:
    begun = time.monotonic()
    with pytest.raises(
        FieldError, match="--scheduler must be the address of a scheduler that answers"
    ) as caught:
        cluster_crew("tcp://127.0.0.1:9")
    # Derived: as long as it may take to answer, and a second to load Dask.
    assert time.monotonic() - begun < ANSWER_S + 2
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("address", ["", "nowhere", "tcp://:", "http://127.0.0.1:9", "tcp://no.invalid:8786"])
def test_an_address_that_is_none_is_told_in_a_sentence(address: str) -> None:
    with pytest.raises(FieldError, match="the address of a scheduler that answers"):
        cluster_crew(address)


def test_a_cluster_without_workers_is_told(tmp_path: Path) -> None:
    from distributed import LocalCluster

    with (
        LocalCluster(
            n_workers=0, host="127.0.0.1", dashboard_address="127.0.0.1:0", silence_logs=50
        ) as empty,
        pytest.raises(FieldError, match="it has no worker"),
    ):
        cluster_crew(empty.scheduler_address)
