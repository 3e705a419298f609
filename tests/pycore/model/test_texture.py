"""What a model shows at a place is what the print file holds there."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image, ImageCms

from pycore.colour.illustrative.profile import ILLUSTRATIVE_NAME
from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.layout.window import picture_window
from pycore.model.report import ModelColours
from pycore.model.reread import ModelFile
from pycore.model.texture import canvas_texture
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

from .made_model import made, ramp, small_job

Floats = npt.NDArray[np.float64]

TEXTURE_PX = 300_000

#: A marker's half size in the picture, pixels.
MARKER_PX = 12


def _marked() -> SourcePicture:
    """Black, with white squares in a 4 x 4 lattice, the outermost near the edges."""
    pixels = np.zeros((1200, 1600, 3), np.uint8)
    for y in (140, 450, 760, 1060):
        for x in (170, 580, 1010, 1430):
            pixels[y - MARKER_PX : y + MARKER_PX, x - MARKER_PX : x + MARKER_PX] = 255
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return read_picture(out.getvalue(), file="markers.png")


def _markers(pixels: npt.NDArray[np.uint8], inside: tuple[int, int, int, int], ppi: float) -> Floats:
    """Centres of the bright blobs within a window, (n, 2) as (x, y), pixels from the top-left corner."""
    left, top, right, bottom = inside
    shown = pixels[top:bottom, left:right].mean(axis=2)
    centres: Floats = np.array(list(_blobs(shown, ppi))) + np.array([left, top])
    return centres


def _blobs(grey: Floats, ppi: float) -> Iterator[tuple[float, float]]:
    left = grey.copy()
    # A marker is 3 mm wide and round it is black for as much.
    reach = int(np.ceil(2.8 * ppi / MM_PER_INCH))
    while left.max() > 128:
        y, x = np.unravel_index(int(left.argmax()), left.shape)
        rows = slice(max(0, int(y) - reach), int(y) + reach + 1)
        columns = slice(max(0, int(x) - reach), int(x) + reach + 1)
        own = left[rows, columns]
        down, across = np.mgrid[
            rows.start : rows.start + own.shape[0], columns.start : columns.start + own.shape[1]
        ]
        yield (
            float((own * (across + 0.5)).sum() / own.sum()),
            float((own * (down + 0.5)).sum() / own.sum()),
        )
        left[rows, columns] = 0


def _inked(grid: PixelGrid) -> tuple[int, int, int, int]:
    return grid.columns[1], grid.rows[1], grid.columns[4], grid.rows[4]


def _print_pixels(job: Job, source: SourcePicture, folder: Path) -> npt.NDArray[np.uint8]:
    out = folder / "print.png"
    for _ in PrintRun(source, job, kind=FileKind.PNG, out=out, date="2031-04-30").steps():
        pass
    return np.asarray(Image.open(out).convert("RGB"))


def _model_texture(file: ModelFile) -> npt.NDArray[np.uint8]:
    return np.asarray(Image.open(io.BytesIO(file.view(file.tree["images"][0]["bufferView"]))))


def _front(file: ModelFile) -> Any:
    return next(one for one in file.tree["meshes"] if one["name"] == "canvas")["primitives"][0]


@pytest.mark.parametrize("finish", ["tucked", "lapped", "trimmed"])
def test_markers_lie_on_the_same_place_of_print_and_model(finish: str, tmp_path: Path) -> None:
    job = small_job(wrap={"finish": finish}, print={"ppi": 300, "marks": False}, sides={"fill": "mirror"})
    source = _marked()
    printed = _print_pixels(job, source, tmp_path)
    grid = pixel_grid(job, ppi=300)
    assert printed.shape[:2] == (grid.height_px, grid.width_px)
    model = ModelFile(made(job, source, colours=ModelColours.FILED, texture_px=TEXTURE_PX).data)
    texture = _model_texture(model)
    own = pixel_grid(job, ppi=preview_ppi(job, preview_px=TEXTURE_PX))
    in_print = _markers(printed, _inked(grid), 300)
    in_model = _markers(texture, _inked(own), own.ppi)
    # On the face and, mirrored, on the sides.
    assert len(in_print) == len(in_model) > 16
    scale = own.ppi / 300
    for point in in_print * scale:
        assert np.abs(in_model - point).max(axis=1).min() < 0.5

    # Where each marker lies on the model's canvas, by its own coordinates: flat at first, then folded.
    front = _front(model)
    uv = model.numbers(front["attributes"]["TEXCOORD_0"]).astype(np.float64)
    folded = model.numbers(front["attributes"]["POSITION"]).astype(np.float64) * 1000
    flat = folded + model.numbers(front["targets"][0]["POSITION"]) * 1000
    triangles = model.numbers(front["indices"]).reshape(-1, 3)
    middle = np.array([grid.columns[2] + grid.columns[3], grid.rows[2] + grid.rows[3]]) / 2
    from_middle = (in_print - middle) * (MM_PER_INCH / 300) * (1, -1)
    # Derived: the print's face is two thicknesses larger than the bars, 160.9 x 142.7 less 1.8 mm.
    outside = np.array([160.9, 140.9]) / 2
    on_sheet = np.where(
        np.abs(from_middle) < outside,
        from_middle * np.array([160, 140]) / (2 * outside),
        from_middle - np.sign(from_middle) * 0.45,
    )
    half_texel_mm = 0.5 * MM_PER_INCH / own.ppi
    on_face = 0
    for point, printed_at, marker in zip(on_sheet, from_middle, in_print, strict=True):
        if finish == "trimmed" and np.all(np.abs(printed_at) > outside):
            continue  # This corner square is cut away.
        nearest = in_model[np.abs(in_model - marker * scale).max(axis=1).argmin()]
        shown = nearest / (own.width_px, own.height_px)
        assert np.abs(_on_canvas(shown, uv, flat, triangles)[:2] - point).max() < half_texel_mm
        if np.all(np.abs(printed_at) < outside):
            on_face += 1
            here = _on_canvas(shown, uv, folded, triangles)
            # The layers under its corners push the face's edge along the over pair out, by two at most.
            assert abs(here[0] - printed_at[0]) < half_texel_mm
            assert abs(here[1] - printed_at[1]) < half_texel_mm + 0.9
            assert here[2] == pytest.approx(0.45, abs=1e-3)
    assert on_face >= 12


def _on_canvas(point: Floats, uv: Floats, positions: Floats, triangles: npt.NDArray[np.uint32]) -> Floats:
    """The place on the canvas that shows a texture coordinate, by barycentric coordinates."""
    for corners in triangles:
        a, b, c = uv[corners]
        second, third = np.linalg.solve(np.column_stack([b - a, c - a]), point - a)
        if second >= -1e-9 and third >= -1e-9 and second + third <= 1 + 1e-9:
            weights = np.array([1 - second - third, second, third])
            return np.asarray(weights @ positions[corners])
    raise AssertionError(f"no triangle shows {point}")


def test_every_fold_line_of_the_mesh_is_the_print_s_own() -> None:
    """Each edge within half a pixel of the texture, and half of the print's, whose lines are rounded too."""
    job = small_job(face={"width_mm": 163.3, "height_mm": 141.7}, canvas={"stretch_percent": [1.5, -0.5]})
    model = ModelFile(made(job, texture_px=TEXTURE_PX).data)
    uv = model.numbers(_front(model)["attributes"]["TEXCOORD_0"]).astype(np.float64)
    own = pixel_grid(job, ppi=preview_ppi(job, preview_px=TEXTURE_PX))
    grid = pixel_grid(job, ppi=300)
    scale = own.ppi / 300
    for axis, lines, size in ((0, grid.columns, own.width_px), (1, grid.rows, own.height_px)):
        across = np.unique((uv[:, axis] * size).round(4))
        for line in (0, 2, 3, 5):
            off = np.abs(across - lines[line] * scale).min()
            assert off <= 0.5 + 0.5 * scale


