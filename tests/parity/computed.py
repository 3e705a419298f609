"""What is computed both natively and inside Pyodide: layout, fill, edges, fold and model of some jobs."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from dataclasses import asdict
from functools import lru_cache
from pathlib import Path
from typing import Any, Final, TypedDict
from unittest.mock import patch

import numpy as np
import numpy.typing as npt
import tifffile
from PIL import Image, ImageDraw
from ticketed import ticket

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.link.convert import Converter
from pycore.colour.link.device_link import make_link
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.contract.check import check_job
from pycore.contract.job import Intent, Job
from pycore.edges.judge import judge
from pycore.edges.working import working_faces
from pycore.fill.checks import picture_area
from pycore.fill.continued_sides import ContinuedPlans
from pycore.fill.sides import fill_sides
from pycore.fold.mesh import fold_mesh
from pycore.fold.report import fold_report
from pycore.fold.spec import fold_spec
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.sheet import fit_sheet
from pycore.layout.window import picture_window
from pycore.model.bars_mesh import bars_mesh
from pycore.model.canvas_mesh import canvas_mesh
from pycore.model.reread import ModelFile
from pycore.model.scene import PanelPart, model_file
from pycore.picture.read import read_picture
from pycore.picture.tones import tones
from pycore.plan.make import make_plan
from pycore.plan.options import PlanJob, PlanOptions, Stock
from pycore.progress import run_to_end
from pycore.proofing.adjust import fitted, pixel_bringer
from pycore.proofing.canvas_profile import illustrative_canvas
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput
from pycore.render.canvas_strips import Strip, canvas_strips
from pycore.render.continued_plans import KeptPlans
from pycore.render.laid_sides import laid_sides
from pycore.render.reduced_copy import whole_copy
from pycore.render.run_on_sides import run_on_sides
from pycore.wall.find_paper import search_paper

Arrays = dict[str, npt.NDArray[Any]]


class _Conversion(TypedDict):
    intent: Intent
    black_point_compensation: bool


#: Between them every finish, pair, kind of corner and fill; sizes that fall on no pixel; a roll; a stretch.
JOBS: Final[dict[str, dict[str, Any]]] = {
    "default": {},
    "soft": {
        "face": {"width_mm": 210, "height_mm": 297},
        "bars": {"depth_mm": 20},
        "sides": {"fill": "mirror", "blur_mm": 7.5, "left": {"fill": "plain", "colour": "#6a4b2f"}},
    },
    "lapped": {
        "face": {"width_mm": 333.3, "height_mm": 177.7},
        "wrap": {"finish": "lapped", "over": "left-right", "corners": "cut-back"},
        "sides": {"fill": "fade", "bottom": {"fill": "drawn-out", "band_mm": 5}},
        "canvas": {"stretch_percent": [1.25, -0.5]},
    },
    "trimmed": {
        "face": {"width_mm": 500, "height_mm": 200},
        "bars": {"depth_mm": 38},
        "wrap": {"finish": "trimmed", "corners": "cut-back", "tab_mm": 12.5},
        "sides": {"fill": "run-on", "right": {"fill": "plain"}},
        "sheet": {"width_mm": 610},
    },
    "continued": {
        "sides": {"fill": "continued", "bottom": {"fill": "plain"}, "left": {"fill": "run-on"}},
    },
    "set back": {"wrap": {"setback_mm": 2.5}, "sides": {"fill": "drawn-out", "band_mm": 0}},
}

#: Those of which the edges are judged: the others have the face and the depth of the last, and its figures.
EDGES: Final = ("soft", "lapped", "trimmed", "continued")

#: Enough pixels that every line of the grid is apart from the next.
FILL_PPI: Final = 18.0

#: Sides are laid in half of the pixels where their edges are judged: the same steps, a quarter of the work.
PLAN_DEPTH: Final = 20

#: Flat, two moments on the way, folded.
MOMENTS: Final = (0.0, 0.3, 0.71, 1.0)


def compute() -> Arrays:
    """All results, by name; integers and bytes are to be equal, floats nearly so."""
    results: Arrays = {}
    for name, tree in JOBS.items():
        job = check_job(tree)
        results |= {f"{name}/{part}": value for part, value in _of_one_job(job)}
        if name in EDGES:
            results |= {f"{name}/{part}": value for part, value in _edges(job)}
    results |= {f"colour/{part}": value for part, value in _colours()}
    results |= {f"cutting/{part}": value for part, value in _numbers("plan", _cut())}
    results["wall/corners"] = _paper()
    named = {"name": "Ebbe, Прилив", "client": "Lindqvarn House", "notes": "Seen from the left first."}
    return results | {"ticket/bytes": np.frombuffer(ticket(named).data, np.uint8)}


def write_results(path: Path) -> None:
    """Compute, and write into a `.npz` file."""
    with path.open("wb") as file:
        np.savez(file, allow_pickle=False, **compute())


def _of_one_job(job: Job) -> Iterator[tuple[str, npt.NDArray[Any]]]:
    yield from _numbers("sizes", asdict(flat_sizes(job)))
    yield from _numbers("sheet", fit_sheet(job).model_dump())
    yield from _numbers("window", asdict(picture_window(job, width_px=6016, height_px=4016)))
    grid = pixel_grid(job, ppi=FILL_PPI)
    yield from _numbers("grid", asdict(grid))
    yield "fill", _filled(job, grid)
    yield from ((f"print of {bits} bits", _printed(job, grid, bits)) for bits in (8, 16))
    mesh = fold_mesh(
        fold_spec(job), columns=(0.0, 0.2, 0.8, 1.0), rows=(0.0, 0.3, 0.7, 1.0), frames_per_stage=4
    )
    yield from _numbers("mesh", asdict(mesh))
    yield from _numbers("model", _modelled(job, grid))
    for at in MOMENTS:
        yield from _numbers(f"fold at {at}", fold_report(job, at=at))


def _edges(job: Job) -> Iterator[tuple[str, npt.NDArray[Any]]]:
    faces = working_faces(job, lambda _job, wide, high: _picture(wide, high), width_px=6016, height_px=4016)
    plans = _kept_plans(pixel_grid(job, ppi=FILL_PPI))
    with patch("pycore.fill.continued_sides.PLAN_DEPTH", PLAN_DEPTH):
        laid, (run_on,) = laid_sides(plans, job), run_on_sides(plans, job)
    yield from _numbers("edges", [asdict(one) for face in faces for one in judge(face, laid, run_on)])


def _colours() -> Iterator[tuple[str, npt.NDArray[Any]]]:
    """A picture in 8 and 16 bits converted, proofed, and brought in within its own space; what clips."""
    canvas = illustrative_canvas().gamut
    pixels = _picture(173, 211)
    wide = pixels.astype(np.uint16) * np.uint16(251)
    options: _Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    converter = Converter(Standard.SRGB, canvas.profile, **options)
    yield "of 8 bits", converter.to_bytes(pixels, row=0, column=0)
    yield "dithered", converter.to_bytes(wide, row=3, column=5)
    yield "of 16 bits", converter.to_words(wide)
    link = make_link(Standard.SRGB, canvas, Standard.SRGB, **options, viewing=Viewing.BLACK)
    yield "proofed", link.shown(pixels)
    as_it_is: _Conversion = {"intent": Intent.ABSOLUTE, "black_point_compensation": False}
    link = make_link(Standard.SRGB, canvas, Standard.SRGB, **as_it_is, viewing=Viewing.CANVAS)
    yield "proofed as it is", link.shown(pixels)
    whole = Region(name="face", left=0, top=0, right=173, bottom=211)
    asked = check_job({"colour": {"bring_in": 1}}).colour
    proof_input = ProofInput(
        pixels=pixels,
        space=Standard.SRGB,
        colours=picture_colours(pixels, [whole]),
    )
    move = pixel_bringer(fitted(proof_input, canvas, asked), proof_input, canvas, asked)
    assert move is not None
    yield "brought in", move(pixels)
    yield "brought in, of 16 bits", move(wide)
    profiles = ProfileStore()
    link = profiles.link(proof_input, asked, viewing=Viewing.BLACK, screen=Standard.SRGB)
    yield "brought in and proofed", link.shown(pixels)
    report = profiles.report(proof_input, asked)
    yield "what clips", report.labels
    shares = [report.outside_share, *(one.share for one in report.regions)]
    shares += [one.share for one in report.groups]
    yield "shares of what clips, in millionths", np.rint(np.array(shares) * 1e6).astype(np.int64)


def _cut() -> dict[str, Any]:
    """How pieces of two stocks are cut: a group, copies, and one that may be turned."""
    sizes = {"wide": (700, 300), "high": (210, 480), "group": (180, 260)}
    jobs = [
        PlanJob(
            name=name,
            job=check_job({"face": {"width_mm": width, "height_mm": height}, "group": {"panels": panels}}),
            copies=copies,
        )
        for (name, (width, height)), panels, copies in zip(sizes.items(), (1, 1, 3), (2, 3, 1), strict=True)
    ]
    stocks = [Stock(width_mm=1118), Stock(width_mm=914, height_mm=1400)]
    return make_plan(jobs, options=PlanOptions(stocks=stocks, gap_mm=5)).model_dump(mode="json")


def _paper() -> npt.NDArray[np.floating[Any]]:
    """The corners of a sheet that is found on a drawn wall, in pixels."""
    rows, columns = np.mgrid[0:1200, 0:1600]
    wall = np.stack([90 + columns // 40, 100 + rows // 40, 80 + (columns + rows) // 70], axis=-1)
    photo = Image.fromarray(wall.astype(np.uint8))
    ImageDraw.Draw(photo).polygon([(500, 330), (900, 380), (890, 930), (480, 910)], fill=(235, 233, 228))
    found = run_to_end(search_paper(photo.reduce(4), [(210.0, 297.0)], focal_px=None, usual_px=400.0))
    assert found is not None
    return found.corners_px


def _modelled(job: Job, grid: PixelGrid) -> dict[str, Any]:
    """A model's document and the numbers of its accessors; its picture is another's work, and left out."""
    panel = PanelPart(centre_mm=(0, 0), texture=b"picture")
    file = ModelFile(model_file(canvas_mesh(job, grid), bars_mesh(job), [panel], name="parity"))
    numbers = [file.numbers(place) for place in range(len(file.tree["accessors"]))]
    return {"tree": file.tree, "numbers": numbers}


def _picture(width_px: int, height_px: int) -> npt.NDArray[np.uint8]:
    """A picture made of whole-number arithmetic alone, the same everywhere."""
    rows, columns = np.mgrid[0:height_px, 0:width_px]
    channels = [(columns * 7 + rows * 3) % 256, (columns * rows) % 251, (rows * 5 + columns // 3) % 256]
    return np.stack(channels, axis=-1).astype(np.uint8)


def _filled(job: Job, grid: PixelGrid) -> npt.NDArray[np.uint8]:
    """The canvas of that picture."""
    picture = _picture(grid.width_px, grid.height_px)
    left, top, right, bottom = picture_area(grid, job)
    canvas = np.full_like(picture, 255)
    canvas[top:bottom, left:right] = picture[top:bottom, left:right]
    continued = _planned(job, grid)
    for _share in fill_sides(
        canvas, grid, job, tones=tones(decode_table(None), channels=3), continued=continued
    ):
        pass
    return canvas


def _printed(job: Job, grid: PixelGrid, bits: int) -> npt.NDArray[Any]:
    """The canvas as a print file holds it, of a smaller picture of 16 bits, enlarged."""
    rows, columns = np.mgrid[0:110, 0:150]
    channels = [columns * 701 + rows * 311, columns * rows * 97, (rows * 5 + columns // 3) * 499]
    wide = (np.stack(channels, axis=-1) % 65536).astype(np.uint16)
    file = io.BytesIO()
    tifffile.imwrite(file, wide, photometric="rgb", metadata=None)
    source = read_picture(file.getvalue(), file="whole-numbers.tif")
    made = canvas_strips(source, job, grid, channels=3, bits=bits, finish=lambda pixels, _first: pixels)
    return np.concatenate([one.pixels.copy() for one in made if isinstance(one, Strip)])


def _planned(job: Job, grid: PixelGrid) -> ContinuedPlans:
    """The plans of what is to be continued."""
    return run_to_end(_kept_plans(grid).plans(job, share=1.0))


@lru_cache(maxsize=1)
def _kept_plans(grid: PixelGrid) -> KeptPlans:
    """Plans from the same picture as a file."""
    file = io.BytesIO()
    Image.fromarray(_picture(grid.width_px, grid.height_px)).save(file, "PNG", compress_level=1)
    source = read_picture(file.getvalue(), file="whole-numbers.png")
    return KeptPlans(source, whole_copy(source))


def _numbers(name: str, value: Any) -> Iterator[tuple[str, npt.NDArray[Any]]]:
    """Nested data as its arrays, all its floats in order, and the text of what is left without them."""
    floats: list[float] = []
    arrays: Arrays = {}

    def without_floats(at: str, node: Any) -> Any:
        if isinstance(node, dict):
            return {key: without_floats(f"{at}/{key}", one) for key, one in node.items()}
        if isinstance(node, list | tuple):
            return [without_floats(f"{at}/{index}", one) for index, one in enumerate(node)]
        if isinstance(node, np.ndarray):
            arrays[at] = node
            return "array"
        if isinstance(node, float):
            floats.append(float(node))
            return "float"
        return node

    text = json.dumps(without_floats(name, value))
    yield f"{name}/text", np.frombuffer(text.encode(), np.uint8)
    yield f"{name}/floats", np.array(floats, np.float64)
    yield from arrays.items()
