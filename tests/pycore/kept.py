"""Results of pure functions kept by the contents of what they are given, for tests that ask much twice."""

from __future__ import annotations

import hashlib
import io
import pickle
from collections.abc import Callable
from typing import ParamSpec, TypeVar

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.profile import Profile
from pycore.proofing.profile_store import ProfileStore

P = ParamSpec("P")
R = TypeVar("R")


class _Pickler(pickle.Pickler):
    """Writes down everything but what never changes and is large: of that, which it is."""

    def __init__(self, file: io.BytesIO, known: list[object]) -> None:
        super().__init__(file, protocol=5)
        self._known = known

    def persistent_id(self, obj: object) -> int | None:
        """The object's own number; it is kept alive, so that no other gets that number."""
        if not isinstance(obj, DeviceGamut | Profile | ProfileStore):
            return None
        self._known.append(obj)
        return id(obj)


def kept(function: Callable[P, R]) -> Callable[P, R]:
    """The same function, which works only where it was not given the same before.

    Parameters
    ----------
    function : callable
        It reads nothing but its arguments; what it returns is changed by nobody.

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
    """
    results: dict[bytes, R] = {}
    known: list[object] = []

    def asked(*args: P.args, **kwargs: P.kwargs) -> R:
        written = io.BytesIO()
        _Pickler(written, known).dump((args, sorted(kwargs.items())))
        key = hashlib.sha256(written.getbuffer()).digest()
        if key not in results:
            results[key] = function(*args, **kwargs)
        return results[key]

    return asked
