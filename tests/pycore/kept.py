"""Results of pure functions kept by the contents of what they are given, for tests that ask much twice."""

from __future__ import annotations

import copyreg
import hashlib
import io
import os
import pickle
from collections.abc import Callable
from functools import lru_cache, partial
from pathlib import Path
from typing import Any, Final, ParamSpec, TypeVar

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.profile import Profile
from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.colour.link.seen_colours import SeenColours
from pycore.colour.mapping import intent_comparison
from pycore.colour.mapping.picture_colours import picture_colours
from pycore.edges.crop_moves import crop_move
from pycore.edges.judge import judge
from pycore.edges.things import cut_things
from pycore.fill.continued_plan import plan_continued
from pycore.plan import choose
from pycore.proofing import adjust
from pycore.proofing.profile_store import ProfileStore
from pycore.render.corner_picture import corner_picture

P = ParamSpec("P")
R = TypeVar("R")


# What a link has looked up before makes no difference to what it answers.
copyreg.pickle(SeenColours, lambda _: (SeenColours, ()))


class _Pickler(pickle.Pickler):
    """Writes down everything but what never changes and is large: of that, by which profile it is."""

    def persistent_id(self, obj: object) -> object:
        if isinstance(obj, ProfileStore):
            # Whether the invented canvas was asked for makes no difference.
            obj.profile(ILLUSTRATIVE_NAME)
            return sorted((name, _digest(one.gamut.profile)) for name, one in obj._profiles.items())
        if isinstance(obj, DeviceGamut):
            return "gamut", _digest(obj.profile)
        return _digest(obj) if isinstance(obj, Profile) else None


@lru_cache
def _digest(profile: Profile) -> bytes:
    """A profile's contents, as a hash."""
    tags = [(signature, block.data.tobytes()) for signature, block in profile.tags.items()]
    return hashlib.sha256(pickle.dumps((profile.header, tags), protocol=5)).digest()


def kept(function: Callable[P, R], folder: Path | None = None) -> Callable[P, R]:
    """The same function, which works only where it was not given the same before.

    Parameters
    ----------
    function : callable
        It reads nothing but its arguments; what it returns is changed by nobody.
    folder : Path or None
        Where other processes of this run find what was worked out here.

    Returns
    -------
    callable
        Two arguments are the same where all that they hold is.

    Examples
    --------
    >>> import numpy as np
    >>> calls = []
    >>> double = kept(lambda one: calls.append(one) or one * 2)
    >>> [float(double(np.array([one, 1.0])).sum()) for one in (1.0, 2.0, 1.0)], len(calls)
    ([4.0, 6.0, 4.0], 2)

    What was looked up before is no part of it:

    >>> colours = kept(lambda seen: calls.append(seen))
    >>> seen = SeenColours()
    >>> colours(seen)
    >>> _ = seen.results(np.arange(9, dtype=np.uint32), lambda one: one)
    >>> colours(seen), len(calls)
    (None, 3)

    Another process begins with nothing but the folder:

    >>> from tempfile import TemporaryDirectory
    >>> calls.clear()
    >>> def half(one):
    ...     calls.append(one)
    ...     return one / 2
    >>> with TemporaryDirectory() as folder:
    ...     [kept(half, Path(folder))(one) for one in (1, 3, 1)], len(calls)
    ([0.5, 1.5, 0.5], 2)
    """
    results: dict[bytes, R] = {}

    def asked(*args: P.args, **kwargs: P.kwargs) -> R:
        written = io.BytesIO()
        _Pickler(written, protocol=5).dump((args, sorted(kwargs.items())))
        key = hashlib.sha256(written.getbuffer()).digest()
        if key not in results:
            results[key] = _shared(
                folder,
                f"{function.__module__}.{function.__qualname__}",
                key,
                partial(function, *args, **kwargs),
            )
        return results[key]

    return asked


def _shared(folder: Path | None, name: str, key: bytes, work: Callable[[], R]) -> R:
    """What another process has worked out, or else what is worked out here."""
    if folder is None:
        return work()
    file = folder / f"{name}-{key.hex()}"
    if file.exists():
        found: R = pickle.loads(file.read_bytes())
        return found
    made = work()
    # Whole or not at all: another process may look at the same moment.
    own = file.with_suffix(f".{os.getpid()}")
    own.write_bytes(pickle.dumps(made, protocol=5))
    own.replace(file)
    return made


#: Costly steps, by the names under which they are found. Each gives the same to the same arguments.
COSTLY: Final[dict[str, Callable[..., Any]]] = {
    "pycore.proofing.profile_store.ProfileStore.link": ProfileStore.link,
    "pycore.proofing.profile_store.ProfileStore.report": ProfileStore.report,
    "pycore.proofing.profile_store.ProfileStore.brought": ProfileStore.brought,
    "pycore.proofing.proof_input.picture_colours": picture_colours,
    "pycore.colour.mapping.intent_comparison._figures": intent_comparison._figures,
    "pycore.tasks.edges.judge": judge,
    "pycore.tasks.choices.corner_picture": corner_picture,
    "pycore.render.laid_sides.cut_things": cut_things,
    "pycore.render.laid_sides.crop_move": crop_move,
    "pycore.fill.continued_sides.plan_continued": plan_continued,
    "pycore.plan.choose._laid": choose._laid,
}


def kept_steps() -> dict[str, Callable[..., Any]]:
    """What a test puts in the place of each costly step, so that it is done once for the same arguments.

    Returns
    -------
    dict
        By the name under which each is found.
    """
    return {
        **{name: kept(step) for name, step in COSTLY.items()},
        # Their arguments can be compared as they are.
        "pycore.proofing.adjust._shift_of": lru_cache(maxsize=8)(adjust._shift_of.__wrapped__),
        "pycore.proofing.adjust._bringer_of": lru_cache(maxsize=8)(adjust._bringer_of.__wrapped__),
    }
