"""The objects of a PDF file, written one after another, and the table that says where they lie.

Written here rather than by a library, because the libraries at hand hold a picture in memory, most with 8
bits a channel only. ISO 32000-1:2008 is cited by its clauses.
"""

from __future__ import annotations

import zlib
from collections.abc import Generator, Iterable
from typing import BinaryIO

#: 7.5.2: the version; a line of bytes above 127 says that the file is binary.
_HEADER = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"


def number(value: float) -> str:
    """Write a number: no exponents (7.3.3), to a hundred-millionth.

    Parameters
    ----------
    value : float

    Returns
    -------
    str

    Examples
    --------
    >>> number(0.24), number(612.0), number(-1e-12)
    ('0.24', '612', '0')
    """
    text = f"{value:.8f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def numbers(values: Iterable[float]) -> str:
    """Write an array of numbers (7.3.6).

    Parameters
    ----------
    values : iterable of float

    Returns
    -------
    str

    Examples
    --------
    >>> numbers([0, 0, 1108.0629921])
    '[0 0 1108.0629921]'
    """
    return f"[{' '.join(number(value) for value in values)}]"


def text_string(text: str) -> str:
    """Write a text string in hexadecimal: UTF-16 with a byte order mark (7.3.4.3, 7.9.2.2).

    Parameters
    ----------
    text : str
        In any script; half of a surrogate pair becomes a question mark.

    Returns
    -------
    str

    Examples
    --------
    >>> text_string("Ebbe")
    '<FEFF0045006200620065>'
    """
    return f"<FEFF{text.encode('utf-16-be', errors='replace').hex().upper()}>"


class PdfObjects:
    """A PDF file being written.

    Parameters
    ----------
    out : binary file
        Empty; written from its beginning.
    """

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._written = 0
        self._offsets: list[int] = []
        self._write(_HEADER)

    def reserve(self) -> int:
        """Take a number for an object that is written later.

        Returns
        -------
        int
        """
        self._offsets.append(0)
        return len(self._offsets)

    def add(self, body: str, *, as_number: int | None = None) -> int:
        """Write an object (7.3.10).

        Parameters
        ----------
        body : str
            ASCII.
        as_number : int or None
            What was reserved for it; None takes the next number.

        Returns
        -------
        int
            Its number.
        """
        own = self._begin(as_number)
        self._write(f"{body}\nendobj\n".encode("ascii"))
        return own

    def add_stream(self, entries: str, data: bytes) -> int:
        """Write a stream that is in memory, packed (7.3.8, 7.4.4).

        Parameters
        ----------
        entries : str
            Of its dictionary, besides the length and the filter.
        data : bytes

        Returns
        -------
        int
            Its number.
        """
        packed = zlib.compress(data, 9)
        own = self._begin(None)
        entries = f"<< {entries} /Filter /FlateDecode /Length {len(packed)} >>"
        self._write(f"{entries}\nstream\n".encode("ascii") + packed + b"\nendstream\nendobj\n")
        return own

    def stream_parts(self, entries: str, parts: Iterable[tuple[bytes, int]]) -> Generator[int, None, int]:
        """Write a stream part by part; its length stands in an object of its own behind it (7.3.8.2).

        Parameters
        ----------
        entries : str
            Of its dictionary, besides the length; they name the filter by which the parts are packed.
        parts : iterable of (bytes, int)
            Each with how much is done when it is written.

        Yields
        ------
        int
            How much is done.

        Returns
        -------
        int
            Its number.
        """
        length, own = self.reserve(), self._begin(None)
        self._write(f"<< {entries} /Length {length} 0 R >>\nstream\n".encode("ascii"))
        begin = self._written
        for part, done in parts:
            self._write(part)
            yield done
        end = self._written
        self._write(b"\nendstream\nendobj\n")
        self.add(str(end - begin), as_number=length)
        return own

    def finish(self, *, root: int, info: int, identity: str) -> None:
        """Write the table of all objects and the trailer (7.5.4, 7.5.5).

        Parameters
        ----------
        root, info : int
            The numbers of the catalogue and of the document's information.
        identity : str
            Hexadecimal digits that tell this file from others (14.4).
        """
        table = self._written
        count = len(self._offsets) + 1
        lines = [f"xref\n0 {count}\n0000000000 65535 f \n"]
        lines += [f"{offset:010d} 00000 n \n" for offset in self._offsets]
        lines.append(
            f"trailer\n<< /Size {count} /Root {root} 0 R /Info {info} 0 R "
            f"/ID [<{identity}> <{identity}>] >>\nstartxref\n{table}\n%%EOF\n"
        )
        self._write("".join(lines).encode("ascii"))

    def _begin(self, as_number: int | None) -> int:
        own = self.reserve() if as_number is None else as_number
        self._offsets[own - 1] = self._written
        self._write(f"{own} 0 obj\n".encode("ascii"))
        return own

    def _write(self, data: bytes) -> None:
        self._out.write(data)
        self._written += len(data)
