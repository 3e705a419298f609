"""The client's page, put together: a template, its words, and what the viewer's program reads."""

from __future__ import annotations

import base64
import hashlib
import html
import re
from collections.abc import Generator, Mapping, Sequence
from dataclasses import dataclass
from importlib import resources
from typing import Final

from pycore.client.markup import LETTERS, answer_text, choice_markup, escaped, still_markup
from pycore.client.offer import Offer, make_offer
from pycore.client.offer_data import offer_json
from pycore.client.packing import jpeg_address, packed_textures
from pycore.client.recheck import LARGEST_BYTES
from pycore.client.still import draw_still, room_for
from pycore.client.surroundings import Surroundings
from pycore.client.wall import OfferedWall
from pycore.client.words import (
    EXPECT,
    ILLUSTRATION,
    SCREEN,
    date_words,
)
from pycore.compare.variants import Variant
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import OutputError
from pycore.layout.sheet import fit_sheet
from pycore.progress import Progress
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource
from pycore.speech import language, listed, say

#: Stands in the way of a title that is longer than any window's.
_TITLE_LENGTH: Final = 120

_MARK: Final = re.compile(r"@@([A-Z]+)@@|\[\[([^\[\]]+)\]\]")


@dataclass(frozen=True, kw_only=True, slots=True)
class ClientPage:
    """A page for the client.

    Attributes
    ----------
    data : bytes
        The file, UTF-8.
    notes : list of Note
        What the photographer should know of it.
    """

    data: bytes
    notes: list[Note]


def make_client_page(
    variants: Sequence[Variant],
    preview: PreviewSource,
    profiles: ProfileStore,
    *,
    viewer: bytes,
    message: str,
    date: str,
    surroundings: Surroundings,
    wall: OfferedWall | None = None,
) -> Generator[Progress, None, ClientPage]:
    """Make the page for the client.

    Parameters
    ----------
    variants : sequence of Variant
        One to four. Of their jobs the client sees names, sizes and sides; never notes, files or sheets.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
        Holds the canvas profiles.
    viewer : bytes
        The viewer's program, JavaScript in UTF-8.
    message : str
        A few words to the client.
    date : str
        YYYY-MM-DD.
    surroundings : Surroundings
    wall : OfferedWall, optional
        The client's wall.

    Yields
    ------
    Progress

    Returns
    -------
    ClientPage

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The date is none, or a variant cannot be made.
    OutputError
        The textures cannot be made small enough, or the viewer's program is missing.
    """
    if not viewer.strip():
        raise OutputError(
            field="client page",
            expected=say("the viewer's program"),
            got=say("none"),
            remedy=say("install the package again"),
            said=say("The viewer's program is not installed."),
        )
    day = date_words(date)
    offer = yield from make_offer(variants, preview, profiles)
    yield Progress(done=0.9, label=say("Drawing the stills"))
    room = room_for([one.job for one in offer.variants])
    stills = [jpeg_address(draw_still(one, offer.textures[one.texture], room=room)) for one in offer.variants]
    yield Progress(done=0.95, label=say("Packing the page"))
    style, template = _text("page.css"), _text("page.html")
    program = viewer.decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    first = offer.variants[0]
    answer = answer_text(offer)
    parts = {
        "POLICY": f"default-src 'none'; script-src '{_hash(program)}'; style-src '{_hash(style)}'; "
        "img-src data:; base-uri 'none'; form-action 'none'",
        "TITLE": escaped((first.job.name.strip() or say("A canvas"))[:_TITLE_LENGTH]),
        "LANGUAGE": language(),
        "STYLE": style,
        "FOR": say("For <bdi>{escaped}</bdi>", escaped=escaped(first.job.client))
        if first.job.client.strip()
        else say("For you"),
        "NAME": escaped(first.job.name.strip() or say("A canvas")),
        "DATE": day,
        "MESSAGE": f'<p class="message" dir="auto">{escaped(message.strip())}</p>' if message.strip() else "",
        "STILLS": "\n".join(
            still_markup(one, number, address, alone=len(stills) == 1)
            for number, (one, address) in enumerate(zip(offer.variants, stills, strict=True))
        ),
        "OFFERED": say("What it will be") if len(offer.variants) == 1 else say("Choose one"),
        "CHOICES": "\n".join(
            choice_markup(one, number, alone=len(stills) == 1) for number, one in enumerate(offer.variants)
        ),
        "EXPECT": "\n".join(f"<li>{html.escape(say(one))}</li>" for one in EXPECT),
        "SCREEN": html.escape(f"{say(SCREEN)} {say(ILLUSTRATION)}" if offer.illustration else say(SCREEN)),
        # A line break straight after the tag would be dropped; there is none.
        "ANSWER": escaped(answer),
        "OFFER": "",
        "VIEWER": program,
    }
    bare = len(_filled(template, parts).encode()) + len(offer_json(offer, [], surroundings, wall))
    packed = packed_textures([one.pixels for one in offer.textures], room_bytes=LARGEST_BYTES - bare - 1000)
    parts["OFFER"] = offer_json(offer, packed.addresses, surroundings, wall)
    return ClientPage(data=_filled(template, parts).encode(), notes=_notes(offer, packed.divisor))


def viewer_program() -> bytes:
    """The viewer's program as it comes with the package; nothing where it does not, as in a browser.

    Returns
    -------
    bytes
    """
    program = resources.files("pycore.client") / "data" / "viewer.js"
    return program.read_bytes() if program.is_file() else b""


def _text(name: str) -> str:
    return (resources.files("pycore.client") / "data" / name).read_text(encoding="utf-8")


def _filled(template: str, parts: Mapping[str, str]) -> str:
    """Every mark replaced in one pass, so that text that looks like one stays text; sentences are said."""
    return _MARK.sub(lambda mark: parts[mark[1]] if mark[1] else html.escape(say(mark[2])), template)


def _hash(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _notes(offer: Offer, divisor: int) -> list[Note]:
    notes = []
    if offer.illustration:
        notes.append(
            Note(
                code="client-illustration",
                severity=Severity.HINT,
                place=Place.PICTURE,
                message=say("The client sees the colours of the illustrative canvas, and is told so."),
                remedy=say("Open the profile of your canvas on your printer before you make the page."),
                field="colour.profile",
            )
        )
    short = [
        letter for letter, one in zip(LETTERS, offer.variants, strict=False) if not fit_sheet(one.job).fits
    ]
    if short:
        notes.append(
            Note(
                code="client-sheet-short",
                severity=Severity.WATCH,
                place=Place.SHEET,
                message=say("The client may say yes to what the loaded sheet or roll does not hold.")
                if len(offer.variants) == 1
                else say(
                    "The client may choose what the loaded sheet or roll does not hold: {letters}.",
                    letters=listed(short),
                ),
                remedy=say("Offer what fits, or have a larger sheet or roll ready."),
                field="sheet.width_mm",
            )
        )
    if divisor > 1:
        notes.append(
            Note(
                code="client-coarse",
                severity=Severity.HINT,
                place=Place.PICTURE,
                message=say(
                    "To keep the page under {largest_bytes:g} MB its pictures were reduced to "
                    "1/{divisor} along each side.",
                    largest_bytes=LARGEST_BYTES / 1000000.0,
                    divisor=divisor,
                ),
                remedy=say("Offer fewer variants to show more detail."),
            )
        )
    return notes
