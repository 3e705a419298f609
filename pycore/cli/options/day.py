"""`--date`: the day on what is made."""

from __future__ import annotations

import datetime

from pycore.errors import FieldError
from pycore.speech import say


def day_from(text: str | None) -> str:
    """The day that `--date` names.

    Parameters
    ----------
    text : str or None
        None for today.

    Returns
    -------
    str
        YYYY-MM-DD.

    Raises
    ------
    FieldError
        It is no day.

    Examples
    --------
    >>> day_from("2031-04-30")
    '2031-04-30'
    """
    if text is None:
        return datetime.date.today().isoformat()
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError as wrong:
        raise FieldError(
            field="--date",
            expected=say("a day as YYYY-MM-DD"),
            got=repr(text),
            remedy=say("write for example 2031-04-30"),
        ) from wrong
