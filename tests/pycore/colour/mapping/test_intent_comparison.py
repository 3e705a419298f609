"""Intents compared in figures, and the advice drawn from them."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.transform import Standard
from pycore.colour.mapping.intent_advice import intent_advice, name_of
from pycore.colour.mapping.intent_comparison import CHOICES, IntentFigures, intents_in_turn
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.colour.spaces.arrays import ByteArray
from pycore.contract.job import Intent


def figures(gamut: DeviceGamut, pixels: ByteArray) -> dict[tuple[Intent, bool], IntentFigures]:
    whole = Region(name="face", left=0, top=0, right=pixels.shape[1], bottom=pixels.shape[0])
    compared = intents_in_turn(picture_colours(pixels, [whole]), Standard.SRGB, gamut, threshold_de=2.0)
    return {(one.intent, one.black_point_compensation): one for one in compared}


def greys(low: int, high: int) -> ByteArray:
    return np.repeat(np.arange(low, high, dtype=np.uint8)[None, :, None], 3, axis=2)


def test_every_choice_is_there(gamut: DeviceGamut) -> None:
    assert tuple(figures(gamut, greys(100, 200))) == CHOICES


def test_greys_in_the_middle_are_kept_by_the_relative_intent(gamut: DeviceGamut) -> None:
    found = figures(gamut, greys(110, 200))[Intent.RELATIVE, False]
    assert found.flattened_share == 0.0
    assert found.mean_de < 0.3
    assert (found.shadow_loss, found.highlight_loss) == (0.0, 0.0)


def test_shadows_without_compensation_are_lost(gamut: DeviceGamut) -> None:
    found = figures(gamut, greys(0, 40))
    # derived: all below L* 17 lands on the canvas's black of 20
    assert found[Intent.RELATIVE, False].shadow_loss > 0.95
    assert found[Intent.RELATIVE, False].flattened_share > 0.9
    assert found[Intent.RELATIVE, True].shadow_loss < 0.9
    assert found[Intent.RELATIVE, True].flattened_share == 0.0
    assert found[Intent.RELATIVE, True].harm < found[Intent.RELATIVE, False].harm


def test_saturated_colours_clip_flat(gamut: DeviceGamut) -> None:
    vivid = np.array([[[255, 0, 255], [250, 5, 240], [240, 0, 255]]], dtype=np.uint8)
    found = figures(gamut, vivid)
    assert found[Intent.RELATIVE, True].flattened_share == pytest.approx(1.0)
    assert found[Intent.RELATIVE, True].chroma_change < -20.0


def test_advice_ranks_by_harm(gamut: DeviceGamut) -> None:
    compared = figures(gamut, greys(0, 40))
    advice = intent_advice(list(compared.values()))
    usable = [one for one in compared.values() if one.intent is not Intent.ABSOLUTE]
    best = min(usable, key=lambda one: one.harm)
    assert (advice.intent, advice.black_point_compensation) == (best.intent, best.black_point_compensation)
    assert name_of(best) in advice.reason
    assert f"{best.mean_de:.1f} dE00" in advice.reason


def made_up(intent: Intent, **changes: float) -> IntentFigures:
    values = {
        "outside_share": 0.0,
        "flattened_share": 0.0,
        "mean_de": 1.0,
        "p95_de": 2.0,
        "shadow_loss": 0.0,
        "highlight_loss": 0.0,
        "hue_shift_deg": 0.0,
        "chroma_change": 0.0,
        "harm": 1.5,
    }
    return IntentFigures(intent=intent, black_point_compensation=False, **(values | changes))


def test_advice_says_when_two_are_as_good() -> None:
    advice = intent_advice([made_up(Intent.RELATIVE), made_up(Intent.PERCEPTUAL, harm=1.6)])
    assert advice.intent is Intent.RELATIVE
    assert "about equally well" in advice.reason


def test_the_absolute_intent_is_never_advised() -> None:
    advice = intent_advice(
        [made_up(Intent.ABSOLUTE, harm=0.0), made_up(Intent.RELATIVE), made_up(Intent.PERCEPTUAL, harm=9.0)]
    )
    assert advice.intent is Intent.RELATIVE
    assert "equally" not in advice.reason


def test_a_reason_begins_with_what_speaks_for_the_best() -> None:
    best = made_up(Intent.PERCEPTUAL, mean_de=5.7, flattened_share=0.003, harm=1.0)
    rival = made_up(Intent.RELATIVE, mean_de=4.4, flattened_share=0.107, harm=3.0)
    assert intent_advice([best, rival]).reason.startswith("perceptual flattens 0.3% of the tones and steps")
    assert (
        "; yet it changes the picture by 5.7 dE00 on average, against 4.4"
        in intent_advice([best, rival]).reason
    )
    kinder = made_up(Intent.PERCEPTUAL, mean_de=3.0, flattened_share=0.003, harm=1.0)
    assert intent_advice([kinder, rival]).reason.startswith("perceptual changes the picture by 3.0 dE00")
