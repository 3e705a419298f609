"""The options that name a user's own sheets, rolls, bars and canvases."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import TYPE_CHECKING

from pycore.cli.options.named_files import file_bytes
from pycore.contract.job import Job
from pycore.errors import FieldError, shown
from pycore.speech import say

if TYPE_CHECKING:
    from pycore.contract.presets import PresetKind, Presets

_EXAMPLE = '--take sheet="Matte A3"'


def presets_from(options: argparse.Namespace) -> Presets:
    """The presets in the file that the options name; it is read once, whoever asks.

    Parameters
    ----------
    options : argparse.Namespace
        With `presets`, a path. What was read is kept in them.

    Returns
    -------
    Presets

    Raises
    ------
    FieldError
        It cannot be read, or something in it is wrong.
    """
    from pycore.contract.presets import Presets
    from pycore.contract.presets_check import check_presets

    known = getattr(options, "presets_read", None)
    if isinstance(known, Presets):
        return known
    try:
        presets = check_presets(file_bytes(options.presets, field="--presets").decode("utf-8-sig"))
    except UnicodeDecodeError as wrong:
        raise FieldError(
            field="--presets",
            expected=say("a file of presets (JSON in UTF-8)"),
            got=say("{file!r}, which is not text", file=options.presets),
            remedy=say("check the name"),
        ) from wrong
    options.presets_read = presets
    return presets


def takes_from(options: argparse.Namespace) -> list[tuple[PresetKind, str]]:
    """What is to be taken of the presets.

    Parameters
    ----------
    options : argparse.Namespace
        With `take` and `presets`.

    Returns
    -------
    list of (PresetKind, str)
        Kind and name, in the order given.

    Raises
    ------
    FieldError
        A choice has no kind, or one of `--take` and `--presets` is given without the other.
    """
    from pycore.contract.presets import PresetKind

    if options.take and options.presets is None:
        raise _alone("--take", "--presets")
    if options.presets is not None and not options.take:
        raise _alone("--presets", "--take")
    found = []
    for text in options.take:
        kind, equals, name = text.partition("=")
        if not equals or kind.strip() not in list(PresetKind):
            raise FieldError(
                field="--take",
                expected=say("sheet=NAME, roll=NAME, bars=NAME or canvas=NAME"),
                got=shown(text),
                remedy=say("write for example {example}", example=_EXAMPLE),
            )
        found.append((PresetKind(kind.strip()), name.strip()))
    return found


def preset_taker(options: argparse.Namespace) -> Callable[[Job], Job]:
    """What puts into a job what the options take of the presets.

    Parameters
    ----------
    options : argparse.Namespace
        With `take` and `presets`.

    Returns
    -------
    callable
        From a checked job to a checked job. It raises a FieldError where the presets or a choice cannot be
        used.
    """
    from pycore.tasks.presets import take_preset

    def taken(job: Job) -> Job:
        takes = takes_from(options)
        for kind, name in takes:
            job = take_preset(job, presets_from(options), kind=kind, name=name)
        return job

    return taken


def bars_price(options: argparse.Namespace) -> float | None:
    """The price of a metre of the bars that the options take.

    Parameters
    ----------
    options : argparse.Namespace
        With `take` and `presets`.

    Returns
    -------
    float or None
        None where no bars are taken, or they have no price.

    Raises
    ------
    FieldError
        The presets or a choice cannot be used.
    """
    from pycore.contract.presets import BarsPreset, PresetKind
    from pycore.tasks.presets import find_preset

    names = [name for kind, name in takes_from(options) if kind is PresetKind.BARS]
    if not names:
        return None
    entry = find_preset(presets_from(options), kind=PresetKind.BARS, name=names[-1])
    return entry.price_per_m if isinstance(entry, BarsPreset) else None


def _alone(given: str, lacking: str) -> FieldError:
    return FieldError(
        field=given,
        expected=say("given with {lacking}", lacking=lacking),
        got=given,
        remedy=say(
            "add for example {example}",
            example=say("--presets shop.json") if lacking == "--presets" else _EXAMPLE,
        ),
        said=say("{given} goes with {lacking}.", given=given, lacking=lacking),
    )
