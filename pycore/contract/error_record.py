"""An error as plain data: what the page gets, and what the command line writes with `--json`."""

from __future__ import annotations

from typing import Self

from pydantic import Field

from pycore.contract.record import Record
from pycore.errors import TuckfoldError
from pycore.speech import PlainValue


class ErrorRecord(Record):
    """Why something was not done."""

    code: str
    """The error's own word; `crash` where the core itself failed."""
    field: str
    expected: str
    got: str
    remedy: str
    message: str
    values: dict[str, PlainValue] = Field(default_factory=dict)
    """The values in these texts by name, the same in every language; words are the English ones."""

    @classmethod
    def of(cls, wrong: TuckfoldError) -> Self:
        """Turn an error into its record.

        Parameters
        ----------
        wrong : TuckfoldError

        Returns
        -------
        ErrorRecord

        Examples
        --------
        >>> from pycore.errors import FieldError
        >>> from pycore.speech import say
        >>> bounds = say("{least:g} to {most:g} mm", least=6, most=100)
        >>> wrong = FieldError(field="bars.depth_mm", expected=bounds, got="3", remedy="use deeper bars")
        >>> ErrorRecord.of(wrong).values
        {'least': 6, 'most': 100}
        """
        return cls(
            code=wrong.code,
            field=wrong.field,
            expected=wrong.expected,
            got=wrong.got,
            remedy=wrong.remedy,
            message=wrong.message,
            values=wrong.values,
        )
