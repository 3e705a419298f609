"""Writing a table of patches as CGATS text."""

from __future__ import annotations

from pycore.colour.cgats.table import CgatsTable

#: ISO 28178 takes over the keyword format of this standard, whose name stands in the first line.
_FIRST_LINE = "CGATS.17"

#: Keywords of the standard; any other is declared before it is used.
_STANDARD = frozenset(
    {
        "CREATED",
        "DESCRIPTOR",
        "INSTRUMENTATION",
        "MANUFACTURER",
        "MATERIAL",
        "MEASUREMENT_SOURCE",
        "ORIGINATOR",
        "PRINT_CONDITIONS",
        "WEIGHTING_FUNCTION",
    }
)


def write_cgats(table: CgatsTable) -> str:
    r"""Write a table as text.

    Parameters
    ----------
    table : CgatsTable
        Its values hold no line breaks; what is no plain word is put between quotation marks.

    Returns
    -------
    str
        Lines end with a line feed, values are parted by tabs.

    References
    ----------
    ISO 28178:2009, clause 5 (keyword value format), after ANSI CGATS.17.

    Examples
    --------
    >>> table = CgatsTable(fields=("SAMPLE_ID", "LAB_L"), rows=(("A1", "95.00"),))
    >>> write_cgats(table).splitlines()[-3:]
    ['BEGIN_DATA', 'A1\t95.00', 'END_DATA']
    """
    lines = [_FIRST_LINE]
    for name, values in table.keywords.items():
        if name not in _STANDARD:
            lines.append(f"KEYWORD\t{_quoted(name)}")
        lines += [f"{name}\t{_quoted(value)}" for value in values]
    lines += [
        f"NUMBER_OF_FIELDS\t{len(table.fields)}",
        "BEGIN_DATA_FORMAT",
        "\t".join(table.fields),
        "END_DATA_FORMAT",
        f"NUMBER_OF_SETS\t{len(table.rows)}",
        "BEGIN_DATA",
        *("\t".join(_plain(value) for value in row) for row in table.rows),
        "END_DATA",
    ]
    return "\n".join(lines) + "\n"


def _quoted(value: str) -> str:
    # The format has no way to write a quotation mark inside quotation marks.
    return '"' + " ".join(value.split()).replace('"', "'") + '"'


def _plain(value: str) -> str:
    is_word = value != "" and value.isascii() and not set(value) & set(" \t\"'#")
    return value if is_word else _quoted(value)
