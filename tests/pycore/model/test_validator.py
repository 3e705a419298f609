"""The Khronos validator and an independent reader, on models of every finish."""

from __future__ import annotations

import io
import itertools
import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pycore.contract.job import Job
from pycore.model.report import ModelColours
from pycore.model.reread import check_model

from .made_model import made, ramp, small_job

pytestmark = pytest.mark.native

ROOT = Path(__file__).parents[3]

#: Every finish with each pair over and both kinds of corner.
JOBS: dict[str, Job] = {
    f"{finish} {over} {corners}": small_job(wrap={"finish": finish, "over": over, "corners": corners})
    for finish, over, corners in itertools.product(
        ("tucked", "lapped", "trimmed"), ("top-bottom", "left-right"), ("whole", "cut-back")
    )
} | {
    "three panels": small_job(group={"panels": 3, "gap_mm": 20}),
    "three joined, hung down": small_job(group={"panels": 3, "hung": "down", "across_gap": "joined"}),
    "set back": small_job(wrap={"setback_mm": 2}),
    "no turn-over": small_job(wrap={"turnover_mm": 0, "ink_over_mm": 0}, name="Øy & «fjord»"),
    "5 m": small_job(face={"width_mm": 5000, "height_mm": 400}),
}

#: What the validator remarks without blame: a texture need not be 2^n wide, nor a bar's coordinate used.
REMARKS = {"IMAGE_NPOT_DIMENSIONS"}


def _validated(files: list[Path]) -> list[dict[str, Any]]:
    node = shutil.which("node")
    assert node is not None
    script = ROOT / "web" / "tools" / "validate_model.mjs"
    run = subprocess.run(
        [node, str(script), *map(str, files)], capture_output=True, text=True, check=True, timeout=60
    )
    reports: list[dict[str, Any]] = json.loads(run.stdout)
    return reports


def test_the_validator_finds_no_error_and_no_warning(tmp_path: Path) -> None:
    files = []
    for number, job in enumerate(JOBS.values()):
        files.append(tmp_path / f"{number}.glb")
        files[-1].write_bytes(made(job, texture_px=20_000).data)
    # With a profile of its own, and in the colours of the file.
    files.append(tmp_path / "profiled.glb")
    profile = (ROOT / "tests" / "pycore" / "colour" / "data" / "matrix-v4.icc").read_bytes()
    filed = ramp(profile=profile)
    files[-1].write_bytes(made(small_job(), filed, colours=ModelColours.FILED, texture_px=20_000).data)
    for name, report in zip([*JOBS, "profiled"], _validated(files), strict=True):
        issues = report["issues"]
        assert (name, issues["numErrors"], issues["numWarnings"], issues["numHints"]) == (name, 0, 0, 0)
        assert {one["code"] for one in issues["messages"]} <= REMARKS
        assert report["info"]["hasMorphTargets"]
        assert report["info"]["animationCount"] == 1


def test_the_validator_would_find_a_wrong_number(tmp_path: Path) -> None:
    data = bytearray(made(small_job(), texture_px=20_000).data)
    place = data.index(b'"max":[') + len(b'"max":[')
    data[place : place + 1] = b"9"
    file = tmp_path / "wrong.glb"
    file.write_bytes(data)
    (report,) = _validated([file])
    assert report["issues"]["numErrors"] > 0


@pytest.mark.parametrize("name", list(JOBS))
def test_another_reader_measures_the_same(name: str) -> None:
    job = JOBS[name]
    model = made(job, texture_px=20_000)
    report = check_model(model.data, file="a.glb", size_mm=model.size_mm, texture_px=model.texture_px)
    import trimesh

    scene = trimesh.load_scene(io.BytesIO(model.data), file_type="glb")
    panels = job.group.panels
    # A panel is the print side, the raw back and the bars.
    assert len(scene.graph.nodes_geometry) == 3 * panels
    placed = [scene.geometry[scene.graph[node][1]] for node in scene.graph.nodes_geometry]
    assert sum(len(one.faces) for one in placed) == report.triangles
    across, up, deep = np.ptp(scene.bounds, axis=0) * 1000
    wide, high, depth = model.size_mm
    # Derived: each further panel hangs a face, two thicknesses and a gap further on.
    is_across = job.group.hung == "across"
    step = (160 if is_across else 140) + 0.9 + job.group.gap_mm
    further = (panels - 1) * step
    expected = (wide + further, high, depth) if is_across else (wide, high + further, depth)
    assert (across, up, deep) == pytest.approx(expected, abs=0.01)
