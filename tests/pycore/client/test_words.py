"""What the client reads."""

from __future__ import annotations

from pycore.client.offer import make_offer
from pycore.client.words import length_words, piece_facts, sides_words, size_words
from pycore.contract.check import check_job
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore

from .made_page import preview, variants

TIMES = "\N{MULTIPLICATION SIGN}"


def test_sizes_are_in_both_units() -> None:
    # Derived: ISO 216 A4, 210 / 25.4 = 8.268 and 297 / 25.4 = 11.693.
    assert size_words(210, 297) == f"210 {TIMES} 297 mm (8.27 {TIMES} 11.69 in)"
    # Derived: 25.4 mm is one inch exactly.
    assert length_words(25.4) == "25.4 mm (1 in)"


def test_sides_that_differ_are_told_one_by_one() -> None:
    job = check_job({"sides": {"fill": "plain", "left": {"fill": "run-on"}}})
    assert sides_words(job) == (
        "top: one plain colour; right: one plain colour; bottom: one plain colour; "
        "left: the picture itself runs on round the edge"
    )


def test_a_group_is_told_by_its_panels_and_as_a_whole() -> None:
    group = {"panels": 3, "gap_mm": 40}
    offer = run_to_end(make_offer(variants({"group": group}), preview(640, 240), ProfileStore()))
    facts = dict(piece_facts(offer.variants[0]))
    assert facts["Panels"] == f"3, each 160 {TIMES} 120 mm (6.3 {TIMES} 4.72 in), 40 mm (1.57 in) apart"
    # Derived: 3 x (160 + 0.9) + 2 x 40 = 562.7; 562.7 / 25.4 = 22.15; 120.9 / 25.4 = 4.76.
    assert facts["Together"] == f"562.7 {TIMES} 120.9 mm (22.15 {TIMES} 4.76 in)"
    assert "Size" not in facts
    # Derived: a panel's bars are 0.22 x 120 = 26 mm wide: (160 x 120 - 108 x 68) x 20 = 237,120 mm3 of
    # 0.85 x 358.4 to 716.8 kg/m3, 72.2 to 170.0 g; canvas 250.9 x 210.9 mm of 380 g/m2, 20.1 g; 14 staples of
    # 0.2 to 0.4 g; rings and wire 15 to 60 g. Three times 110.1 to 255.7 g, rounded outwards.
    assert facts["Weight"] == "about 330 to 770 g, the whole piece with its bars"
    # Derived: of 562.7 x 120.9 out of 8 : 3, all the width and (562.7 / 120.9) of the shape's 2.667 of the
    # height, 57.3 %; and of that the panels' 482.7 / 562.7, so 49 % is left.
    assert facts["Picture"] == "51 % of it is cropped away by the shape and the gaps"


def test_what_becomes_of_the_picture_is_told() -> None:
    offer = run_to_end(make_offer(variants({"sides": {"fill": "run-on"}}), preview(320, 240), ProfileStore()))
    # Derived: the window's shape is 200.9 : 160.9, the picture's 4 : 3: 1 - (200.9 / 160.9) / (4 / 3), 6 %,
    # is cut away; the face has 160.9 x 120.9 / (200.9 x 160.9) of the rest, so 94 % x 39.8 % = 37 % go round.
    facts = dict(piece_facts(offer.variants[0]))
    assert (
        facts["Picture"] == "6 % of it is cropped away to fit the shape; 37 % of it runs on round the sides"
    )
