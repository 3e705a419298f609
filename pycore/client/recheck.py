"""A written client page, read again and checked before it counts as done."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from html.parser import HTMLParser
from typing import Final

from pycore.client.packing import JPEG_ADDRESS
from pycore.client.report import ClientReport
from pycore.errors import OutputError
from pycore.speech import say

#: A page stays under this.
LARGEST_BYTES: Final = 6_000_000

#: Attributes whose value a browser fetches or goes to.
_FETCHED: Final = frozenset(
    (
        "src",
        "srcset",
        "href",
        "data",
        "action",
        "formaction",
        "poster",
        "background",
        "ping",
        "manifest",
        "cite",
    )
)

_FETCHING_STYLE: Final = re.compile(r"url\s*\(|@import|image-set", re.IGNORECASE)


class _Reader(HTMLParser):
    """Gathers what loads, what runs and what is shown."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.addresses: list[str] = []
        self.handlers: list[str] = []
        self.texts: dict[str, str] = {"script": "", "style": "", "offer": ""}
        self.counts: dict[str, int] = {"script": 0, "style": 0}
        self.policy = ""
        self.choices = 0
        self.stills = 0
        self._inside = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.addresses += [value for name, value in given.items() if name in _FETCHED]
        self.handlers += [name for name in given if name.startswith("on") or name == "style"]
        if tag in self.counts:
            self.counts[tag] += 1
            self._inside = "offer" if given.get("id") == "offer" else tag
        if tag == "meta" and given.get("http-equiv") == "Content-Security-Policy":
            self.policy = given.get("content", "")
        self.choices += tag == "input" and given.get("name") == "choice"
        self.stills += tag == "img"

    def handle_endtag(self, tag: str) -> None:
        if tag in self.counts:
            self._inside = ""

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.texts[self._inside] += data


def check_client_page(data: bytes, *, file: str, variants: int) -> ClientReport:
    """Read a page as a browser would and check it.

    Parameters
    ----------
    data : bytes
        The file as it was written.
    file : str
        Its name.
    variants : int
        How many must be offered.

    Returns
    -------
    ClientReport

    Raises
    ------
    OutputError
        It is too large, loads anything from elsewhere, runs anything but the viewer, or misses a variant.
    """
    reader = _Reader()
    try:
        reader.feed(data.decode("utf-8"))
        reader.close()
        offer = json.loads(reader.texts["offer"])
        offered = len(offer["variants"])
        textures = len(offer["textures"])
    except (ValueError, KeyError, TypeError) as wrong:
        raise _fault(say("a page that can be read again"), str(wrong)) from wrong
    if len(data) >= LARGEST_BYTES:
        raise _fault(say("less than {largest_bytes:,} bytes", largest_bytes=LARGEST_BYTES), f"{len(data):,}")
    outside = [one for one in reader.addresses if not one.startswith(JPEG_ADDRESS)]
    if outside or reader.handlers or _FETCHING_STYLE.search(reader.texts["style"]):
        raise _fault(
            say("nothing that loads from elsewhere"), f"{outside or reader.handlers or 'a style that does'}"
        )
    if reader.counts != {"script": 2, "style": 1}:
        raise _fault(say("one program, one style and the data"), f"{reader.counts}")
    for element in ("script", "style"):
        digest = base64.b64encode(hashlib.sha256(reader.texts[element].encode()).digest()).decode()
        if f"{element}-src 'sha256-{digest}'" not in reader.policy:
            raise _fault(say("a policy that names the {element}", element=element), reader.policy)
    if not reader.policy.startswith("default-src 'none'"):
        raise _fault(say("a policy that forbids everything else"), reader.policy)
    if (offered, reader.choices, reader.stills) != (variants,) * 3 or not 1 <= textures <= variants:
        found = say(
            "{offered} in the data, {choices} to choose, {stills} stills, {textures} textures",
            offered=offered,
            choices=reader.choices,
            stills=reader.stills,
            textures=textures,
        )
        raise _fault(say("{variants} variants", variants=variants), found)
    return ClientReport(file=file, bytes=len(data), variants=offered)


def _fault(expected: str, got: str) -> OutputError:
    return OutputError(
        field="client page",
        expected=expected,
        got=got,
        remedy=say("make it again; report the fault if it comes again"),
        said=say(
            "The written client page is wrong: it should have {expected}, and has {got}.",
            expected=expected,
            got=got,
        ),
    )
