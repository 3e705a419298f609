"""Notes: severity by harm, the place, the field, the better fill in the remedy."""

from __future__ import annotations

import pytest

from pycore.contract.job import Fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.edges.advice import advise
from pycore.edges.judge import EdgeFigures
from pycore.edges.notes import edge_note


def note(side: Side, fill: Fill, **known: float) -> Note | None:
    figures = EdgeFigures(side, **{"busy": 0.0, "doubled": 0.0, "broken": 0.0, "cut": 0.0, **known})
    return edge_note(figures, advise(figures, fill))


def test_a_quiet_side_has_no_note() -> None:
    assert note(Side.TOP, Fill.MIRROR, broken=0.49, doubled=0.49) is None


@pytest.mark.parametrize(("broken", "severity"), [(0.5, Severity.HINT), (0.7, Severity.WATCH)])
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


def test_the_worse_fault_is_named() -> None:
    found = note(Side.RIGHT, Fill.MIRROR, doubled=0.8, broken=0.6)
    assert found is not None
    assert found.code == "side-doubled"


def test_without_a_better_fill_the_remedy_is_another_one() -> None:
    found = note(Side.LEFT, Fill.RUN_ON, cut=0.5, doubled=1.0, broken=1.0, busy=1.0)
    assert found is not None
    assert found.remedy.startswith("No other fill does clearly better")
