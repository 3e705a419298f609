"""A plan's options in a file, which two commands read."""

from __future__ import annotations

from typing import Any

from pycore.cli.options.named_files import file_bytes
from pycore.contract.json_object import parse_object
from pycore.errors import FieldError
from pycore.speech import say


def plan_options_tree(name: str, *, field: str) -> dict[str, Any]:
    """Parse the file of a plan's options, and check nothing of it.

    Parameters
    ----------
    name : str
        Its path.
    field : str
        The option that names it.

    Returns
    -------
    dict
        JSON data.

    Raises
    ------
    FieldError
        It cannot be read, or is no JSON object.
    """
    data = file_bytes(name, field=field)
    try:
        return parse_object(data.decode("utf-8-sig"))
    except UnicodeDecodeError as wrong:
        raise _no_options(field, say("{name!r}, which is not text", name=name)) from wrong
    except FieldError as wrong:
        raise _no_options(field, wrong.got).about(field, file=name) from wrong


def _no_options(field: str, got: str) -> FieldError:
    return FieldError(
        field=field,
        expected=say("a JSON object with a plan's options"),
        got=got,
        remedy=say("write it as {{ … }}"),
    )
