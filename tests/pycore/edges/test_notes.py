"""Notes: severity by harm, the place, the field, the better fill in the remedy."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from pycore.contract.job import Crop, Fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.edges.advice import advise
from pycore.edges.judge import EdgeFigures
from pycore.edges.notes import edge_note, mirrored_note
from pycore.edges.report import CropMove, SideReport
from pycore.speech import speaking


def note(side: Side, fill: Fill, **known: Any) -> Note | None:
    figures = replace(EdgeFigures(side, busy=0.0, doubled=0.0, broken=0.0, cut=0.0), **known)
    return edge_note(figures, advise(figures, fill))


def test_a_quiet_side_has_no_note() -> None:
    assert note(Side.TOP, Fill.MIRROR, broken=0.49, doubled=0.4) is None


@pytest.mark.parametrize(("broken", "severity"), [(0.88, Severity.HINT), (0.93, Severity.WATCH)])
def test_severity_follows_the_harm(broken: float, severity: Severity) -> None:
    found = note(Side.TOP, Fill.MIRROR, broken=broken)
    assert found is not None
    assert found.severity is severity


def test_place_field_and_remedy_are_the_side_s() -> None:
    found = note(Side.RIGHT, Fill.RUN_ON, cut=0.82)
    assert found is not None
    assert (found.code, found.place, found.field) == ("side-cut", Place.RIGHT, "sides.right.fill")
    assert "cut 0.82 of 1" in found.message
    assert found.remedy.startswith("Mirror does better: ")
    # The figures that speak for the better fill are values of the note, the same in every language.
    with speaking("de"):
        german = note(Side.RIGHT, Fill.RUN_ON, cut=0.82)
    assert german is not None
    assert german.remedy != found.remedy
    assert german.values == found.values
    assert (found.values["doubled"], found.values["broken"]) == (0.0, 0.0)


def test_a_side_that_became_a_mirror_says_so() -> None:
    figures = EdgeFigures(Side.TOP, busy=0.3, doubled=0.0, broken=0.0, cut=0.0, chevrons=0.9, mirrored=True)
    advice = advise(figures, Fill.CONTINUED)
    found, plain = (edge_note(figures, advice, instead=one) for one in (True, False))
    assert found is not None
    assert plain is not None
    begin, end = "The top side is a mirror, since its lines continued would look worse. It ", "The top side "
    assert found.message.removeprefix(begin) == plain.message.removeprefix(end)
    assert found.message.startswith(begin)
    # What turns the lines back is what is seen.
    assert "“mirror” turns them back" in advice.reason


def laid(side: Side, *, fill: Fill = Fill.CONTINUED, mirrored: bool = True) -> SideReport:
    names = (
        "busy",
        "doubled",
        "broken",
        "cut",
        "chevrons",
        "repeated",
        "smeared",
        "bent",
        "severed",
        "streaked",
    )
    return SideReport(side=side, fill=fill, mirrored=mirrored, **dict.fromkeys(names, 0.0))


def test_sides_that_became_mirrors_are_listed_once() -> None:
    sides = [
        laid(Side.TOP, mirrored=False),
        laid(Side.RIGHT),
        laid(Side.BOTTOM),
        laid(Side.LEFT, fill=Fill.MIRROR),
    ]
    why = "since lines continued would look no better there."
    found = mirrored_note(sides, told=())
    assert found is not None
    assert found.message == f"The right and bottom sides are mirrors, {why}"
    assert (found.code, found.place, found.severity) == ("continued-mirrored", Place.RIGHT, Severity.HINT)
    one = mirrored_note(sides, told=("sides.bottom.fill",))
    assert one is not None
    assert one.message == f"The right side is a mirror, {why}"
    assert mirrored_note(sides, told=("sides.bottom.fill", "sides.right.fill")) is None


def test_the_worse_fault_is_named() -> None:
    found = note(Side.RIGHT, Fill.MIRROR, doubled=0.8, broken=0.6)
    assert found is not None
    assert found.code == "side-doubled"


def test_without_a_better_fill_the_remedy_is_another_one() -> None:
    found = note(Side.LEFT, Fill.RUN_ON, cut=0.5, doubled=1.0, broken=1.0, streaked=1.0, smeared=1.0)
    assert found is not None
    assert found.remedy.startswith("No other fill does clearly better")


def test_a_move_of_the_crop_stands_before_another_fill() -> None:
    figures = EdgeFigures(Side.LEFT, busy=0.0, doubled=0.0, broken=0.0, cut=0.0, bent=0.9, severed=0.6)
    move = CropMove(right_mm=-6.5, down_mm=0, crop=Crop(x=0, y=0, width=0.9, height=1))
    found = edge_note(figures, advise(figures, Fill.CONTINUED), move)
    assert found is not None
    assert (found.code, found.field) == ("side-severed", "sides.left.fill")
    assert "shows a stub" in found.message
    moved, other = found.remedy.split(". ", 1)
    assert moved == "Move the crop 6.5 mm to the left: then the front edge cuts nothing there"
    assert other.startswith("Mirror does better: ")
