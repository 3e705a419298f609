"""One table of patches: its keywords, its fields and its rows, all as the text has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pycore.errors import FieldError
from pycore.speech import say


@dataclass(frozen=True, kw_only=True, slots=True)
class CgatsTable:
    """A table as text; the numbers in it are not looked at yet.

    Attributes
    ----------
    fields : tuple of str
        Upper case, for example SAMPLE_ID and LAB_L.
    rows : tuple of tuple of str
        As many values in each as there are fields.
    keywords : mapping from str to tuple of str
        Upper case; each with its values in the order in which they stand.
    """

    fields: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    keywords: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def column(self, name: str) -> list[str]:
        """The values of one field.

        Parameters
        ----------
        name : str
            One of `fields`.

        Returns
        -------
        list of str

        Examples
        --------
        >>> CgatsTable(fields=("SAMPLE_ID", "LAB_L"), rows=(("A1", "95"), ("A2", "20"))).column("LAB_L")
        ['95', '20']
        """
        place = self.fields.index(name)
        return [row[place] for row in self.rows]


def cgats_fault(field_name: str, said: str, remedy: str) -> FieldError:
    """An error about a CGATS text, in one sentence.

    Parameters
    ----------
    field_name : str
        What the text is called in a message.
    said : str
        The sentence.
    remedy : str

    Returns
    -------
    FieldError

    Examples
    --------
    >>> str(cgats_fault("measured", "The measured values have no data.", "export them again"))
    'The measured values have no data. Export them again.'
    """
    return FieldError(
        field=field_name,
        expected=say("CGATS text with L*a*b* or XYZ (ISO 28178)"),
        got=say("other text"),
        remedy=remedy,
        said=said,
    )
