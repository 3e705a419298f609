"""The main job in Firefox and in WebKitGTK, with what Chromium and the command line make of it beside it."""

from __future__ import annotations

import datetime
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from build.service import write_service
from conftest import UNDER, watched_page
from driven import Driven, DrivenChromium
from driven_firefox import NAMES as FIREFOX_NAMES
from driven_firefox import driven_firefox
from driven_webkit import BROWSERS as WEBKIT_BROWSERS
from driven_webkit import NAME as WEBKIT_DRIVER
from driven_webkit import driven_webkit
from main_job_steps import MainJob
from native_core import PREVIEW_PX, open_native_server
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser
from served import served
from test_access import AXE, TAGS

from pycore.client.recheck import check_client_page
from pycore.serving.server import open_server

pytestmark = pytest.mark.browser

#: What other browsers make of Pyodide is its subject.
IN_PYODIDE = True

#: A small lying face with 20 mm bars, at a resolution that prints in seconds.
FIELDS: Final = {
    "face.width_mm": "180",
    "face.height_mm": "120",
    "bars.depth_mm": "20",
    "sheet.width_mm": "329",
    "sheet.height_mm": "483",
    "print.ppi": "120",
}

WORDS: Final = "See the sides."

#: From here on a canvas on the wall has as many pixels as in the tests with a native core: most of what a
#: change costs is to bring it there. Print files have all of theirs.
FEWER_PIXELS: Final = f"""
const post = Worker.prototype.postMessage;
Worker.prototype.postMessage = function (message, ...rest) {{
  if (message.kind === "call" && message.method === "show") {{
    const params = JSON.stringify({{ preview_px: {PREVIEW_PX}, ...JSON.parse(message.params) }});
    return post.call(this, {{ ...message, params }}, ...rest);
  }}
  return post.call(this, message, ...rest);
}};
"""


@pytest.fixture(scope="module")
def site(built: Path, small_demo: bytes, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The built site with what Chromium's pages are given too: a small demo, and little that is kept.

    The service worker keeps the page, but not Python's files.
    """
    folder = tmp_path_factory.mktemp("site") / "dist"
    shutil.copytree(built, folder, ignore=shutil.ignore_patterns("py"))
    (demo,) = (folder / "assets").glob("estuary*.jpg")
    demo.write_bytes(small_demo)
    write_service(folder, late=frozenset())
    shutil.copytree(built / "py", folder / "py")
    with served(open_server(folder, port=0, under=UNDER), under=UNDER) as address:
        yield address


@pytest.fixture(scope="module")
def picture(china: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The photograph as PNG: every browser and the command line decode the same pixels."""
    file = tmp_path_factory.mktemp("picture") / "china.png"
    with Image.open(china) as photograph:
        photograph.save(file)
    return file


def found(*names: str) -> str | None:
    """The first of these programs that this machine has."""
    return next((path for name in names if (path := shutil.which(name))), None)


#: What each browser needs: Debian's package, and the program that it brings.
PROGRAMS: Final = {
    "Firefox": {"firefox-esr": found(*FIREFOX_NAMES), "xvfb": found("Xvfb")},
    "WebKitGTK": {"webkit2gtk-driver": found(WEBKIT_DRIVER), "xvfb": found("Xvfb")},
}


def where_installed(browser: str) -> Any:
    """A browser as a parameter; its tests are left out, with the reason, where this machine has it not."""
    lacking = " ".join(package for package, program in PROGRAMS[browser].items() if program is None)
    reason = f"the main job in {browser} is left out: on Debian, apt-get install {lacking}"
    return pytest.param(browser, marks=pytest.mark.skipif(lacking != "", reason=reason))


@pytest.fixture(scope="module", params=[where_installed(browser) for browser in PROGRAMS])
def started(
    request: pytest.FixtureRequest, site: str, picture: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[MainJob]:
    """A page with the job typed in, in a browser that Debian brings."""
    folder = tmp_path_factory.mktemp(request.param)
    program, screen = (str(one) for one in PROGRAMS[request.param].values())
    opened: AbstractContextManager[Driven]
    if request.param == "Firefox":
        opened = driven_firefox(program, screen=screen, folder=folder)
    else:
        browser = sorted(Path("/usr/lib").glob(WEBKIT_BROWSERS))[-1]
        opened = driven_webkit(program, browser, screen=screen, folder=folder)
    with opened as page:
        job = MainJob(page, site)
        job.start()
        page.run(FEWER_PIXELS)
        facts = job.open_picture(picture)
        assert "640 \N{MULTIPLICATION SIGN} 427 pixels, PNG" in " ".join(facts.split())
        job.set_fields(FIELDS)
        yield job


@pytest.fixture(scope="module")
def in_chromium(browser: Browser, built: Path, small_demo: bytes, picture: Path) -> dict[str, Any]:
    """What Chromium makes of the same steps, with a native core behind the page and no wall.

    That Pyodide makes the same there, `test_main_job.py` asks.
    """
    server = open_native_server(built, under=UNDER)
    with (
        served(server, under=UNDER) as address,
        watched_page(browser, [], small_demo, draws_wall=False) as page,
    ):
        job = MainJob(DrivenChromium(page), address)
        job.start()
        job.open_picture(picture)
        job.set_fields(FIELDS)
        return {"sheet": job.sheet(), "print": job.print_file("png"), "job": job.saved_job()}


def pixels(file: Path) -> NDArray[np.uint8]:
    with Image.open(file) as opened:
        return np.asarray(opened)


def tuckfold(*arguments: str) -> Any:
    """Run the command line; returns what it prints as JSON."""
    command = [sys.executable, "-m", "pycore.cli", *arguments, "--json"]
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True, timeout=120).stdout)


