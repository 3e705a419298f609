"""The better fill: what decides, and that advice which is taken leaves nothing to say."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.contract.job import Fill
from pycore.conventions import Side
from pycore.edges.advice import HINT_HARM, advise, harms
from pycore.edges.judge import EdgeFigures

ANY = st.builds(EdgeFigures, st.sampled_from(Side), *[st.floats(0, 1)] * 11)


def figures(**known: Any) -> EdgeFigures:
    return replace(EdgeFigures(Side.LEFT, busy=0.0, doubled=0.0, broken=0.0, cut=0.0), **known)


@pytest.mark.parametrize(
    ("found", "fill", "better"),
    [
        (figures(), Fill.MIRROR, None),
        (figures(broken=0.9, streaked=0.6, cut=0.1), Fill.MIRROR, Fill.RUN_ON),
        (figures(broken=0.9, streaked=0.2, cut=0.8, bent=0.9), Fill.MIRROR, Fill.DRAWN_OUT),
        (figures(broken=0.9, streaked=0.2, cut=0.8), Fill.MIRROR, Fill.CONTINUED),
        (figures(chevrons=0.95, busy=0.7, streaked=0.7, cut=0.8), Fill.MIRROR, Fill.CONTINUED),
        (figures(repeated=0.9, busy=0.7, streaked=0.7, cut=0.8), Fill.MIRROR, Fill.CONTINUED),
        (figures(bent=0.9, busy=0.6, cut=0.8), Fill.CONTINUED, Fill.MIRROR),
        (figures(smeared=0.9, busy=0.6, cut=0.8), Fill.CONTINUED, Fill.MIRROR),
        (
            figures(bent=1, severed=0.6, doubled=0.9, busy=0.6, streaked=0.6, cut=0.9),
            Fill.CONTINUED,
            None,
        ),
        (figures(bent=0.4), Fill.CONTINUED, None),
        (figures(broken=0.9, streaked=0.8, cut=0.8), Fill.MIRROR, Fill.CONTINUED),
        (figures(doubled=0.8, busy=0.1, streaked=0.1, cut=0.8, bent=0.9), Fill.MIRROR, Fill.DRAWN_OUT),
        # An edge of many colours is not drawn out.
        (figures(doubled=0.8, streaked=0.1, cut=0.8, bent=0.9, uneven=0.499), Fill.MIRROR, Fill.DRAWN_OUT),
        (figures(doubled=0.8, streaked=0.1, cut=0.8, bent=0.9, uneven=0.5), Fill.MIRROR, None),
        # What shows the picture as it is comes before what is made up and before what loses it.
        (figures(doubled=0.8, cut=0.3), Fill.MIRROR, Fill.RUN_ON),
        (figures(doubled=0.8, cut=0.8), Fill.MIRROR, Fill.CONTINUED),
        # A cut that is seen is better than a plain fault, but not a plain cut.
        (figures(doubled=1, cut=0.55, streaked=0.9, bent=0.9), Fill.MIRROR, Fill.RUN_ON),
        (figures(doubled=1, cut=0.61, streaked=0.9, bent=0.9), Fill.MIRROR, None),
        (figures(chevrons=0.68, cut=0.55, streaked=0.9, bent=0.9), Fill.MIRROR, None),
        (figures(streaked=0.9, cut=0.3), Fill.DRAWN_OUT, Fill.MIRROR),
        # What is busy all over and has nothing narrow at the edge itself draws out well.
        (figures(busy=0.9), Fill.DRAWN_OUT, None),
        (figures(streaked=0.9, broken=0.8, cut=0.7), Fill.DRAWN_OUT, Fill.MIRROR),
        (figures(streaked=0.9, broken=0.9, cut=0.7), Fill.DRAWN_OUT, Fill.CONTINUED),
        (figures(cut=0.9), Fill.RUN_ON, Fill.MIRROR),
        (figures(cut=0.9, doubled=0.9, busy=0.2), Fill.RUN_ON, Fill.CONTINUED),
        (figures(cut=0.9, doubled=0.9, busy=0.2, bent=0.9), Fill.RUN_ON, Fill.DRAWN_OUT),
        (figures(cut=0.9, doubled=0.9, streaked=0.9, bent=0.9), Fill.RUN_ON, None),
        (figures(broken=0.9), Fill.FADE, Fill.RUN_ON),
        (figures(broken=1, doubled=1, busy=1, cut=1), Fill.PLAIN, None),
        (figures(broken=1, doubled=1, busy=1, cut=1), Fill.CONTINUED, None),
        (figures(broken=1, doubled=1, busy=1, cut=1), Fill.MIRROR, Fill.CONTINUED),
    ],
)
def test_what_decides(found: EdgeFigures, fill: Fill, better: Fill | None) -> None:
    assert advise(found, fill).better is better


@given(ANY, st.sampled_from(Fill))
def test_advice_that_is_taken_leaves_nothing_to_say_but_of_a_cut(found: EdgeFigures, fill: Fill) -> None:
    better = advise(found, fill).better
    if better is not None:
        assert better is not Fill.PLAIN
        again = advise(found, better)
        assert again.better is None
        if again.fault:
            assert (better, again.fault) == (Fill.RUN_ON, "cut")
            # Derived: as far as a cut is still better, as the module states.
            assert again.harm < 0.6


@given(ANY, st.sampled_from(Fill))
def test_the_better_fill_does_plainly_less_harm(found: EdgeFigures, fill: Fill) -> None:
    advice = advise(found, fill)
    assert 0 <= advice.harm <= 1
    assert (advice.reason == "") == (advice.fault == "") == (advice.harm < HINT_HARM)
    if advice.better is not None:
        # Derived: 0.15 less, as the module states.
        assert max(harms(found, advice.better).values()) <= advice.harm - 0.15 + 1e-12


def test_the_reason_has_the_figures() -> None:
    advice = advise(figures(broken=0.9, streaked=0.2, cut=0.8, bent=0.9), Fill.MIRROR)
    assert advice.fault == "broken"
    assert "meets the front edge at a slant (0.90 of 1)" in advice.reason
    assert "streaked 0.20" in advice.reason


def test_a_cut_that_is_seen_is_said_to_be_one() -> None:
    known = {"doubled": 1, "streaked": 0.9, "bent": 0.9}
    assert advise(figures(cut=0.3, **known), Fill.MIRROR).why.startswith("little that is distinct goes round")
    assert advise(figures(cut=0.55, **known), Fill.MIRROR).why == "what it cuts is seen less (cut 0.55)"


def test_harm_is_one_half_where_a_fault_begins_to_be_seen() -> None:
    # derived: the module's table; straight from 0 and on to 1.
    assert harms(figures(broken=0.87), Fill.MIRROR)["broken"] == pytest.approx(0.5)
    assert harms(figures(broken=0.435), Fill.MIRROR)["broken"] == pytest.approx(0.25)
    assert harms(figures(broken=1.0), Fill.MIRROR)["broken"] == pytest.approx(1.0)


def test_faults_of_a_mirror_add_up_to_a_hint_and_no_more() -> None:
    chevrons, twins = figures(chevrons=0.3), figures(doubled=0.416)
    both = replace(chevrons, doubled=0.416)
    assert advise(chevrons, Fill.MIRROR).fault == advise(twins, Fill.MIRROR).fault == ""
    # derived: harms of 0.3 and 0.4 are 0.5 together, and the larger one is named.
    assert harms(both, Fill.MIRROR) == pytest.approx(
        {"doubled": 0.5, "broken": 0, "chevrons": 0.3, "repeated": 0}
    )
    assert advise(figures(chevrons=0.31, doubled=0.42), Fill.MIRROR).fault == "doubled"
    # derived: 0.6 and 0.58 would be 0.84 together; one alone may be as much.
    plain = figures(chevrons=0.6, doubled=0.6)
    assert harms(plain, Fill.MIRROR)["chevrons"] == pytest.approx(0.699)
    assert harms(figures(chevrons=0.9), Fill.MIRROR)["chevrons"] == pytest.approx(0.9)


def test_a_shape_and_a_line_are_spoken_of_before_their_own_slants() -> None:
    # derived: a drawn disc at the edge has about these, a slanted bar has little of `doubled`.
    assert advise(figures(chevrons=1.0, doubled=0.68), Fill.MIRROR).fault == "doubled"
    assert advise(figures(chevrons=1.0, doubled=0.3), Fill.MIRROR).fault == "chevrons"
    assert advise(figures(chevrons=1.0, broken=0.98, doubled=0.18), Fill.MIRROR).fault == "broken"
    assert advise(figures(chevrons=1.0, broken=0.98, doubled=0.68), Fill.MIRROR).fault == "doubled"
    # derived: a disc over plain ground, an eighth of the depth short of it: nothing lies at the edge itself.
    assert advise(figures(chevrons=0.71, repeated=0.77), Fill.MIRROR).fault == "repeated"
    assert advise(figures(chevrons=0.71, repeated=0.5), Fill.MIRROR).fault == "chevrons"


def test_a_thing_that_is_cut_is_what_is_spoken_of() -> None:
    assert advise(figures(bent=0.9, severed=0.6), Fill.CONTINUED).fault == "severed"
    assert advise(figures(bent=0.9, severed=0.3), Fill.CONTINUED).fault == "bent"
    # What is cut and goes on straight is no fault where much is going on, and a stub over calm ground.
    assert advise(figures(bent=0.2, severed=0.9, busy=0.3), Fill.CONTINUED).fault == ""
    assert advise(figures(bent=0.2, severed=0.9), Fill.CONTINUED).fault == "severed"


def test_a_busy_strip_hides_bends() -> None:
    assert harms(figures(bent=0.7), Fill.CONTINUED)["bent"] > 0.5
    assert harms(figures(bent=0.7, busy=0.8), Fill.CONTINUED)["bent"] < 0.5
    # derived: a mirror's faults as well; 0.6 less 0.2 of 0.8 is under 0.52.
    assert harms(figures(doubled=0.6), Fill.MIRROR)["doubled"] > 0.5
    assert harms(figures(doubled=0.6, busy=0.8), Fill.MIRROR)["doubled"] < 0.5
