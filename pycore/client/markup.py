"""Pieces of the client page's markup; every text that a user wrote is escaped here."""

from __future__ import annotations

import html
import re
from typing import Final

from pycore.client.offer import Offer, OfferedVariant
from pycore.client.words import answer_lines, piece_facts
from pycore.speech import say
from pycore.speech.figures import unparted

#: What the variants are called, in their order.
LETTERS: Final = "ABCD"

#: What no page can show: controls, and halves of characters that stand alone.
_UNSHOWN: Final = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def showable(text: str) -> str:
    r"""Replace each character that no page can show by the sign for it.

    Parameters
    ----------
    text : str
        A user's text.

    Returns
    -------
    str
        With line feeds as its only line breaks.

    Examples
    --------
    >>> showable("Low\x00tide") == "Low\N{REPLACEMENT CHARACTER}tide"
    True
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return _UNSHOWN.sub("\N{REPLACEMENT CHARACTER}", lines)


def escaped(text: str) -> str:
    """A user's text as HTML that shows just that text.

    Parameters
    ----------
    text : str
        A user's text.

    Returns
    -------
    str
        HTML.

    Examples
    --------
    >>> escaped("</script>")
    '&lt;/script&gt;'
    """
    return html.escape(showable(text))


def _label(variant: OfferedVariant, number: int, *, alone: bool) -> str:
    label = escaped(unparted(variant.label.strip()))
    if alone:
        return f"<bdi>{label}</bdi>" if label else say("Your canvas")
    return f"<b>{LETTERS[number]}</b>{f' <bdi>{label}</bdi>' if label else ''}"


def still_markup(variant: OfferedVariant, number: int, address: str, *, alone: bool) -> str:
    """Draw up a variant's picture with its label.

    Parameters
    ----------
    variant : OfferedVariant
    number : int
        Its place among the variants, from 0.
    address : str
        The picture's address.
    alone : bool
        Whether there is no other variant.

    Returns
    -------
    str
        HTML.
    """
    described = say("A drawing of the canvas on the wall, its right and its top side seen")
    described += "." if alone else f": {LETTERS[number]}."
    return (
        f'<figure data-place="{number}"><img src="{address}" alt="{described}">'
        f"<figcaption>{_label(variant, number, alone=alone)}</figcaption></figure>"
    )


def choice_markup(variant: OfferedVariant, number: int, *, alone: bool) -> str:
    """Draw up a variant that can be chosen, with its facts.

    Parameters
    ----------
    variant : OfferedVariant
    number : int
        Its place among the variants, from 0; the first is chosen at the start.
    alone : bool
        Whether there is no other variant.

    Returns
    -------
    str
        HTML.
    """
    facts = "".join(
        f"<dt>{html.escape(term)}</dt><dd>{html.escape(unparted(said))}</dd>"
        for term, said in piece_facts(variant)
    )
    checked = " checked" if number == 0 else ""
    entry = f'<input type="radio" name="choice" value="{number}"{checked}>'
    return (
        f'<div class="choice"><label>{entry}<span>{_label(variant, number, alone=alone)}</span></label>'
        f"<dl>{facts}</dl></div>"
    )


def answer_text(offer: Offer) -> str:
    """Write the text for browsers that run no program: every variant, to be struck out by hand.

    Parameters
    ----------
    offer : Offer

    Returns
    -------
    str
        Lines of plain text.
    """
    alone = len(offer.variants) == 1
    lines: list[str] = []
    for number, one in enumerate(offer.variants):
        lines += [*answer_lines(one, letter=LETTERS[number], alone=alone), ""]
    if not alone:
        lines.insert(0, say("(Strike out what you do not choose.)"))
    return "\n".join([*lines, say("Name") + ":", say("Date") + ":"])
