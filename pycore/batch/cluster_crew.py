"""Workers of a cluster, by Dask's scheduler; files go through it, or lie in folders that all machines share.

Each piece is given to one worker by its address, one piece at a time. A worker that is gone is known by the
scheduler's list: its piece comes back as lost. Only workers of this program's version are given anything.
"""

from __future__ import annotations

import contextlib
import socket
import tempfile
import time
import uuid
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import urlsplit

from pycore import __version__
from pycore.batch.crew import News
from pycore.batch.making import KindDone, Order, Outcome, make_piece
from pycore.errors import FieldError, OutputError, reason_of, shown
from pycore.progress import run_to_end
from pycore.speech import say

if TYPE_CHECKING:
    from distributed import Client, Future

#: How long a scheduler may take to answer, and how long a batch waits for a first worker.
ANSWER_S: Final = 4.0
#: How long a batch goes on without any worker.
PATIENCE_S: Final = 60.0
_WAIT_S: Final = 0.3
_SCHEMES: Final = {"tcp", "tls", "ws", "wss"}
_LOOK_S: Final = 1.0


def cluster_crew(address: str, *, share: Path | None = None) -> ClusterCrew:
    """Reach a cluster and look at its workers.

    Parameters
    ----------
    address : str
        Of its scheduler.
    share : Path or None
        The batch's folder, which all machines see under the same path; None: files are sent.

    Returns
    -------
    ClusterCrew

    Raises
    ------
    FieldError
        Dask is not installed, nobody answers, there is no worker, or one is of another version or does not
        see the shared folder.
    """
    try:
        from distributed import Client
    except ImportError as wrong:
        raise FieldError(
            field="--scheduler",
            expected=say("used with Dask installed"),
            got=say("a Python without it"),
            remedy=say("install tuckfold with the extra “cluster”"),
        ) from wrong
    _check_address(address)
    try:
        client = Client(address, timeout=ANSWER_S, set_as_default=False, name="tuckfold-batch")
    except (OSError, TimeoutError, ValueError, RuntimeError, KeyError) as wrong:
        raise _no_scheduler(address) from wrong
    crew = ClusterCrew(client, share=share)
    try:
        crew.look_at_workers(must_have=True)
    except BaseException:
        crew.close()
        raise
    return crew