def _texture(source: SourcePicture, colours: ModelColours) -> npt.NDArray[np.uint8]:
    job = small_job()
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=60_000))
    return run_to_end(canvas_texture(job, grid, PreviewSource(source), ProfileStore(), colours=colours))


def test_printed_colours_are_the_proof_s_and_bare_canvas_stays_white() -> None:
    filed, printed = (_texture(ramp(), colours) for colours in (ModelColours.FILED, ModelColours.PRINTED))
    assert np.abs(filed.astype(int) - printed).max() > 20
    job = small_job()
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=60_000))
    assert printed[: grid.rows[1]].min() == 255
    assert printed[:, grid.columns[4] :].min() == 255
    assert ProfileStore().profile(ILLUSTRATIVE_NAME).illustration


@pytest.mark.native
def test_a_picture_with_a_profile_is_turned_into_srgb() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain, tagged = (_texture(ramp(profile=one), ModelColours.FILED) for one in (None, profile))
    # The same space twice: at most a level of rounding apart.
    assert np.abs(plain.astype(int) - tagged).max() <= 1


def test_the_window_is_the_print_s_window() -> None:
    """A crop moves the markers of both alike: the first marker of the picture's right half comes first."""
    job = small_job(picture={"crop": {"x": 0.3, "y": 0.1, "width": 0.6, "height": 0.7}})
    use = picture_window(job, width_px=1600, height_px=1200)
    model = ModelFile(made(job, _marked(), colours=ModelColours.FILED, texture_px=TEXTURE_PX).data)
    own = pixel_grid(job, ppi=preview_ppi(job, preview_px=TEXTURE_PX))
    face = (own.columns[2], own.rows[2], own.columns[3], own.rows[3])
    found = _markers(_model_texture(model), face, own.ppi)
    size = np.array([face[2] - face[0], face[3] - face[1]])
    start, share = np.array([use.face.x, use.face.y]), np.array([use.face.width, use.face.height])
    expected = ((np.array([580, 450]) / (1600, 1200)) - start) / share * size + face[:2]
    assert np.abs(found - expected).max(axis=1).min() < 0.5
