"""Which intent to take for a picture, and why, in its own figures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from pycore.colour.mapping.intent_comparison import IntentFigures
from pycore.contract.job import Intent
from pycore.speech import say

#: Less harm than this apart, two intents are as good as each other. Our own choice.
_AS_GOOD: Final = 0.15

#: What the intents are called in sentences.
INTENT_NAMES: Final = {
    Intent.PERCEPTUAL: say("perceptual"),
    Intent.RELATIVE: say("relative colorimetric"),
    Intent.SATURATION: say("saturation"),
    Intent.ABSOLUTE: say("absolute colorimetric"),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class IntentAdvice:
    """A recommendation, which the user may overrule."""

    intent: Intent
    black_point_compensation: bool
    reason: str


def intent_advice(figures: Sequence[IntentFigures]) -> IntentAdvice:
    """Recommend the intent that harms the picture least.

    Harm is the mean difference, a quarter of the 95th percentile, 20 for the share that is flattened, 10 for
    the shadow and highlight detail lost (each times its share of the picture), and a tenth of the mean shift
    of hue in degrees. The weights are our own; there is no rule that holds for every picture.

    Parameters
    ----------
    figures : sequence of IntentFigures
        At least two.

    Returns
    -------
    IntentAdvice
    """
    # The absolute intent lays the picture's white on the canvas's: for proofs of other prints, not pictures.
    usable = [one for one in figures if one.intent is not Intent.ABSOLUTE]
    ranked = sorted(usable, key=lambda one: one.harm)
    best = ranked[0]
    rival = next(one for one in ranked[1:] if one.intent is not best.intent)
    # It begins with what speaks for the best.
    changes_less = best.mean_de <= rival.mean_de
    text = (
        say(
            "{best} changes the picture by {mean_de:.1f} dE00 on average, {rival} by {mean_de2:.1f}",
            best=name_of(best),
            mean_de=best.mean_de,
            rival=name_of(rival),
            mean_de2=rival.mean_de,
        )
        + say(
            "; it flattens {share:.1%} of the tones and steps, against {share2:.1%}",
            share=best.flattened_share,
            share2=rival.flattened_share,
        )
        if changes_less
        else say(
            "{best} flattens {share:.1%} of the tones and steps, {rival} {share2:.1%}",
            best=name_of(best),
            share=best.flattened_share,
            rival=name_of(rival),
            share2=rival.flattened_share,
        )
    )
    for part, kept, lost in (
        ("shadows", best.shadow_loss, rival.shadow_loss),
        ("highlights", best.highlight_loss, rival.highlight_loss),
    ):
        if max(kept, lost) > 0.05:
            text += say(
                "; it loses {kept:.0%} of the steps in the {part}, against {lost:.0%}",
                kept=kept,
                part=part,
                lost=lost,
            )
    if abs(rival.hue_shift_deg - best.hue_shift_deg) > 0.5:
        text += say(
            "; it shifts hues by {hue_shift_deg:.1f} degrees, against {hue_shift_deg2:.1f}",
            hue_shift_deg=best.hue_shift_deg,
            hue_shift_deg2=rival.hue_shift_deg,
        )
    if not changes_less:
        text += say(
            "; yet it changes the picture by {mean_de:.1f} dE00 on average, against {mean_de2:.1f}",
            mean_de=best.mean_de,
            mean_de2=rival.mean_de,
        )
    if rival.harm - best.harm < _AS_GOOD:
        text += say(". Both do about equally well; compare the proofs")
    return IntentAdvice(
        intent=best.intent, black_point_compensation=best.black_point_compensation, reason=text + "."
    )


def name_of(figures: IntentFigures) -> str:
    """The intent in words.

    Parameters
    ----------
    figures : IntentFigures

    Returns
    -------
    str
    """
    name = say(INTENT_NAMES[figures.intent])
    return (
        say("{name} with black point compensation", name=name) if figures.black_point_compensation else name
    )
