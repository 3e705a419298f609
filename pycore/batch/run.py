"""A batch from its pieces to its summary: what is done is left alone, and what fails stops nothing else."""

from __future__ import annotations

import contextlib
import hashlib
import time
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from pycore.batch.crew import Crew
from pycore.batch.inputs import job_text
from pycore.batch.kinds import PIECE_KINDS, WHOLE_KINDS, Choices
from pycore.batch.ledger import clear_unfinished, content_key, kept_files, making_folder, settle
from pycore.batch.making import Order, Outcome
from pycore.batch.memory import picture_size, piece_bytes
from pycore.batch.piece import FileSource, Piece
from pycore.batch.report import BatchReport, JobResult, WholeResult
from pycore.contract.error_record import ErrorRecord
from pycore.contract.job import Job
from pycore.contract.notes import Note, each_once, note_line
from pycore.errors import FieldError, OutputError, TuckfoldError, reason_of, shown
from pycore.printing.place import file_at
from pycore.progress import Progress
from pycore.speech import say
from pycore.tasks.job_notes import stopping_notes

#: Attempts at a piece whose worker ends without a word; all but the first have the memory to themselves.
MOST_ATTEMPTS: Final = 3

_LOCK: Final = ".batch.lock"


@dataclass(frozen=True, kw_only=True)
class BatchOptions:
    """What is made, and how.

    Attributes
    ----------
    kinds : tuple of str
        Of `PIECE_KINDS`; empty: planned only.
    whole_kinds : tuple of str
        Of `WHOLE_KINDS`.
    choices : Choices
    """

    kinds: tuple[str, ...] = tuple(PIECE_KINDS)
    whole_kinds: tuple[str, ...] = tuple(WHOLE_KINDS)
    choices: Choices


def run_batch(
    pieces: Sequence[Piece],
    out: Path,
    *,
    options: BatchOptions,
    crew: Callable[[], Crew],
    clock: Callable[[], float] = time.monotonic,
) -> Generator[Progress, None, BatchReport]:
    """Make all pieces and what belongs to all of them together.

    Parameters
    ----------
    pieces : sequence of Piece
    out : Path
        The batch's folder; made where it is not there.
    options : BatchOptions
    crew : callable
        Makes the workers, where there is work for them.
    clock : callable
        Seconds that rise.

    Yields
    ------
    Progress
        With the time that is left, as far as it can be told.

    Returns
    -------
    BatchReport

    Raises
    ------
    FieldError
        There is no job, or no worker can be had.
    OutputError
        The folder cannot be written, or another batch is at work in it.
    """
    if not pieces:
        raise FieldError(
            field="JOBS", expected=say("at least one job"), got=say("none"), remedy=say("name a job file")
        )
    begun = clock()
    with _held(out):
        results = {}
        for place, piece in enumerate(pieces):
            yield Progress(
                done=0,
                label=say(
                    "Looking at job {place} of {piece_count}", place=place + 1, piece_count=len(pieces)
                ),
            )
            results[place] = _Result(piece, out / piece.name, options)
        waiting = deque(one.order for one in results.values() if one.order is not None)
        if waiting:
            by_name = {one.piece.name: one for one in results.values() if one.order is not None}
            yield from _make_all(waiting, by_name, crew, begun=begun, clock=clock)
        jobs = [one.told(out) for one in results.values()]
        planned = [(one.piece.name, one.piece.job) for one in results.values() if one.piece.job is not None]
        whole = [_whole(kind, planned, options.choices, out) for kind in options.whole_kinds]
    return BatchReport(
        jobs=jobs,
        whole=whole,
        done=sum(one.ok and not one.skipped for one in jobs),
        skipped=sum(one.skipped for one in jobs),
        failed=sum(not one.ok for one in jobs),
        seconds=round(clock() - begun, 3),
    )


