"""The bytes of one tag of a profile, read only through checks of offset, count and size."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.colour.spaces.arrays import FloatArray
from pycore.errors import ProfileError, shown
from pycore.speech import say

_REMEDY = say("the profile is damaged or not what it says; get a fresh copy, or choose another profile")


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """Bytes with a name, so that every complaint names the tag that it is about.

    Parameters
    ----------
    name : str
        For messages, for example `tag A2B0`.
    data : memoryview
        The bytes; never read outside.

    Examples
    --------
    >>> Block(name="tag wtpt", data=memoryview(bytes([0, 1, 0, 0]))).fixeds(0, 1).tolist()
    [1.0]
    """

    name: str
    data: memoryview

    def __len__(self) -> int:
        return len(self.data)

    def part(self, at: int, size: int, *, name: str = "") -> Block:
        """Cut out the block of `size` bytes that begins at `at`.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.
        size : int
            Bytes.
        name : str
            What the part is, for messages; without it, the name of this block.

        Returns
        -------
        Block
            A view; nothing is copied.

        Raises
        ------
        ProfileError
            It would reach outside this block.
        """
        whole = f"{self.name}, {name}" if name else self.name
        if at < 0 or size < 0 or at + size > len(self.data):
            raise ProfileError(
                field=whole,
                expected=say("{size} bytes from byte {at}", size=size, at=at),
                got=say("{data_count} bytes in all", data_count=len(self.data)),
                remedy=_REMEDY,
                said=say(
                    "The profile is damaged at “{whole}”: it should have {size} bytes from byte {at}, "
                    "and has {data_count} bytes in all.",
                    whole=whole,
                    size=size,
                    at=at,
                    data_count=len(self.data),
                ),
            )
        return Block(name=whole, data=self.data[at : at + size])

    def rest(self, at: int, *, name: str = "") -> Block:
        """Cut out everything from `at` on.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.
        name : str
            What the part is, for messages; without it, the name of this block.

        Returns
        -------
        Block
            A view; nothing is copied.

        Raises
        ------
        ProfileError
            `at` lies outside this block.
        """
        return self.part(at, max(len(self.data) - at, 0), name=name)

    def u8(self, at: int) -> int:
        """Read an unsigned byte.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.

        Returns
        -------
        int
            0 to 255.

        Raises
        ------
        ProfileError
            It would reach outside this block.
        """
        return self.part(at, 1).data[0]

    def u16(self, at: int) -> int:
        """Read a big-endian uInt16Number.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.

        Returns
        -------
        int
            0 to 65535.

        Raises
        ------
        ProfileError
            It would reach outside this block.
        """
        return int.from_bytes(self.part(at, 2).data, "big")

    def u32(self, at: int) -> int:
        """Read a big-endian uInt32Number.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.

        Returns
        -------
        int
            0 to 2**32 - 1.

        Raises
        ------
        ProfileError
            It would reach outside this block.
        """
        return int.from_bytes(self.part(at, 4).data, "big")

    def signature(self, at: int) -> str:
        """Read four bytes as Latin-1 text, padding kept.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.

        Returns
        -------
        str
            Four characters.

        Raises
        ------
        ProfileError
            It would reach outside this block.
        """
        return bytes(self.part(at, 4).data).decode("latin-1")

    def u8s(self, at: int, count: int) -> FloatArray:
        """Read unsigned bytes as fractions of full scale.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.
        count : int
            How many numbers.

        Returns
        -------
        (count,) float64
            0 to 1.

        Raises
        ------
        ProfileError
            They would reach outside this block.
        """
        return self._numbers(at, count, "u1") / 255.0

    def u16s(self, at: int, count: int) -> FloatArray:
        """Read uInt16Numbers as fractions of full scale.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.
        count : int
            How many numbers.

        Returns
        -------
        (count,) float64
            0 to 1.

        Raises
        ------
        ProfileError
            They would reach outside this block.
        """
        return self._numbers(at, count, ">u2") / 65535.0

    def fixeds(self, at: int, count: int) -> FloatArray:
        """Read s15Fixed16Numbers.

        Parameters
        ----------
        at : int
            Bytes from the start of this block.
        count : int
            How many numbers.

        Returns
        -------
        (count,) float64
            -32768 to 32768.

        Raises
        ------
        ProfileError
            They would reach outside this block.
        """
        return self._numbers(at, count, ">i4") / 65536.0

    def _numbers(self, at: int, count: int, kind: str) -> FloatArray:
        """So many numbers of a kind of numpy's, from byte `at` of this block on."""
        size = np.dtype(kind).itemsize * count
        return np.frombuffer(self.part(at, size).data, dtype=kind).astype(np.float64)

    def wrong(self, *, expected: str, got: str, remedy: str = _REMEDY, said: str = "") -> ProfileError:
        """Make the error that names what is wrong with this block.

        Parameters
        ----------
        expected, got, remedy, said : str
            As `ProfileError` takes them.

        Returns
        -------
        ProfileError
            To be raised by the caller; its field is the block's name.
        """
        sentence = say(
            "The profile is damaged at “{name}”: it should have {expected}, and has {got}.",
            name=self.name,
            expected=expected,
            got=got,
        )
        return ProfileError(field=self.name, expected=expected, got=got, remedy=remedy, said=said or sentence)

    def require_type(self, *allowed: str) -> str:
        """Read the tag type's signature, one of those allowed.

        Parameters
        ----------
        *allowed : str
            Signatures of four characters.

        Returns
        -------
        str
            The one found.

        Raises
        ------
        ProfileError
            It is another.
        """
        found = self.signature(0)
        if found not in allowed:
            raise self.wrong(
                expected=say("type {allowed}", allowed=say(" or ").join(repr(one) for one in allowed)),
                got=shown(found),
            )
        return found
