"""Flat light: whatever the room's light and the weave, a printed patch measures what the proof says."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any, Final

import numpy as np
import pytest
from bundle import EMPTY, bundled
from colour_stage import (
    COLUMNS,
    ROWS,
    Bytes,
    ColourStage,
    given_look,
    some_patches,
    through,
    worst,
)
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser

from pycore.client.surroundings import Beside, LightFrom, Surroundings, Wall
from pycore.colour.gamut.device_gamut import make_device_gamut
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.colour.link.device_link import DeviceLink, make_link
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Intent

pytestmark = pytest.mark.browser

#: A room that changes every colour as far as it can.
STRONG: Final = Surroundings(wall=Wall.SLATE, light_from=LightFrom.RIGHT, light_kelvin=2700)


@pytest.fixture(scope="module")
def printed() -> DeviceLink:
    """A picture in sRGB, as it prints on the illustrative canvas, for an sRGB screen."""
    return make_link(
        Standard.SRGB,
        make_device_gamut(parse_profile(illustrative_profile())),
        Standard.SRGB,
        intent=Intent.RELATIVE,
        black_point_compensation=True,
        viewing=Viewing.CANVAS,
    )


@pytest.fixture(scope="module")
def expected(printed: DeviceLink) -> Bytes:
    """What the core's table says of every patch."""
    return through(printed, some_patches())[..., :3]


@pytest.fixture(scope="module")
def stage(
    browser: Browser, printed: DeviceLink, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[ColourStage]:
    context = browser.new_context(viewport={"width": 640, "height": 480})
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.set_content(EMPTY)
    script = bundled("tests/web/stage/colour_page.ts", tmp_path_factory.mktemp("stage"))
    page.add_script_tag(content=script)
    shown = ColourStage(page)
    shown.call("setLook", given_look(printed, None))
    shown.set_patches(some_patches())
    shown.stage("setColourView", "printed")
    yield shown
    context.close()
    assert complaints == []


def surround(stage: ColourStage, surroundings: Surroundings, **changed: Any) -> None:
    given = Surroundings.model_validate({**surroundings.model_dump(), **changed})
    stage.stage("setSurroundings", given.model_dump(mode="json"))
    stage.stage("setView", "front")
    stage.settled()


@pytest.mark.parametrize("room", [Surroundings(), STRONG])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_patch_is_the_proofs(
    stage: ColourStage, expected: Bytes, room: Surroundings, theme: str
) -> None:
    stage.stage("setTheme", theme)
    surround(stage, room, flat_light=True)
    # derived: screen and core each round once to 8 bits, so the two may differ by one level.
    assert worst(stage.patches(), expected) <= 1


def test_without_it_a_warm_room_is_seen(stage: ColourStage, expected: Bytes) -> None:
    surround(stage, STRONG)
    seen = stage.patches().astype(int)
    white = expected.reshape(-1, 3).sum(axis=1).argmax()
    red, _, blue = seen.reshape(-1, 3)[white]
    # The warm light takes blue away; the whitest patch shows it best.
    assert red - blue > 40
    assert worst(seen.astype(np.uint8), expected) > 40


def test_neutral_light_on_the_face_is_the_proof_too(stage: ColourStage, expected: Bytes) -> None:
    """At 5000 K, too far off for threads to be seen, the room leaves the face's colours alone."""
    for light_from in LightFrom:
        surround(stage, Surroundings(light_from=light_from))
        assert worst(stage.patches(), expected) <= 1


def near(stage: ColourStage) -> tuple[Bytes, NDArray[np.bool_]]:
    """The picture from so near that threads show, and which pixels lie inside the middle patches."""
    canvas = stage.page.locator("canvas")
    canvas.focus()
    for _ in range(12):
        canvas.press("+")
    stage.settled()
    stage.settled()
    shot = np.asarray(Image.open(io.BytesIO(stage.page.screenshot())).convert("RGB"))
    mm_px = float(stage.page.evaluate("colourPage.stage.mmPerPixel()"))
    assert mm_px < 0.16, "the test needs a camera so near that the weave is fully drawn"
    y = (np.arange(shot.shape[0]) + 0.5 - shot.shape[0] / 2) * mm_px
    x = (np.arange(shot.shape[1]) + 0.5 - shot.shape[1] / 2) * mm_px
    # A patch is 25 x 25 mm; the face's centre is a corner of four of them.
    inner = (np.abs(y) > 3) & (np.abs(y) < 22)
    across = (np.abs(x) > 3) & (np.abs(x) < 22)
    return shot, np.logical_and.outer(inner, across)


def test_the_weave_leaves_it_alone(stage: ColourStage, expected: Bytes) -> None:
    """Near by, every pixel of the middle patches is the proof's; in the room's light threads show."""
    surround(stage, STRONG, flat_light=True)
    shot, inside = near(stage)
    rows, columns = np.nonzero(inside)
    row = ROWS // 2 - (rows < shot.shape[0] / 2)
    column = COLUMNS // 2 - (columns < shot.shape[1] / 2)
    assert len(rows) > 1000
    assert worst(shot[rows, columns], expected[row, column]) <= 1
    stage.stage("setSurroundings", Surroundings().model_dump(mode="json"))
    stage.settled()
    woven = np.asarray(Image.open(io.BytesIO(stage.page.screenshot())).convert("RGB"))
    assert worst(woven[rows, columns], expected[row, column]) > 8


def test_what_stands_beside_changes_no_patch(stage: ColourStage, expected: Bytes) -> None:
    """The camera steps back for a door; the patch at the face's middle is still the proof's."""
    surround(stage, Surroundings(), flat_light=True)
    mm_before = float(stage.page.evaluate("colourPage.stage.mmPerPixel()"))
    surround(stage, Surroundings(), beside=Beside.DOOR, flat_light=True)
    mm_after = float(stage.page.evaluate("colourPage.stage.mmPerPixel()"))
    # derived: the door's frame is 2.07 m high and the face 0.3 m: the picture covers several times as much.
    assert mm_after > 4 * mm_before
    surround(stage, Surroundings(), flat_light=True)
    assert worst(stage.patches(), expected) <= 1