class _Result:
    """What is known of one piece so far, and what is still to be ordered of it."""

    def __init__(self, piece: Piece, folder: Path, options: BatchOptions) -> None:
        if options.kinds and piece.lacks:
            # Neither made nor planned.
            piece = replace(piece, job=None, error=piece.lacks)
        self.piece, self.folder = piece, folder
        self.error, self.refusal, self.order = piece.error, piece.refusal, None
        self.files: dict[str, list[str]] = {}
        self.notes: list[Note] = []
        self.attempts = 0
        self.made = False
        if piece.job is None:
            return
        self.notes = stopping_notes(piece.job)
        if options.kinds and piece.picture is not None:
            try:
                self.order = self._ordered(piece.job, piece.picture, options)
            except TuckfoldError as wrong:
                self._refuse(wrong)

    def _refuse(self, wrong: TuckfoldError) -> None:
        self.error, self.refusal = " ".join(str(wrong).split()), ErrorRecord.of(wrong)

    def _ordered(self, job: Job, picture: FileSource, options: BatchOptions) -> Order | None:
        clear_unfinished(self.folder)
        data = picture.read()
        digest = hashlib.sha256(data).hexdigest()
        if job.picture.sha256 not in ("", digest):
            raise FieldError(
                field="picture.sha256",
                expected=say("that of the picture beside the job"),
                got=job.picture.sha256,
                remedy=say("put the right picture there, or save the job with this one"),
                said=say(
                    "The picture {picture!r} beside the job is not the one that it was made with.",
                    picture=picture.name,
                ),
            )
        profile = self.piece.profile
        profile_digest = "" if profile is None else hashlib.sha256(profile.read()).hexdigest()
        text = job_text(job)
        keys = {}
        for kind in options.kinds:
            choice = PIECE_KINDS[kind].choice(options.choices)
            key = content_key(job_text=text, picture=digest, profile=profile_digest, kind=kind, choice=choice)
            kept = kept_files(self.folder, kind, key)
            if kept is None:
                keys[kind] = key
            else:
                self.files[kind] = kept.files
                self.notes += kept.notes
        if not keys:
            return None
        picture_px, is_deep = picture_size(data)
        return Order(
            name=self.piece.name,
            job_text=text,
            picture=picture,
            picture_sha256=digest,
            profile=profile,
            keys=keys,
            choices=options.choices,
            folder=str(self.folder.resolve()),
            need_bytes=piece_bytes(job, picture_px, is_deep=is_deep),
        )

    def take(self, outcome: Outcome) -> None:
        """Keep what came of the order; files that were sent are put in their places."""
        assert self.order is not None
        self.error, self.refusal, self.made = outcome.error, outcome.refusal, True
        for kind, done in outcome.done.items():
            try:
                if done.data:
                    self._put(kind, done.data, done.notes)
            except OutputError as wrong:
                self._refuse(wrong)
                return
            self.files[kind] = done.files
            self.notes += done.notes

    def _put(self, kind: str, data: dict[str, bytes], notes: list[Note]) -> None:
        assert self.order is not None
        with making_folder(self.folder) as making:
            for name, content in data.items():
                with file_at(making / name, field="--out") as file:
                    file.write(content)
            settle(
                self.folder,
                making,
                kind=kind,
                key=self.order.keys[kind],
                files=list(data),
                notes=notes,
                read=self.order.read_from(),
            )

    def told(self, out: Path) -> JobResult:
        """What came of the piece."""
        folder = self.folder.relative_to(out).as_posix()
        notes = each_once(self.notes)
        return JobResult(
            name=self.piece.name,
            source=self.piece.source,
            ok=not self.error,
            files=[f"{folder}/{name}" for names in self.files.values() for name in names],
            error=self.error,
            refusal=self.refusal,
            skipped=bool(self.files) and not self.made and not self.error,
            notes=[note_line(one) for one in notes],
            note_records=notes,
        )


