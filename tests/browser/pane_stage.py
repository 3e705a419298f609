"""The page with a stage alone, hung with pieces as the core folds them."""

from __future__ import annotations

import base64
import io
from typing import Any

import numpy as np
from bundle import TWO_FRAMES
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

from pycore.contract.check import check_job
from pycore.fold.animation import fold_animation
from pycore.layout.grid import pixel_grid, preview_ppi

Bytes = NDArray[np.uint8]

FACE_WIDTH_MM, FACE_HEIGHT_MM = 300.0, 200.0


def text_of(array: NDArray[Any]) -> str:
    """An array's bytes as base64."""
    return base64.b64encode(np.ascontiguousarray(array).tobytes()).decode("ascii")


class PaneStage:
    """What a test does with the page of `panes_page.ts`."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def call(self, method: str, *given: Any) -> Any:
        return self.page.evaluate("([name, given]) => panesPage[name](...given)", [method, list(given)])

    def stage(self, method: str, *given: Any) -> None:
        self.page.evaluate("([name, given]) => { panesPage.stage[name](...given) }", [method, list(given)])

    def counters(self) -> dict[str, int]:
        counters: dict[str, int] = self.page.evaluate("({...panesPage.stage.counters})")
        return counters

    def settled(self) -> None:
        """Wait until what was asked for has been drawn."""
        self.page.evaluate(TWO_FRAMES)

    def screen(self) -> Bytes:
        self.settled()
        return np.asarray(Image.open(io.BytesIO(self.page.screenshot())).convert("RGB"))

    def still(self, width_px: int, height_px: int, **options: Any) -> Bytes:
        png = base64.b64decode(self.call("still", width_px, height_px, options))
        return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))

    def frame(self, width_px: int, height_px: int, turn_rad: float) -> Bytes:
        raw = base64.b64decode(self.call("frame", width_px, height_px, turn_rad))
        return np.frombuffer(raw, np.uint8).reshape(height_px, width_px, 4)

    def give_fold(self, name: str, depth_mm: float) -> None:
        """The fold of a job, as the core sends it to the page."""
        face = {"width_mm": FACE_WIDTH_MM, "height_mm": FACE_HEIGHT_MM}
        job = check_job({"face": face, "bars": {"depth_mm": depth_mm}})
        grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=500_000))
        mesh = fold_animation(job, grid=grid).mesh
        sizes = {
            "faceWidthMm": FACE_WIDTH_MM,
            "faceHeightMm": FACE_HEIGHT_MM,
            "depthMm": depth_mm,
            "turnoverMm": job.wrap.turnover_mm,
        }
        parts = ("positions", "uv", "triangles", "outlines")
        given: dict[str, Any] = {part: text_of(getattr(mesh, part)) for part in parts}
        given |= {"at": mesh.at.tolist(), "creaseCount": mesh.crease_count, "sizes": sizes}
        self.call("giveFold", name, given)

    def give_texture(self, name: str, colours: list[tuple[int, int, int]]) -> None:
        """Rows of plain colour, 100 px each, one above the other."""
        pixels = np.full((100 * len(colours), 150, 4), 255, np.uint8)
        for row, colour in enumerate(colours):
            pixels[row * 100 : (row + 1) * 100, :, :3] = colour
        self.call("giveTexture", name, text_of(pixels), pixels.shape[1], pixels.shape[0])


def piece(
    fold: str, texture: str, *, centre_mm: tuple[float, float] = (0, 0), row: int | None = None
) -> dict[str, Any]:
    """One piece, as the page takes it; of a texture with several rows it shows one."""
    given: dict[str, Any] = {"fold": fold, "texture": texture, "centreMm": list(centre_mm)}
    return given if row is None else given | {"rows": [row * 100, (row + 1) * 100]}
