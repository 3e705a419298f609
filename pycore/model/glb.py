"""A glTF 2.0 binary file: its buffer's parts, the accessors on them, and the container.

References
----------
ISO/IEC 12113:2022 (glTF 2.0): 3.6 (buffers, views, accessors), 4.4 (the binary container).
"""

from __future__ import annotations

import json
import struct
from dataclasses import dataclass, field
from enum import IntEnum
from typing import Any, Final

import numpy as np
import numpy.typing as npt

#: "glTF" in little-endian order, the container's version, and the kinds of its two chunks (4.4.2, 4.4.3).
MAGIC: Final = 0x46546C67
VERSION: Final = 2
JSON_CHUNK: Final = 0x4E4F534A
BIN_CHUNK: Final = 0x004E4942

FLOAT: Final = 5126
UNSIGNED_INT: Final = 5125

KINDS: Final = {1: "SCALAR", 2: "VEC2", 3: "VEC3", 4: "VEC4"}

Tree = dict[str, Any]


class Target(IntEnum):
    """What a graphics card does with a part of the buffer (3.6.1.2)."""

    VERTICES = 34962
    INDICES = 34963


@dataclass(eq=False)
class Binary:
    """The one buffer of a file, its views and its accessors, as they are put together."""

    views: list[Tree] = field(default_factory=list)
    accessors: list[Tree] = field(default_factory=list)
    _parts: list[bytes] = field(default_factory=list)
    _length: int = 0

    @property
    def length(self) -> int:
        """Bytes so far; a multiple of 4."""
        return self._length

    def view(self, data: bytes, *, target: Target | None = None) -> int:
        """Add bytes, and return their view's place.

        Parameters
        ----------
        data : bytes
        target : Target or None
            None for pictures and animations.

        Returns
        -------
        int
        """
        view: Tree = {"buffer": 0, "byteOffset": self._length, "byteLength": len(data)}
        if target is not None:
            view["target"] = int(target)
        self.views.append(view)
        # 3.6.2.4: each accessor starts on a multiple of its component's size, here always 4.
        padded = data + bytes(-len(data) % 4)
        self._parts.append(padded)
        self._length += len(padded)
        return len(self.views) - 1

    def accessor(self, values: npt.NDArray[Any], *, target: Target | None = None) -> int:
        """Add numbers, and return their accessor's place.

        Parameters
        ----------
        values : (n,) or (n, 2 to 4) array
            Floats are written as float32, whole numbers as uint32.
        target : Target or None
            None for animations.

        Returns
        -------
        int

        Examples
        --------
        >>> binary = Binary()
        >>> place = binary.accessor(np.array([0.0, 0.5]))
        >>> binary.accessors[place]["max"], binary.accessors[place]["type"], binary.length
        ([0.5], 'SCALAR', 8)
        """
        is_float = np.issubdtype(values.dtype, np.floating)
        numbers = np.ascontiguousarray(values, "<f4" if is_float else "<u4")
        columns = numbers.reshape(len(numbers), -1)
        convert = float if is_float else int
        self.accessors.append(
            {
                "bufferView": self.view(numbers.tobytes(), target=target),
                "componentType": FLOAT if is_float else UNSIGNED_INT,
                "count": len(columns),
                "type": KINDS[columns.shape[1]],
                "min": [convert(value) for value in columns.min(axis=0)],
                "max": [convert(value) for value in columns.max(axis=0)],
            }
        )
        return len(self.accessors) - 1

    def file(self, tree: Tree) -> bytes:
        """The whole file.

        Parameters
        ----------
        tree : dict
            The document, without what the binary itself knows.

        Returns
        -------
        bytes
        """
        known = {
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": self._length}],
        }
        text = json.dumps(tree | known, separators=(",", ":"), allow_nan=False).encode("utf-8")
        # 4.4.3.2: the text is padded with spaces, the buffer with zeros.
        text += b" " * (-len(text) % 4)
        total = 12 + 8 + len(text) + 8 + self._length
        head = struct.pack("<III", MAGIC, VERSION, total)
        head += struct.pack("<II", len(text), JSON_CHUNK) + text
        return b"".join([head, struct.pack("<II", self._length, BIN_CHUNK), *self._parts])