def _make_all(
    waiting: deque[Order],
    results: dict[str, _Result],
    crew: Callable[[], Crew],
    *,
    begun: float,
    clock: Callable[[], float],
) -> Generator[Progress, None, None]:
    # The larger a piece, the longer it takes: memory is a fair measure of it.
    weights = {one.name: one.need_bytes for one in waiting}
    shares: dict[str, float] = {}
    ended = failed = 0
    workers = crew()
    try:
        while waiting or len(shares) > ended:
            for order in [one for one in waiting if workers.takes(one)]:
                # The answer may be another once an order is given.
                if workers.takes(order):
                    waiting.remove(order)
                    shares[order.name] = 0.0
                    workers.give(order)
            for news in workers.news():
                result = results[news.name]
                outcome = news.outcome
                if news.lost:
                    result.attempts += 1
                    if result.attempts < MOST_ATTEMPTS:
                        assert result.order is not None
                        del shares[news.name]
                        waiting.append(replace(result.order, need_bytes=2**62))
                        continue
                    outcome = Outcome(name=news.name, done={}, error=_lost(news.lost, result.attempts))
                shares[news.name] = news.share
                if outcome is not None:
                    shares[news.name] = 1.0
                    ended += 1
                    result.take(outcome)
                    failed += bool(result.error)
            done = sum(weights[name] * share for name, share in shares.items()) / sum(weights.values())
            failures = say(", {failed} not done", failed=failed) if failed else ""
            left = _time_left(clock() - begun, done)
            yield Progress(
                done=done,
                label=say(
                    "{ended} of {weight_count} jobs{failures}{left}",
                    ended=ended,
                    weight_count=len(weights),
                    failures=failures,
                    left=left,
                ),
            )
    finally:
        workers.close()
        for name, share in shares.items():
            if share < 1:
                clear_unfinished(results[name].folder)


def _time_left(elapsed_s: float, done: float) -> str:
    """In words; nothing while too little is done to tell."""
    if done < 0.01:
        return ""
    left_s = elapsed_s * (1 - done) / done
    if left_s < 60:
        return say(", less than a minute left")
    if left_s < 3600:
        return say(", about {left_s:.0f} min left", left_s=left_s / 60)
    return say(", about {left_s:.1f} h left", left_s=left_s / 3600)


def _lost(how: str, attempts: int) -> str:
    return say(
        "The worker that made it ended {attempts} times without a word ({how}); the piece "
        "may need more memory than there is. Lower print.ppi, or make it on a larger "
        "machine.",
        attempts=attempts,
        how=how,
    )


def _whole(kind: str, jobs: list[tuple[str, Job]], choices: Choices, out: Path) -> WholeResult:
    try:
        made = WHOLE_KINDS[kind].make(jobs, choices)
        for name, data in made.files.items():
            with file_at(out / name, field="--out") as file:
                file.write(data)
    except TuckfoldError as wrong:
        return WholeResult(kind=kind, error=" ".join(str(wrong).split()))
    except Exception as wrong:  # What is made of all jobs must not cost what was made of each.
        fault = say(
            "Fault in the program: {name}: {wrong}", name=type(wrong).__name__, wrong=shown(str(wrong))
        )
        return WholeResult(kind=kind, error=fault)
    return WholeResult(kind=kind, files=list(made.files), lines=made.lines, figures=made.figures)


@contextlib.contextmanager
def _held(out: Path) -> Iterator[None]:
    """The batch's folder, made and held for this batch alone; a batch that is killed lets go of it."""
    try:
        out.mkdir(parents=True, exist_ok=True)
        # Kept open: the lock is the file's as long as it is.
        file = (out / _LOCK).open("wb")
    except OSError as wrong:
        got = f"{out.name}: {reason_of(wrong)}"
        raise OutputError(
            field="--out",
            expected=say("a folder that can be written"),
            got=got,
            remedy=say("choose another folder"),
            said=say("Nothing can be written into that folder ({got}).", got=got),
        ) from wrong
    with file:
        with contextlib.suppress(ImportError):
            import fcntl

            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError as wrong:
                raise OutputError(
                    field="--out",
                    expected=say("a folder in which no batch is at work"),
                    got=out.name,
                    remedy=say("wait until it has ended, or choose another folder"),
                    said=say("Another batch is at work in the folder {out!r}.", out=out.name),
                ) from wrong
        yield
