"""Text in ICC tags: `desc` (version 2), `mluc` (version 4) and `text`."""

from __future__ import annotations

from pycore.colour.icc.block import Block
from pycore.speech import say

#: More records than languages exist; a count beyond it is a lie.
_MAX_RECORDS = 1000

#: Longer descriptions are cut in what is shown, never an error.
_MAX_CHARACTERS = 500


def read_text(block: Block) -> str:
    """The text of a tag, in English where several languages are given.

    Parameters
    ----------
    block : Block
        The tag.

    Returns
    -------
    str
        Without control characters, at most 500 characters.

    Raises
    ------
    ProfileError
        The tag is of another type, or its counts and offsets do not fit.

    References
    ----------
    ICC.1:2022, 10.15 (multiLocalizedUnicodeType), 10.24 (textType); ICC.1:2001-04, 6.5.17
    (textDescriptionType).
    """
    kind = block.require_type("desc", "mluc", "text")
    if kind == "desc":
        raw = bytes(block.part(12, block.u32(8), name="text").data).split(b"\0", 1)[0]
        text = raw.decode("latin-1")
    elif kind == "text":
        text = bytes(block.rest(8).data).split(b"\0", 1)[0].decode("latin-1")
    else:
        text = _localised(block)
    return "".join(sign for sign in text if sign.isprintable())[:_MAX_CHARACTERS].strip()


def _localised(block: Block) -> str:
    count, record_bytes = block.u32(8), block.u32(12)
    if not 1 <= count <= _MAX_RECORDS:
        raise block.wrong(expected=say("1 to {max_records} texts", max_records=_MAX_RECORDS), got=str(count))
    if record_bytes != 12:
        raise block.wrong(expected=say("text records of 12 bytes"), got=str(record_bytes))
    records = [
        (block.signature(16 + 12 * index), block.u32(20 + 12 * index), block.u32(24 + 12 * index))
        for index in range(count)
    ]
    by_rank = sorted(records, key=lambda one: (one[0] != "enUS", not one[0].startswith("en")))
    _, length, offset = by_rank[0]
    return bytes(block.part(offset, length, name="text").data).decode("utf-16-be", errors="replace")