def test_the_job_is_as_it_was_typed(started: MainJob, in_chromium: dict[str, Any]) -> None:
    job = started.saved_job()
    assert job["face"] == {"width_mm": 180, "height_mm": 120}
    assert job["picture"]["file"] == "china.png"
    assert job == in_chromium["job"]


def test_the_wall_shows_the_canvas_folded_and_flat(started: MainJob) -> None:
    seen = started.wall()
    assert seen["flat"] != seen["folded"]
    assert seen["again"] == seen["folded"]


def test_the_sheet_has_chromiums_pixels(started: MainJob, in_chromium: dict[str, Any]) -> None:
    seen = started.sheet()
    assert "The canvas fits on the sheet" in seen["says"]
    assert seen == in_chromium["sheet"]


def test_the_gamut_map_has_the_command_lines_share(started: MainJob, picture: Path, tmp_path: Path) -> None:
    seen = started.gamut_map()
    assert seen["map"] != seen["before"]
    assert "ΔE00" in seen["caption"]
    job = tmp_path / "job.json"
    job.write_text(json.dumps(started.saved_job()), encoding="utf-8")
    figures = tuckfold("clip", str(picture), "--job", str(job))
    face = figures["regions"][0]["share"] * 100
    said = re.match(r"([\d.]+)\s% of the face is out of gamut", seen["says"])
    assert said is not None, seen["says"]
    # Derived: the sentence gives one place under 10 %, none above.
    assert float(said[1]) == pytest.approx(face, abs=0.051 if face < 10 else 0.51)


def test_depths_are_compared(started: MainJob) -> None:
    seen = started.compare_depths()
    assert [" ".join(name.split()) for name in seen["names"]] == ["18 mm", "38 mm", "50 mm"]
    assert len(set(seen["canvases"])) == 3


def test_the_print_file_is_chromiums_and_the_command_lines(
    started: MainJob, in_chromium: dict[str, Any], picture: Path, tmp_path: Path
) -> None:
    job, here, chromiums, lines = (tmp_path / name for name in ("job.json", "a.png", "b.png", "c.png"))
    here.write_bytes(started.print_file("png"))
    chromiums.write_bytes(in_chromium["print"])
    job.write_text(json.dumps(started.saved_job()), encoding="utf-8")
    today = datetime.date.today().isoformat()
    figures = tuckfold("print", str(picture), "--job", str(job), "--out", str(lines), "--date", today)
    made = pixels(here)
    assert made.shape[:2] == (figures["height_px"], figures["width_px"])
    assert np.array_equal(made, pixels(lines))
    assert np.array_equal(made, pixels(chromiums))


def test_axe_finds_nothing_in_eight_states(started: MainJob) -> None:
    found = started.faults(AXE.read_text(encoding="utf-8"), TAGS)
    # Derived: three passes look at two states each, and two at one.
    assert len(found) == 5
    assert {state: faults for state, faults in found.items() if faults != []} == {}


def test_the_client_page_is_made_and_opens_by_itself(started: MainJob, tmp_path: Path) -> None:
    data = started.client_page(WORDS)
    assert check_client_page(data, file="client.html", variants=1).bytes == len(data)
    assert started.thrown() == []
    file = tmp_path / "client.html"
    file.write_bytes(data)
    assert started.hung_client_page(file) == WORDS
