"""Importing pydantic without what it asks for and a short command never uses: a third of its time."""

from __future__ import annotations

import os
from typing import Final, TypeVar

#: web/src/worker/python.ts sets the same.
_SWITCHES: Final = {"PYDANTIC_DISABLE_PLUGINS": "__all__", "PYDANTIC_SKIP_VALIDATING_CORE_SCHEMAS": "1"}

_Function = TypeVar("_Function")


def import_pydantic() -> None:
    """Import what pydantic's models stand on.

    pydantic looks for plugins among all installed packages and checks its own schemas; both are switched off,
    as on the page (the tests run with both). Before Python 3.13, the decorator by which it marks a few old
    functions loads all of asyncio; while pydantic is imported, the decorator leaves them as they are.

    Raises
    ------
    ImportError
        pydantic is not installed.

    Examples
    --------
    >>> import_pydantic()
    >>> os.environ["PYDANTIC_DISABLE_PLUGINS"]
    '__all__'
    """
    for name, value in _SWITCHES.items():
        os.environ.setdefault(name, value)
    from typing_extensions import deprecated

    kept = deprecated.__call__
    deprecated.__call__ = _as_it_is  # type: ignore[method-assign]  # Meant: see above.
    try:
        import pydantic.main  # noqa: F401 (imported for what follows)
    finally:
        deprecated.__call__ = kept  # type: ignore[method-assign]  # As it was.


def _as_it_is(_: object, function: _Function, /) -> _Function:
    return function