class ClusterCrew:
    """Workers of a cluster.

    Parameters
    ----------
    client : distributed.Client
        Connected.
    share : Path or None
        The batch's folder, where all machines see it.
    """

    def __init__(self, client: Client, *, share: Path | None) -> None:
        self._client, self._share = client, share
        #: Workers that were looked at, with the memory that each may use; 0 where it does not say.
        self._known: dict[str, int] = {}
        self._at_work: dict[str, tuple[Order, Future[Any] | None]] = {}
        self._looked = self._seen = time.monotonic()

    @property
    def busy(self) -> dict[str, str]:
        """The workers at work, by address, each with the name of its piece."""
        return {worker: order.name for worker, (order, _) in self._at_work.items()}

    def takes(self, order: Order) -> bool:
        """Whether a worker is free that has memory for the piece, or than which none has more.

        Parameters
        ----------
        order : Order

        Returns
        -------
        bool
        """
        return self._worker_for(order) is not None

    def give(self, order: Order) -> None:
        """Hand an order to a free worker, with its picture and profile where files are sent.

        Parameters
        ----------
        order : Order
        """
        worker = self._worker_for(order)
        assert worker is not None
        task: Any = _make_here
        if self._share is None:
            task = _make_and_send
            profile = None if order.profile is None else order.profile.with_data()
            order = replace(order, picture=order.picture.with_data(), profile=profile)
        future = None
        # A worker that has just ended makes the scheduler fail in its own ways; the piece comes back as lost.
        with contextlib.suppress(Exception):
            # Put with the one that needs it: an order holds a picture, which is no small thing.
            sent = self._client.scatter(order, workers=[worker], hash=False, direct=False)
            future = self._client.submit(
                task, sent, workers=[worker], allow_other_workers=False, retries=0, pure=False
            )
        self._at_work[worker] = (_without_data(order), future)
        if future is None:
            # Not before it is on the scheduler's list again is it given anything more.
            del self._known[worker]

    def news(self) -> list[News]:
        """Wait a short while for news.

        Returns
        -------
        list of News

        Raises
        ------
        FieldError
            No worker is left, and none has come for a while.
        """
        time.sleep(_WAIT_S)
        if time.monotonic() - self._looked > _LOOK_S:
            self.look_at_workers(must_have=False)
        found = []
        for worker, (order, future) in list(self._at_work.items()):
            if future is None or worker not in self._known:
                found.append(News(name=order.name, lost=say("it left the cluster")))
            elif future.status == "finished":
                found.append(self._finished(order, future))
            elif future.status in ("error", "lost", "cancelled"):
                how = (
                    str(future.exception())
                    if future.status == "error"
                    else say("its task was {status}", status=future.status)
                )
                found.append(News(name=order.name, lost=" ".join(how.split())))
            else:
                continue
            if future is not None:
                with contextlib.suppress(Exception):
                    future.release()
            del self._at_work[worker]
        return found

    def close(self) -> None:
        """Take back what is not done, and let the cluster go."""
        futures = [future for _, future in self._at_work.values() if future is not None]
        with contextlib.suppress(Exception):
            self._client.cancel(futures, force=True)
        with contextlib.suppress(Exception):
            self._client.close(timeout=ANSWER_S)

    def look_at_workers(self, *, must_have: bool) -> None:
        """Bring the list of workers up to date; new ones are looked at before they are given anything.

        Parameters
        ----------
        must_have : bool
            There must be one within a few seconds, and all must be of this version.

        Raises
        ------
        FieldError
            There is none, or one of the first is of another version or does not see the shared folder.
        """
        self._looked = time.monotonic()
        if must_have:
            with contextlib.suppress(TimeoutError):
                self._client.wait_for_workers(1, timeout=ANSWER_S)
        try:
            listed = self._client.scheduler_info(n_workers=-1)["workers"]
        except (OSError, TimeoutError, ValueError) as wrong:
            raise _no_workers(say("its scheduler does not answer")) from wrong
        self._known = {address: memory for address, memory in self._known.items() if address in listed}
        new = [address for address in listed if address not in self._known]
        if new:
            self._look_at(new, listed, must_be_equal=must_have)
        if self._known:
            self._seen = time.monotonic()
        elif must_have or time.monotonic() - self._seen > PATIENCE_S:
            raise _no_workers(say("it has no worker"))

    def _look_at(self, new: list[str], listed: dict[str, Any], *, must_be_equal: bool) -> None:
        probe = None
        try:
            if self._share is not None:
                probe = self._share.resolve() / f".seen-{uuid.uuid4().hex}"
                probe.write_bytes(b"")
            answers = self._client.run(
                _introduce, None if probe is None else str(probe), workers=new, on_error="return"
            )
        except OSError as wrong:
            raise OutputError(
                field="--out",
                expected=say("a folder that can be written"),
                got=reason_of(wrong),
                remedy=say("choose another folder"),
            ) from wrong
        finally:
            if probe is not None:
                probe.unlink(missing_ok=True)
        for address, answer in answers.items():
            # A worker without this program cannot even read the question.
            version, sees = answer if isinstance(answer, tuple) else ("", True)
            if version == __version__ and sees:
                self._known[address] = int(listed[address].get("memory_limit") or 0)
            elif must_be_equal and version == __version__:
                raise FieldError(
                    field="--files",
                    expected=say("“sent”, or a folder that all machines see under the same path"),
                    got=say("“shared”, and the worker {address} does not see it", address=address),
                    remedy=say("mount the folder there, or send the files"),
                )
            elif must_be_equal:
                has = say("version {version}", version=version) if version else say("none that can be used")
                raise FieldError(
                    field="--scheduler",
                    expected=say(
                        "a cluster whose workers run version {version} of this program", version=__version__
                    ),
                    got=say("one whose worker {address} runs {has}", address=address, has=has),
                    remedy=say("install the same version on all machines"),
                )

    def _worker_for(self, order: Order) -> str | None:
        free = {one: memory for one, memory in self._known.items() if one not in self._at_work}
        if not free:
            return None
        # A worker that does not say what it has is taken to have enough.
        room = {one: memory or 2**62 for one, memory in free.items()}
        largest = max(memory or 2**62 for memory in self._known.values())
        fitting = [one for one in free if room[one] >= min(order.need_bytes, largest)]
        # The smallest that fits: the larger ones stay free for larger pieces.
        return min(fitting, key=lambda one: room[one], default=None)

    def _finished(self, order: Order, future: Future[Any]) -> News:
        try:
            return News(name=order.name, share=1.0, outcome=future.result(timeout=600))
        except Exception as wrong:  # Its worker may end while it hands the files over.
            return News(
                name=order.name, lost=say("{name} as it handed over the files", name=type(wrong).__name__)
            )


def _check_address(address: str) -> None:
    """Look whether anybody listens there, before Dask begins to wait for an answer."""
    found = urlsplit(address if "://" in address else f"tcp://{address}")
    try:
        host, port = found.hostname, found.port
        if found.scheme not in _SCHEMES or not host or not port:
            raise _no_scheduler(address)
        with socket.create_connection((host, port), timeout=ANSWER_S):
            pass
    except (OSError, ValueError) as wrong:
        raise _no_scheduler(address) from wrong


def _no_scheduler(address: str) -> FieldError:
    return FieldError(
        field="--scheduler",
        expected=say("the address of a scheduler that answers"),
        got=shown(address),
        remedy=say("start the scheduler, or correct the address"),
    )


def _introduce(probe: str | None) -> tuple[str, bool]:
    """Run by a worker: its version, and whether it sees a file."""
    from pycore import __version__ as own

    return own, probe is None or Path(probe).is_file()


def _make_here(order: Order) -> Outcome:
    """Run by a worker: the files go to the folder that all share."""
    return run_to_end(make_piece(order))


def _make_and_send(order: Order) -> Outcome:
    """Run by a worker: the files come back with the outcome."""
    with tempfile.TemporaryDirectory() as folder:
        outcome = run_to_end(make_piece(replace(order, folder=folder)))
        done = {
            kind: KindDone(
                files=one.files,
                notes=one.notes,
                data={name: (Path(folder) / name).read_bytes() for name in one.files},
            )
            for kind, one in outcome.done.items()
        }
    return replace(outcome, done=done)


def _without_data(order: Order) -> Order:
    """The order without the files' bytes: those are not needed to know it by."""
    profile = None if order.profile is None else replace(order.profile, data=None)
    return replace(order, picture=replace(order.picture, data=None), profile=profile)


def _no_workers(reason: str) -> FieldError:
    return FieldError(
        field="--scheduler",
        expected=say("a cluster with workers"),
        got=say("one that cannot be used: {reason}", reason=reason),
        remedy=say("start workers, then start the batch again: what is done is kept"),
    )
