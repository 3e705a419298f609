"""Pieces of the client page's markup; every text that a user wrote is escaped here."""

from __future__ import annotations

import html
import re
from typing import Final

from pycore.client.offer import Offer, OfferedVariant
from pycore.client.words import answer_lines, piece_facts

#: What the variants are called, in their order.
LETTERS: Final = "ABCD"

#: What no page can show: controls, and halves of characters that stand alone.
_UNSHOWN: Final = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def showable(text: str) -> str:
    """A user's text without what no page can show, each such character replaced by the sign for it.

    Examples
    --------
    >>> showable("Low\\x00tide") == "Low\\N{REPLACEMENT CHARACTER}tide"
    True
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return _UNSHOWN.sub("\N{REPLACEMENT CHARACTER}", lines)


def escaped(text: str) -> str:
    """A user's text as HTML that shows just that text.

    Examples
    --------
    >>> escaped("</script>")
    '&lt;/script&gt;'
    """
    return html.escape(showable(text))


def message_markup(message: str) -> str:
    """A few words to the client; nothing where there are none."""
    text = message.strip()
    return f'<p class="message" dir="auto">{escaped(text)}</p>' if text else ""


def _label(variant: OfferedVariant, number: int, *, alone: bool) -> str:
    label = escaped(variant.label.strip())
    if alone:
        return f"<bdi>{label}</bdi>" if label else "Your canvas"
    return f"<b>{LETTERS[number]}</b>{f' <bdi>{label}</bdi>' if label else ''}"


def still_markup(variant: OfferedVariant, number: int, address: str, *, alone: bool) -> str:
    """The drawing of a variant with its label; `address` is the picture's, `alone` that there is no other."""
    described = "A drawing of the canvas on the wall, its right and its top side seen"
    described += "." if alone else f": {LETTERS[number]}."
    return (
        f'<figure data-place="{number}"><img src="{address}" alt="{described}">'
        f"<figcaption>{_label(variant, number, alone=alone)}</figcaption></figure>"
    )


def choice_markup(variant: OfferedVariant, number: int, *, alone: bool) -> str:
    """A variant to be chosen, with what the client is told of it."""
    facts = "".join(
        f"<dt>{html.escape(term)}</dt><dd>{html.escape(said)}</dd>" for term, said in piece_facts(variant)
    )
    checked = " checked" if number == 0 else ""
    entry = f'<input type="radio" name="choice" value="{number}"{checked}>'
    return (
        f'<div class="choice"><label>{entry}<span>{_label(variant, number, alone=alone)}</span></label>'
        f"<dl>{facts}</dl></div>"
    )


def answer_text(offer: Offer) -> str:
    """The text that stands ready where no program runs: every variant, to be struck out by hand."""
    alone = len(offer.variants) == 1
    lines: list[str] = []
    for number, one in enumerate(offer.variants):
        lines += [*answer_lines(one, letter=LETTERS[number], alone=alone), ""]
    if not alone:
        lines.insert(0, "(Strike out what you do not choose.)")
    return "\n".join([*lines, "Name:", "Date:"])
