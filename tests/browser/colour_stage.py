"""A page with the stage alone and one flat sheet of patches: colours read back from the screen."""

from __future__ import annotations

import base64
import io
from typing import Any, Final

import numpy as np
from bundle import TWO_FRAMES
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

from pycore.colour.link.device_link import CLIP_FULL_DE, DeviceLink
from pycore.proofing.clip_scale import SCALE_FULL_DE, clip_scale

Bytes = NDArray[np.uint8]

#: Patches down and across, and the pixels of each in the texture.
ROWS, COLUMNS, PATCH = 12, 16, 32
THRESHOLD_DE: Final = 2.0


def some_patches() -> Bytes:
    """(rows, columns, 3): the corners of the cube, greys, and colours at random."""
    rng = np.random.default_rng(20250301)
    colours = rng.integers(0, 256, (ROWS * COLUMNS, 3), dtype=np.uint8)
    colours[:8] = [[255 * (k & 1), 255 * (k >> 1 & 1), 255 * (k >> 2)] for k in range(8)]
    colours[8:16] = np.arange(16, 256, 32, dtype=np.uint8)[:, None]
    return colours.reshape(ROWS, COLUMNS, 3)


#: Puts everything as at the beginning, in one frame; a look that was sent before is not sent again.
BEGIN: Final = """([look, sheet, threshold]) => {
  window.firstLook = look ?? window.firstLook;
  colourPage.setLook(window.firstLook);
  colourPage.setPatches(...sheet);
  colourPage.stage.setColourView("filed");
  colourPage.stage.setThreshold(threshold);
  colourPage.stage.highlight(0);
}"""


class ColourStage:
    """The page with the stage alone."""

    def __init__(self, page: Page, look: dict[str, Any] | None = None) -> None:
        self.page = page
        self._look = look

    def begin(self, patches: Bytes) -> None:
        """Hang a sheet of patches under the first look, everything as at the beginning."""
        sheet = [text_of(patches), COLUMNS, ROWS, PATCH]
        self.page.evaluate(BEGIN, [self._look, sheet, THRESHOLD_DE])
        self._look = None

    def call(self, method: str, *given: Any) -> Any:
        return self.page.evaluate("([name, given]) => colourPage[name](...given)", [method, list(given)])

    def stage(self, method: str, *given: Any) -> None:
        self.page.evaluate("([name, given]) => { colourPage.stage[name](...given) }", [method, list(given)])

    def set_patches(self, patches: Bytes, inked: dict[str, int] | None = None) -> None:
        """Hang a sheet of patches, all of it inked or a part."""
        self.call("setPatches", text_of(patches), COLUMNS, ROWS, PATCH, *([] if inked is None else [inked]))

    def frames(self) -> int:
        return int(self.page.evaluate("colourPage.stage.counters.frames"))

    def settled(self) -> None:
        """Wait until what was asked for has been drawn."""
        self.page.evaluate(TWO_FRAMES)

    def patches(self) -> Bytes:
        """The middles of the patches as the screen shows them."""
        self.settled()
        shot = np.asarray(Image.open(io.BytesIO(self.page.screenshot())).convert("RGB"))
        mm_px = float(self.page.evaluate("colourPage.stage.mmPerPixel()"))
        y = shot.shape[0] / 2 + ((np.arange(ROWS) + 0.5) / ROWS - 0.5) * 300 / mm_px
        x = shot.shape[1] / 2 + ((np.arange(COLUMNS) + 0.5) / COLUMNS - 0.5) * 400 / mm_px
        middles: Bytes = shot[np.ix_(y.astype(int), x.astype(int))]
        return middles

    def drawn(self, view: str, group: int = 0) -> Bytes:
        """The middles of the patches as the drawing without the graphics processor has them."""
        data = base64.b64decode(self.call("pixels", view, THRESHOLD_DE, group))
        pixels = np.frombuffer(data, np.uint8).reshape(ROWS * PATCH, COLUMNS * PATCH, 4)
        assert (pixels[..., 3] == 255).all()
        return pixels[PATCH // 2 :: PATCH, PATCH // 2 :: PATCH, :3]


def text_of(array: NDArray[Any]) -> str:
    return base64.b64encode(np.ascontiguousarray(array).tobytes()).decode("ascii")


def given_look(printed: DeviceLink, filed: DeviceLink | None) -> dict[str, Any]:
    look = {
        "nodes": printed.nodes,
        "curve": text_of(printed.curve()),
        "printed": text_of(printed.halves()),
        "clipFullDe": CLIP_FULL_DE,
        "scale": text_of(clip_scale()),
        "scaleFullDe": SCALE_FULL_DE,
    }
    return look if filed is None else look | {"filed": text_of(filed.halves())}


def through(link: DeviceLink, patches: Bytes) -> Bytes:
    """The patches as the core's table has them: red, green, blue, clip difference."""
    return link.shown(patches)


def worst(one: Bytes, other: Bytes) -> int:
    return int(np.abs(one.astype(int) - other.astype(int)).max())
