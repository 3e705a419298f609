"""What the guide shows is what the core has: drawings and table are current, and drawn as the fold is."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
import write_guide
from guidebook.field_table import field_rows
from guidebook.finishes import shown_spec

from pycore.contract.job import Finish, Job
from pycore.fold.kinds import Kind
from pycore.fold.scene import BACK, BENCH, WALL, Look, View, scene
from pycore.fold.stages import stages_of

pytestmark = pytest.mark.native

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    return write_guide.drawings()


def numbers(text: str) -> list[float]:
    return [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", re.sub(r"<style>.*?</style>", "", text))]


def test_the_committed_drawings_are_those_that_are_made(made: dict[str, str]) -> None:
    assert {path.name for path in write_guide.DRAWINGS.iterdir()} == set(made), (
        "run: python web/write_guide.py"
    )
    for name, text in made.items():
        committed = (write_guide.DRAWINGS / name).read_text(encoding="utf-8")
        assert re.sub(r"[\d.-]+", "", committed) == re.sub(r"[\d.-]+", "", text), name
        # derived: coordinates have one decimal, and another machine's rounding may take the neighbour.
        assert numbers(committed) == pytest.approx(numbers(text), abs=0.11), name


def test_the_committed_table_is_that_of_the_contract() -> None:
    text = write_guide.GUIDE.read_text(encoding="utf-8")
    assert text == write_guide.guide_text(text), "run: python web/write_guide.py"


def test_a_guide_without_a_place_for_the_table_is_refused() -> None:
    with pytest.raises(ValueError, match="no place for the table"):
        write_guide.guide_text("<main></main>")


def test_every_drawing_is_well_formed_and_asks_for_nothing(made: dict[str, str]) -> None:
    for name, text in made.items():
        root = ET.fromstring(text)
        assert root.tag == f"{SVG}svg", name
        assert {one.tag.removeprefix(SVG) for one in root.iter()} <= {"svg", "style", "path", "text"}, name
        assert "http" not in text.replace('xmlns="http://www.w3.org/2000/svg"', ""), name


def test_every_stage_has_its_drawing(made: dict[str, str]) -> None:
    for finish in Finish:
        names = [stage.name for stage in stages_of(shown_spec(finish))]
        for number, name in enumerate(names, start=1):
            assert f"fold-{finish.value}-{number}-{name}.svg" in made


def test_the_table_lists_every_field_once() -> None:
    def leaves(value: object, path: str) -> set[str]:
        if isinstance(value, dict):
            return set().union(*(leaves(one, f"{path}.{name}".lstrip(".")) for name, one in value.items()))
        return {path}

    listed = [row.field for row in field_rows()]
    assert len(listed) == len(set(listed))
    own = {f"sides.{side}" for side in ("top", "right", "bottom", "left")}
    # derived: the four sides' own fills share one line.
    assert set(listed) == leaves(Job().model_dump(mode="json"), "") - own | {
        "sides.top, .right, .bottom, .left"
    }


def test_a_row_says_unit_range_and_default() -> None:
    row = next(row for row in field_rows() if row.field == "bars.depth_mm")
    depth = Job.model_fields["bars"].get_default(call_default_factory=True).depth_mm
    assert (row.unit, row.default) == ("mm", f"{depth:g}")
    # derived from the contract: 6 to 100.
    assert row.values == "6 to 100"


@pytest.mark.parametrize("view", [BENCH, WALL, BACK])
def test_a_view_is_right_handed(view: View) -> None:
    right, down, towards = view.axes
    assert np.cross(right, -down) == pytest.approx(towards)


@pytest.mark.parametrize("finish", list(Finish))
def test_the_layer_on_top_is_drawn_last(finish: Finish) -> None:
    """Seen from the front the over side lies over the folded corner, and a lapped flap over the side."""
    kinds = frozenset({Kind.GUSSET_UNDER, Kind.TAB})
    drawn = [one.paint for one in scene(shown_spec(finish), 1.0, WALL, Look(lit=kinds))]
    shades = [one for one in scene(shown_spec(finish), 1.0, WALL, Look(lit=kinds)) if one.outward[1] > 0.9]
    top = shades[-1].paint if shades else ""
    assert "lit" in drawn
    # derived: fold.layers gives the flap the highest rank when lapped, the over side in the other two.
    assert (top == "lit") == (finish is Finish.LAPPED)
