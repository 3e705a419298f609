"""One piece made by one worker: its picture opened, each kind of output made and put in its place."""

from __future__ import annotations

import hashlib
from collections.abc import Generator
from dataclasses import dataclass, field, replace
from pathlib import Path

from pycore import __version__
from pycore.batch.kinds import PIECE_KINDS, Bench, Choices
from pycore.batch.ledger import making_folder, settle
from pycore.batch.piece import FileSource
from pycore.contract.check import read_job
from pycore.contract.error_record import ErrorRecord
from pycore.contract.notes import Note, each_once
from pycore.errors import FieldError, OutputError, TuckfoldError, shown
from pycore.progress import Progress, part_of
from pycore.proofing.canvas_profile import read_canvas_profile
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import language, say, speaking
from pycore.tasks.open_picture import open_picture

#: Of a piece's progress: opening the picture.
_OPENED = 0.1


@dataclass(frozen=True, kw_only=True)
class Order:
    """What a worker is asked for; it can be sent to another process or machine.

    Attributes
    ----------
    name : str
    job_text : str
        The job as JSON.
    picture : FileSource
    picture_sha256 : str
    profile : FileSource or None
    keys : dict of str to str
        Each kind of output that is to be made, with its key for the record.
    choices : Choices
    folder : str
        The piece's own; where files are sent, one that is the worker's own.
    version : str
        Of the program that orders.
    language : str
        What is said of the piece is in this language.
    need_bytes : int
        Memory that it takes, as estimated.
    """

    name: str
    job_text: str
    picture: FileSource
    picture_sha256: str
    profile: FileSource | None
    keys: dict[str, str]
    choices: Choices
    folder: str
    version: str = __version__
    language: str = field(default_factory=language)
    need_bytes: int = 0

    def read_from(self) -> list[Path]:
        """Where the picture and the profile lie.

        Returns
        -------
        list of Path
        """
        return [Path(one.path) for one in (self.picture, self.profile) if one is not None]


@dataclass(frozen=True, kw_only=True)
class KindDone:
    """One kind of output that was made."""

    files: list[str]
    notes: list[Note]
    data: dict[str, bytes] = field(default_factory=dict)
    """The files' bytes, where they are sent back."""


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of an order: the kinds that were made, and the error that ended it, if any."""

    name: str
    done: dict[str, KindDone]
    error: str = ""
    refusal: ErrorRecord | None = None


def make_piece(order: Order) -> Generator[Progress, None, Outcome]:
    """Make one piece; whatever goes wrong is told in the outcome.

    Parameters
    ----------
    order : Order

    Yields
    ------
    Progress

    Returns
    -------
    Outcome
    """
    done: dict[str, KindDone] = {}
    error, refusal = "", None
    with speaking(order.language):
        try:
            yield from _make(order, done)
        except TuckfoldError as wrong:
            error, refusal = " ".join(str(wrong).split()), ErrorRecord.of(wrong)
        except MemoryError:
            error = say("There is not enough memory for a piece of this size. Lower print.ppi.")
        except Exception as wrong:  # One bad job must not stop the others.
            error = say(
                "Fault in the program: {name}: {wrong}", name=type(wrong).__name__, wrong=shown(str(wrong))
            )
    return Outcome(name=order.name, done=done, error=error, refusal=refusal)


def _make(order: Order, done: dict[str, KindDone]) -> Generator[Progress, None, None]:
    check_version(order.version)
    job = read_job(order.job_text)
    profiles = ProfileStore()
    if order.profile is not None:
        opened = read_canvas_profile(order.profile.read(), name=order.profile.name)
        profiles.keep(replace(opened, name=job.colour.profile))
    data = order.picture.read()
    if hashlib.sha256(data).hexdigest() != order.picture_sha256:
        raise OutputError(
            field="picture.file",
            expected=say("as it was when the batch began"),
            got=say("another"),
            remedy=say("start the batch again"),
            said=say(
                "The picture {picture!r} has changed since the batch began.", picture=order.picture.name
            ),
        )
    picture = yield from part_of(open_picture(data, file=order.picture.name), begin=0, share=_OPENED)
    del data
    folder = Path(order.folder)
    share = (1 - _OPENED) / max(1, len(order.keys))
    for place, (kind, key) in enumerate(order.keys.items()):
        with making_folder(folder) as making:
            bench = Bench(
                job=job,
                picture=picture,
                profiles=profiles,
                name=order.name,
                folder=making,
                choices=order.choices,
            )
            making_it = PIECE_KINDS[kind].make(bench)
            made = yield from part_of(making_it, begin=_OPENED + place * share, share=share)
            notes = each_once([*picture.info.notes, *made.notes])
            settle(folder, making, kind=kind, key=key, files=made.files, notes=notes, read=order.read_from())
        done[kind] = KindDone(files=made.files, notes=notes)


def check_version(version: str) -> None:
    """Refuse an order of another version of this program: its files would not be the same.

    Parameters
    ----------
    version : str

    Raises
    ------
    FieldError
        It is another.
    """
    if version != __version__:
        raise FieldError(
            field="--scheduler",
            expected=say("a cluster whose workers run version {version}", version=version),
            got=say("a worker of version {version}", version=__version__),
            remedy=say("install the same version on all machines"),
        )
