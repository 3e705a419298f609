"""A written model is measured, and one that is not what was meant is refused."""

from __future__ import annotations

import struct

import numpy as np
import pytest

from pycore.errors import OutputError
from pycore.model.make import Model
from pycore.model.reread import ModelFile, check_model

from .made_model import made, small_job


@pytest.fixture(scope="module")
def model() -> Model:
    return made(small_job())


def test_the_report_is_what_was_meant(model: Model) -> None:
    report = check_model(model.data, file="a.glb", size_mm=model.size_mm, texture_px=model.texture_px)
    # Derived: 160 + 2 x 0.45, 140 + 6 x 0.45, 20 + 6 x 0.45.
    assert report.size_mm == pytest.approx((160.9, 142.7, 22.7), abs=0.005)
    assert (report.bytes, report.texture_px) == (len(model.data), model.texture_px)
    # Derived: tucked has three stages of 2 s.
    assert report.animation_s == 6
    assert report.triangles > 100


def test_a_file_cut_short_is_refused(model: Model) -> None:
    with pytest.raises(OutputError, match="bytes"):
        check_model(model.data[:-4], file="a.glb", size_mm=model.size_mm, texture_px=model.texture_px)
    with pytest.raises(OutputError, match="another"):
        ModelFile(b"glTX" + model.data[4:])
    with pytest.raises(OutputError, match="at least 20"):
        ModelFile(b"glTF")


def test_another_size_is_refused(model: Model) -> None:
    wide, high, deep = model.size_mm
    with pytest.raises(OutputError, match=r"it should have 160\.920 x"):
        check_model(model.data, file="a.glb", size_mm=(wide + 0.02, high, deep), texture_px=model.texture_px)
    with pytest.raises(OutputError, match="texture"):
        check_model(model.data, file="a.glb", size_mm=model.size_mm, texture_px=(1, 1))


def test_a_changed_number_is_refused(model: Model) -> None:
    file = ModelFile(model.data)
    mesh = next(one for one in file.tree["meshes"] if one["name"] == "canvas")
    accessor = file.tree["accessors"][mesh["primitives"][0]["attributes"]["POSITION"]]
    start = (
        len(model.data) - len(file.binary) + file.tree["bufferViews"][accessor["bufferView"]]["byteOffset"]
    )
    changed = bytearray(model.data)
    struct.pack_into("<f", changed, start, 9.0)
    with pytest.raises(OutputError, match="numbers from"):
        check_model(bytes(changed), file="a.glb", size_mm=model.size_mm, texture_px=model.texture_px)


def test_only_the_last_moment_is_folded_and_the_first_is_flat(model: Model) -> None:
    file = ModelFile(model.data)
    mesh = next(one for one in file.tree["meshes"] if one["name"] == "canvas")
    front = mesh["primitives"][0]
    folded = file.numbers(front["attributes"]["POSITION"])
    flat = folded + file.numbers(front["targets"][0]["POSITION"])
    assert np.ptp(flat, axis=0) == pytest.approx((0.250, 0.230, 0), abs=1e-6)
    assert mesh["weights"] == [0.0] * len(front["targets"])
    sampler = file.tree["animations"][0]["samplers"][0]
    weights = file.numbers(sampler["output"]).reshape(-1, len(front["targets"]))
    # Each moment is one target at full weight, the last one none.
    assert np.array_equal(weights[:-1], np.eye(len(front["targets"])))
    assert not weights[-1].any()
