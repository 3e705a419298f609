"""The document: panels at their places, the same axes as the fold, one shape for all panels."""

from __future__ import annotations

import pytest

from pycore.layout.group import panel_centres_mm
from pycore.model.reread import ModelFile

from .made_model import made, small_job


def test_panels_hang_at_their_places_and_share_one_shape() -> None:
    job = small_job(name="Low tide", group={"panels": 3, "gap_mm": 20})
    tree = ModelFile(made(job).data).tree
    panels = [node for node in tree["nodes"] if node["name"].startswith("panel")]
    assert [node["name"] for node in panels] == ["panel 1", "panel 2", "panel 3"]
    # Derived: from middle to middle 160 + 2 x 0.45 + 20 mm.
    assert [node["translation"][0] for node in panels] == pytest.approx([-0.1809, 0, 0.1809])
    assert [node["translation"][0] * 1000 for node in panels] == pytest.approx(
        [x for x, _ in panel_centres_mm(job)]
    )
    assert tree["nodes"][0]["name"] == "Low tide"
    canvases = [mesh for mesh in tree["meshes"] if mesh["name"].startswith("canvas")]
    assert len({mesh["primitives"][0]["attributes"]["POSITION"] for mesh in canvases}) == 1
    assert len({mesh["primitives"][0]["material"] for mesh in canvases}) == 3
    assert len(tree["images"]) == 3
    # The fold moves every canvas and no bar.
    moved = {channel["target"]["node"] for channel in tree["animations"][0]["channels"]}
    assert {tree["nodes"][node]["name"] for node in moved} == {"canvas 1", "canvas 2", "canvas 3"}


def test_materials_are_matte_and_the_back_is_bare() -> None:
    tree = ModelFile(made(small_job()).data).tree
    for material in tree["materials"]:
        gloss = material["pbrMetallicRoughness"]
        assert (gloss["metallicFactor"], gloss["roughnessFactor"]) == (0.0, 1.0)
    canvas = next(mesh for mesh in tree["meshes"] if mesh["name"] == "canvas")
    front, back = canvas["primitives"]
    assert tree["materials"][front["material"]]["name"] == "print"
    assert tree["materials"][back["material"]]["name"] == "raw canvas"
    assert "TEXCOORD_0" in front["attributes"]
    assert "TEXCOORD_0" not in back["attributes"]


def test_the_stages_are_named_with_their_times() -> None:
    tree = ModelFile(made(small_job()).data).tree
    stages = tree["animations"][0]["extras"]["stages"]
    assert [one["start_s"] for one in stages] == pytest.approx([0, 2, 4])
    assert [one["end_s"] for one in stages] == pytest.approx([2, 4, 6])
    assert stages[0]["label"] == "Turn left and right against the bars"


def test_the_same_job_gives_the_same_bytes() -> None:
    assert made(small_job()).data == made(small_job()).data
