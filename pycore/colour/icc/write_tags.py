"""The tags of profiles that are made here, as bytes."""

from __future__ import annotations

import struct
from collections.abc import Sequence

import numpy as np

from pycore.colour.spaces.arrays import FloatArray
from pycore.errors import FieldError
from pycore.speech import say


def description_tag(text: str) -> bytes:
    """A version 2 `desc` tag.

    Parameters
    ----------
    text : str
        ASCII.

    Returns
    -------
    bytes

    Raises
    ------
    FieldError
        The text is not ASCII.

    References
    ----------
    ICC.1:2001-04, 6.5.17: the ASCII text, no Unicode text, and 67 bytes for a script that none uses.
    """
    ascii_text = _ascii(text)
    return (
        b"desc\0\0\0\0"
        + struct.pack(">I", len(ascii_text))
        + ascii_text
        + struct.pack(">II", 0, 0)
        + struct.pack(">HB", 0, 0)
        + bytes(67)
    )


def text_tag(text: str) -> bytes:
    """A `text` tag.

    Parameters
    ----------
    text : str
        ASCII.

    Returns
    -------
    bytes

    Raises
    ------
    FieldError
        The text is not ASCII.

    References
    ----------
    ICC.1:2022, 10.24.
    """
    return b"text\0\0\0\0" + _ascii(text)


def xyz_tag(xyz: Sequence[float]) -> bytes:
    """An `XYZ ` tag.

    Parameters
    ----------
    xyz : three float

    Returns
    -------
    bytes

    Examples
    --------
    >>> xyz_tag([1.0, 0.5, 0.0])[8:].hex()
    '000100000000800000000000'
    """
    return b"XYZ \0\0\0\0" + _fixed(np.asarray(xyz, dtype=np.float64))


def curve_tag(entries: FloatArray) -> bytes:
    """A `curv` tag.

    Parameters
    ----------
    entries : (n,) float64
        0 to 1, at even steps of what comes in; at least two.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, 10.6.

    Examples
    --------
    >>> curve_tag(np.array([0.0, 1.0]))[8:].hex()
    '000000020000ffff'
    """
    return b"curv\0\0\0\0" + struct.pack(">I", len(entries)) + _wide(entries)


def gamma_tag(gamma: float) -> bytes:
    """A `curv` tag of one entry: a power.

    Parameters
    ----------
    gamma : float
        Rounded to 1 / 256.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, 10.6: a u8Fixed8Number.

    Examples
    --------
    >>> gamma_tag(2.2)[8:].hex()
    '000000010233'
    """
    return b"curv\0\0\0\0" + struct.pack(">IH", 1, round(gamma * 256))


def table_tag(*, curves_in: FloatArray, table: FloatArray, curves_out: FloatArray) -> bytes:
    """A 16-bit table tag (`mft2`).

    Parameters
    ----------
    curves_in : (inputs, entries) float64
        0 to 1.
    table : (nodes, …, nodes, outputs) float64
        0 to 1; as many axes of equal length as there are inputs.
    curves_out : (outputs, entries) float64
        0 to 1.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, 10.10.
    """
    inputs, outputs, nodes = len(curves_in), len(curves_out), table.shape[0]
    head = b"mft2\0\0\0\0" + struct.pack(">BBBB", inputs, outputs, nodes, 0) + _fixed(np.eye(3).ravel())
    sizes = struct.pack(">HH", curves_in.shape[1], curves_out.shape[1])
    return head + sizes + _wide(curves_in.ravel()) + _wide(table.ravel()) + _wide(curves_out.ravel())


def _fixed(values: FloatArray) -> bytes:
    return np.rint(values * 65536.0).astype(">i4").tobytes()


def _wide(values: FloatArray) -> bytes:
    return np.rint(np.clip(values, 0.0, 1.0) * 65535.0).astype(">u2").tobytes()


def _ascii(text: str) -> bytes:
    if not text.isascii():
        raise FieldError(
            field="text", expected="ASCII", got=repr(text), remedy=say("leave out other characters")
        )
    return text.encode("ascii") + b"\0"
